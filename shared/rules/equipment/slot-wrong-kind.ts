import { nth } from "../../design/address.js";
import { slotKindOf, slotsFrom } from "../../equipment/placement.js";
import { otherSlot } from "../fixes/cards.js";
import type { SiteRule } from "../rule.js";
import { equipped } from "./example-equipment.js";
import { chassisAddress, chassisWords, hasIndoorUnit, slotsWords } from "./site-rules.js";

export const slotWrongKind: SiteRule = {
  scope: "network",
  each: "site",
  id: "slot-wrong-kind",
  severity: "error",
  title: "A slot must exist and take the card that is put in it",
  checks:
    "Each stated slot, and those above it that a wide card covers, against the slots of the chassis and the kind of slot that the card goes into.",
  why: "The card does not fit, or its connectors do not meet those of the back panel.",
  fix: "Another slot, or leave the slot open to have one chosen.",
  source: "common practice",
  fixes: otherSlot,
  good: equipped("chassis HEDGE {\n  slot 1 HEATH\n  slot 3 MIST\n}"),
  bad: equipped("chassis HEDGE {\n  slot 1 HEATH\n  slot 6 MIST\n}"),
  check({ plan, report }) {
    if (!hasIndoorUnit(plan)) return;
    for (const installed of plan.equipment?.chassis ?? []) {
      const { chassis, slots } = installed;
      if (chassis === undefined || chassis.slots.length === 0) continue;
      for (const [index, { slot, card }] of slots.entries()) {
        if (card === undefined) continue;
        const wanted = slotKindOf(card);
        const kindOf = (one: number) => chassis.slots.find(({ from, to }) => one >= from && one <= to)?.kind;
        const wrong = slotsFrom(slot, card).find((one) => kindOf(one) !== wanted);
        if (wrong === undefined) continue;
        const takes = kindOf(wrong);
        const what = takes === undefined ? `there is no slot ${wrong}` : `slot ${wrong} is a ${takes} slot`;
        report({
          at: chassisAddress(plan, installed, nth("slot", index)),
          message: `${what} in ${chassisWords(plan, installed)}; ${card.name} goes into ${slotsWords(card, wanted)}`,
        });
      }
    }
  },
};
