/** What rules about a site's equipment share: where a fact of it stands. */
import { type Address, address, nth } from "../../design/address.js";
import type { InstalledChassis } from "../../design/equipment.js";
import type { SitePlan } from "../../equipment/site-plan.js";

/** Whether an indoor unit is stated at the site: without one nothing indoors is judged yet. */
export function hasIndoorUnit({ equipment }: SitePlan): boolean {
  return (equipment?.chassis.length ?? 0) > 0;
}

export function chassisAddress(plan: SitePlan, installed: InstalledChassis, ...steps: string[]): Address {
  const index = plan.equipment?.chassis.indexOf(installed) ?? 0;
  return address("site", plan.site.name, nth("chassis", Math.max(0, index)), ...steps);
}

/** `chassis A of KELD`; the name is left out where there is one only. */
export function chassisWords(plan: SitePlan, { name, chassis }: InstalledChassis): string {
  const many = (plan.equipment?.chassis.length ?? 0) > 1;
  return `${chassis?.name ?? "chassis"}${many ? ` ${name}` : ""} at ${plan.site.name}`;
}

/** What was tried before IF ports are told to be short or parted. */
export function searchWords({ ifPorts: { search } }: SitePlan): string | undefined {
  if (search === "none") return "All ways to place the open ports were tried: there is none.";
  return search === "given up"
    ? "So many ways to place the open ports were tried that the search was ended; there may be one, and `if-port` states it."
    : undefined;
}

/** So many things are named in a message; the others are counted. */
const TOLD = 4;

export function some(names: readonly string[]): string {
  const more = names.length - TOLD;
  return more > 0 ? `${names.slice(0, TOLD).join(", ")} and ${more} more` : names.join(", ");
}

/** What a sum leaves out, as the end of a sentence. */
export function without(unknown: readonly string[]): string {
  return unknown.length === 0 ? "" : `; ${some(unknown)} not counted, the catalogue has no figure`;
}
