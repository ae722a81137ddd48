/** Any indoor repertoire can be said: chassis with any slots, cards with any ports; sums and rules are those of the text. */
import fc from "fast-check";
import { expect, test } from "vitest";
import type { PortType } from "../../shared/design/equipment.js";
import { slotKindOf, slotsFrom } from "../../shared/equipment/placement.js";
import { portsThere } from "../../shared/equipment/ports.js";
import { siteLoad } from "../../shared/equipment/power.js";
import { sitePlans } from "../../shared/equipment/site-plan.js";
import { equipped } from "../../shared/rules/equipment/example-equipment.js";
import { judgeExample } from "../rules/example-design.js";
import { designOf } from "./designs.js";
import { cards, chassis, PORTS, repertoireOf } from "./repertoire.js";

test("a random chassis with random cards: slots, ports and power are as its text says", () => {
  fc.assert(
    fc.property(chassis, cards, (box, loose) => {
      const { slots, catalogue, lines } = repertoireOf(box, loose);
      const text = equipped(["chassis BOX {", ...lines, "}"].join("\n"), {}, catalogue);
      expect(judgeExample(text).problems).toEqual([]);

      const plan = sitePlans(designOf(text)).get("MOSS")!;
      const asked = loose.reduce((sum, { count }) => sum + count, 0);
      const left = plan.placed.left.reduce((sum, { count }) => sum + count, 0);
      expect(plan.placed.cards.length + left).toBe(asked);
      const taken = plan.placed.cards.flatMap(({ slot, card }) => slotsFrom(slot, card));
      expect(new Set(taken).size).toBe(taken.length);
      const kindOf = (slot: number) => slots.find(({ from, to }) => from <= slot && slot <= to)?.kind;
      for (const { slot, card } of plan.placed.cards)
        for (const one of slotsFrom(slot, card)) expect(kindOf(one)).toBe(slotKindOf(card));
      // No room of a kind stays empty while a card of that kind and width finds none.
      for (const { card } of plan.placed.left)
        for (let slot = 1; slot <= slots.at(-1)!.to; slot++)
          expect(
            slotsFrom(slot, card).every((one) => kindOf(one) === slotKindOf(card) && !taken.includes(one)),
          ).toBe(false);

      const placedOf = (i: number) => plan.placed.cards.filter(({ card }) => card.name === `C${i}`).length;
      const there = portsThere(plan);
      for (const type of PORTS) {
        const count = (list: readonly { count: number; type: PortType }[]) =>
          list.reduce((sum, one) => sum + (one.type === type ? one.count : 0), 0);
        const expected = loose.reduce(
          (sum, { ports }, i) => sum + placedOf(i) * count(ports),
          count(box.ports),
        );
        expect(there.get(type) ?? 0, type).toBe(expected);
      }
      const heatW = loose.reduce((sum, { drawsW }, i) => sum + placedOf(i) * drawsW, box.drawsW);
      expect(siteLoad(plan).chassis[0]!.heatW).toBeCloseTo(heatW, 9);
    }),
  );
});

test("what a service asks for is judged by the count of its kind alone, whatever card or chassis has it", () => {
  // A fixed place each: a port of one kind on one card, and a demand of one kind.
  const kind = fc.constantFrom(...PORTS.filter((type) => type !== "IF"));
  const serves: Partial<Record<PortType, readonly PortType[]>> = {
    FE: ["FE", "GE", "2.5GE", "10GE"],
    GE: ["GE", "2.5GE", "10GE"],
    "2.5GE": ["2.5GE", "10GE"],
  };
  fc.assert(
    fc.property(
      kind,
      kind,
      fc.integer({ min: 1, max: 30 }),
      fc.integer({ min: 1, max: 30 }),
      fc.boolean(),
      (have, want, there, asked, inChassis) => {
        const own = `ports ${there} ${have}`;
        const catalogue = `chassis BOX { slot 1 to 2 traffic; controller built-in; ${inChassis ? own : ""} }
card C { kind auxiliary; ${inChassis ? "" : own} }
card WAVE { kind if; ports 1 IF }`;
        const site = `service "x" ${asked} ${want}\nchassis BOX {\n  slot 1 WAVE\n  slot 2 C\n}`;
        const told = judgeExample(equipped(site, {}, catalogue)).findings.filter(
          ({ rule }) => rule === "traffic-ports-short",
        );
        const usable = (serves[want] ?? [want]).includes(have) ? there : 0;
        expect(told).toHaveLength(usable < asked ? 1 : 0);
        if (usable < asked)
          expect(told[0]!.message).toContain(`lacks ${asked - usable} of ${asked} ${want} ports`);
      },
    ),
  );
});
