import { nth } from "../../design/address.js";
import type { Card } from "../../design/equipment.js";
import { slotCountOf, slotKindOf } from "../../equipment/placement.js";
import type { SiteRule } from "../rule.js";
import { equipped } from "./example-equipment.js";
import { chassisAddress, chassisWords, hasIndoorUnit } from "./site-rules.js";

export const slotsShort: SiteRule = {
  scope: "network",
  each: "site",
  id: "slots-short",
  severity: "error",
  title: "Every card needs a slot",
  checks: "Cards whose slot is left open against the free slots of their kind.",
  why: "The chassis is full: a second one needs rack height, power and a link between the two.",
  fix: "A larger or a second chassis, or cards with more ports.",
  source: "common practice",
  good: equipped("chassis SPINNEY {\n  card DRIZZLE 6\n}"),
  bad: equipped("chassis SPINNEY {\n  card DRIZZLE 7\n}"),
  check({ plan, report }) {
    if (!hasIndoorUnit(plan)) return;
    for (const { chassis, card, count } of plan.placed.left) {
      const index = chassis.loose.findIndex((one) => one.card === card);
      report({
        at: chassisAddress(plan, chassis, nth("card", Math.max(0, index))),
        message: `${count} of ${card.name} find no ${slotWords(card)} in ${chassisWords(plan, chassis)}`,
      });
    }
  },
};

function slotWords(card: Card): string {
  const count = slotCountOf(card);
  const kind = slotKindOf(card);
  return count === 1 ? `free ${kind} slot` : `${count} free ${kind} slots beside each other`;
}
