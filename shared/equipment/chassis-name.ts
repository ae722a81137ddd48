import type { InstalledChassis } from "../design/equipment.js";
import type { SitePlan } from "./site-plan.js";

/** A chassis at its site: by the catalogue, with its own name where a site has several. */
export function chassisName({ name, chassis }: InstalledChassis, { equipment }: SitePlan): string {
  const many = (equipment?.chassis.length ?? 0) > 1;
  return `${chassis?.name ?? "chassis"}${many ? ` ${name}` : ""}`;
}
