import { nth } from "../../design/address.js";
import { slotsFrom } from "../../equipment/placement.js";
import { otherSlot } from "../fixes/cards.js";
import type { SiteRule } from "../rule.js";
import { equipped } from "./example-equipment.js";
import { chassisAddress, chassisWords, hasIndoorUnit } from "./site-rules.js";

export const slotDoubled: SiteRule = {
  scope: "network",
  each: "site",
  id: "slot-doubled",
  severity: "error",
  title: "A slot takes one card",
  checks: "Slots of each chassis that the design fills twice, with those that a wide card covers.",
  why: "One of the two cards is ordered for a place that it has not; ports planned on it do not exist.",
  fix: "Another slot for one of them.",
  source: "common practice",
  fixes: otherSlot,
  good: equipped("chassis COPSE {\n  slot 3 MIST\n  slot 4 FERN\n}"),
  bad: equipped("chassis COPSE {\n  slot 3 MIST\n  slot 3 FERN\n}"),
  check({ plan, report }) {
    if (!hasIndoorUnit(plan)) return;
    for (const installed of plan.equipment?.chassis ?? []) {
      const first = new Map<number, number>();
      for (const [index, { slot, card }] of installed.slots.entries()) {
        const slots = card === undefined ? [slot] : slotsFrom(slot, card);
        const doubled = slots.find((one) => first.has(one));
        if (doubled === undefined) for (const one of slots) first.set(one, index);
        else {
          const before = first.get(doubled)!;
          report({
            at: chassisAddress(plan, installed, nth("slot", index)),
            message: `slot ${doubled} of ${chassisWords(plan, installed)} has ${installed.slots[before]?.card?.name ?? "a card"} already; ${card?.name ?? "this card"} does not count`,
            related: [
              {
                at: chassisAddress(plan, installed, nth("slot", before)),
                message: `the first card of slot ${doubled}`,
              },
            ],
          });
        }
      }
    }
  },
};
