/** What rules about a site's equipment share: where a fact of it stands. */
import { type Address, address, nth } from "../../design/address.js";
import type { Card, InstalledChassis, SlotKind } from "../../design/equipment.js";
import { chassisName } from "../../equipment/chassis-name.js";
import { slotCountOf } from "../../equipment/placement.js";
import type { SitePlan } from "../../equipment/site-plan.js";
import { shown } from "../../words/message.js";
import { noteMessage } from "../../words/notes.js";

/** Whether an indoor unit is stated at the site: without one nothing indoors is judged yet. */
export function hasIndoorUnit({ equipment }: SitePlan): boolean {
  return (equipment?.chassis.length ?? 0) > 0;
}

export function chassisAddress(plan: SitePlan, installed: InstalledChassis, ...steps: string[]): Address {
  const index = plan.equipment?.chassis.indexOf(installed) ?? 0;
  return address("site", plan.site.name, nth("chassis", Math.max(0, index)), ...steps);
}

/** `SPINNEY A at KELD` */
export function chassisWords(plan: SitePlan, installed: InstalledChassis): string {
  return `${chassisName(installed, plan)} at ${plan.site.name}`;
}

/** `a traffic slot`, `2 traffic slots beside each other` */
export function slotsWords(card: Card, kind: SlotKind): string {
  const count = slotCountOf(card);
  return count === 1 ? `a ${kind} slot` : `${count} ${kind} slots beside each other`;
}

/** What was tried before IF ports are told to be short or parted. */
export function searchWords({ ifPorts: { search } }: SitePlan): string | undefined {
  return search === undefined || search === "found"
    ? undefined
    : shown(noteMessage({ code: "ports-searched", search }));
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
