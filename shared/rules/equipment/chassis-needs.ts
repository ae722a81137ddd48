import { type ChassisLack, chassisLacks } from "../../equipment/chassis-needs.js";
import { addNeeded } from "../fixes/cards.js";
import type { SiteRule } from "../rule.js";
import { equipped } from "./example-equipment.js";
import { chassisAddress, chassisWords, hasIndoorUnit } from "./site-rules.js";

export const chassisNeeds: SiteRule = {
  scope: "network",
  each: "site",
  id: "chassis-needs",
  severity: "error",
  title: "A chassis has the fans and the power cards that it does not work without",
  checks:
    "Fan and power cards of each chassis that has cards, against what it states by `needs`; where it states nothing, one of each kind that it has slots for, which is a warning. A card with its supply built in counts as a power card.",
  why: "What nobody ordered is missed on the day of installation: without a fan the cards switch off, without a power card nothing starts.",
  fix: "Add the cards; or state in the chassis what it needs, `needs 0 fan` where it works without.",
  source: "common practice",
  fixes: addNeeded,
  good: equipped("chassis HEDGE {\n  slot 1 HEATH\n  card BREEZE 2\n  card EMBER\n  card MIST\n}"),
  bad: equipped("chassis HEDGE {\n  slot 1 HEATH\n  slot 6 EMBER\n  card MIST\n}"),
  check({ plan, report }) {
    if (!hasIndoorUnit(plan)) return;
    for (const installed of plan.equipment?.chassis ?? []) {
      const lacks = chassisLacks(installed, plan.placed.cards);
      if (lacks.length === 0) continue;
      report({
        at: chassisAddress(plan, installed),
        severity: lacks.some(({ stated }) => stated) ? undefined : "warning",
        message: `${chassisWords(plan, installed)} ${lacks.map(lackWords).join("; it ")}`,
      });
    }
  },
};

function lackWords({ kind, needed, has, stated }: ChassisLack): string {
  if (!stated) return `has ${kind} slots and no ${kind} card`;
  return `needs ${needed} ${kind} ${needed === 1 ? "card" : "cards"} and has ${has === 0 ? "none" : has}`;
}
