import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Card, Chassis, InstalledChassis, PortClaim } from "../../shared/design/equipment.js";
import { planIfPorts, portGroups } from "../../shared/equipment/if-ports.js";
import { placeCards, slotNumbers, slotsFrom } from "../../shared/equipment/placement.js";
import { arrangementByName } from "../../shared/radio/arrangements.js";

const CHASSIS: Chassis = {
  name: "CH",
  slots: [
    { from: 1, to: 3, kind: "power" },
    { from: 4, to: 4, kind: "fan" },
    { from: 5, to: 10, kind: "traffic" },
    { from: 11, to: 11, kind: "controller" },
  ],
};
const SQUALL: Card = {
  name: "SQUALL",
  kind: "if",
  ports: [{ count: 2, type: "IF", powered: false }],
  xpic: true,
};
const FERN: Card = { name: "FERN", kind: "ethernet", ports: [{ count: 4, type: "GE", powered: false }] };
const BREEZE: Card = { name: "BREEZE", kind: "fan", ports: [] };

function installed(more: Partial<InstalledChassis>): InstalledChassis {
  return { name: "1", chassis: CHASSIS, slots: [], loose: [], controllersProtected: false, ...more };
}

function demand(hop: string, arrangement: string, claims: readonly PortClaim[] = []) {
  return { hop, facts: arrangementByName(arrangement)!, claims };
}

function ifCards(count: number, chassis = "1") {
  return Array.from({ length: count }, (_, i) => ({
    chassis: installed({ name: chassis }),
    slot: i + 1,
    card: SQUALL,
    automatic: false,
  }));
}

describe("cards whose slot is left open", () => {
  test("go into free slots of their kind, one a slot; what finds none is told", () => {
    const { cards, left } = placeCards([
      installed({
        slots: [{ slot: 6, card: FERN }],
        loose: [
          { card: SQUALL, count: 5 },
          { card: BREEZE, count: 2 },
        ],
      }),
    ]);
    const slots = cards.map(({ slot }) => slot);
    expect(new Set(slots).size).toBe(slots.length);
    expect(slots.toSorted((a, b) => a - b)).toEqual([4, 5, 6, 7, 8, 9, 10]);
    expect(left).toMatchObject([{ card: { name: "BREEZE" }, count: 1 }]);
  });

  test("two that pair with their neighbour go side by side, as long as there is room", () => {
    const link: Card = {
      ...SQUALL,
      name: "LINK",
      pairs: "neighbour",
      ports: [{ count: 1, type: "IF", powered: false }],
    };
    const slotsOf = (count: number, slots: InstalledChassis["slots"], name = "LINK") =>
      placeCards([installed({ slots, loose: [{ card: { ...link, name }, count }] })])
        .cards.filter(({ automatic }) => automatic)
        .map(({ slot }) => slot)
        .toSorted((a, b) => a - b);
    for (const name of ["LINK", "A", "B", "C", "D", "E", "F"]) {
      const [one, other, third, fourth] = slotsOf(4, [], name);
      expect([other! - one!, fourth! - third!], name).toEqual([1, 1]);
      // Free are 5, 7, 8 and 10 of 5 to 10.
      expect(
        slotsOf(
          2,
          [6, 9].map((slot) => ({ slot, card: FERN })),
          name,
        ),
      ).toEqual([7, 8]);
    }
    // No two free slots stand beside each other: both have one all the same.
    expect(
      slotsOf(
        2,
        [6, 8, 9].map((slot) => ({ slot, card: FERN })),
      ),
    ).toHaveLength(2);
    expect(slotsOf(3, [])).toHaveLength(3);
  });

  test("stay where they are when another card comes or goes, but for few", () => {
    const many: Chassis = { name: "BIG", slots: [{ from: 1, to: 40, kind: "traffic" }] };
    const names = fc.uniqueArray(fc.stringMatching(/^[A-Z]{2}[0-9]{2}$/), { minLength: 2, maxLength: 20 });
    let moved = 0;
    let placed = 0;
    fc.assert(
      fc.property(names, (cards) => {
        const place = (list: readonly string[]) =>
          new Map(
            placeCards([
              installed({
                chassis: many,
                loose: list.map((name) => ({ card: { ...SQUALL, name }, count: 1 })),
              }),
            ]).cards.map(({ card, slot }) => [card.name, slot]),
          );
        const before = place(cards);
        const after = place(cards.slice(1));
        for (const [name, slot] of after) {
          placed++;
          if (before.get(name) !== slot) moved++;
        }
        // The order of the lines says nothing.
        expect(place(cards.toReversed())).toEqual(before);
      }),
      { seed: 7 },
    );
    expect(moved / placed).toBeLessThan(0.1);
  });
});

test("no two cards lie in one slot however wide they are, none in one of another kind, and the lines of slots say nothing by their order", () => {
  const spread: Chassis = {
    name: "SPREAD",
    slots: [
      { from: 1, to: 4, kind: "traffic" },
      { from: 5, to: 5, kind: "fan" },
      { from: 6, to: 8, kind: "traffic" },
      { from: 9, to: 12, kind: "traffic" },
    ],
  };
  const ofWidth = (slotCount: number): Card => ({ ...SQUALL, name: `WIDE${slotCount}`, slotCount });
  const width = fc.integer({ min: 1, max: 3 });
  fc.assert(
    fc.property(
      fc.array(fc.tuple(fc.integer({ min: 1, max: 12 }), width), { maxLength: 4 }),
      fc.array(fc.tuple(width, fc.integer({ min: 1, max: 3 })), { maxLength: 3 }),
      (stated, open) => {
        const place = (chassis: Chassis) =>
          placeCards([
            installed({
              chassis,
              slots: stated.map(([slot, wide]) => ({ slot, card: ofWidth(wide) })),
              loose: open.map(([wide, count]) => ({ card: ofWidth(wide), count })),
            }),
          ]).cards.map(({ slot, card, automatic }) => ({ slot, card, automatic }));
        const cards = place(spread);
        const covered = cards.flatMap(({ slot, card }) => slotsFrom(slot, card));
        expect(new Set(covered).size).toBe(covered.length);
        for (const { slot, card, automatic } of cards) {
          if (!automatic) continue;
          const own = slotsFrom(slot, card);
          expect([own.includes(5), own.at(-1)! > 12]).toEqual([false, false]);
          // A slot that is stated, though for a card that does not count, is not given away.
          expect(stated.filter(([at]) => own.includes(at))).toEqual([]);
        }
        expect(place({ ...spread, slots: spread.slots.toReversed() })).toEqual(cards);
      },
    ),
    { numRuns: 300 },
  );
});

test("a card is told by its slot, a wide one by the first and the last", () => {
  const told = (slotCount?: number) => slotNumbers({ slot: 3, card: { ...SQUALL, slotCount } });
  expect([undefined, 1, 2, 3].map(told)).toEqual(["3", "3", "3 to 4", "3 to 5"]);
});

describe("IF ports", () => {
  test("an XPIC pair is put on one card, main and standby on two", () => {
    const xpic = planIfPorts(ifCards(3), [demand("A", "2+0 xpic")]).uses;
    expect(new Set(xpic.map(({ card }) => card.slot)).size).toBe(1);
    const standby = planIfPorts(ifCards(3), [demand("A", "1+1 hot-standby")]).uses;
    expect(new Set(standby.map(({ card }) => card.slot)).size).toBe(2);
    const four = planIfPorts(ifCards(2), [demand("A", "1+1 xpic four-units")]).uses;
    const cardsOf = (role: string) =>
      new Set(four.filter(({ branch }) => branch.endsWith(role)).map(({ card }) => card.slot));
    expect(four).toHaveLength(4);
    expect([cardsOf("main").size, cardsOf("standby").size]).toEqual([1, 1]);
    expect(cardsOf("main")).not.toEqual(cardsOf("standby"));
  });

  test("main V with main H, standby V with standby H; carriers two by two", () => {
    expect(portGroups(arrangementByName("1+1 xpic four-units")!)).toEqual([
      ["first polarization, main", "second polarization, main"],
      ["first polarization, standby", "second polarization, standby"],
    ]);
    expect(portGroups(arrangementByName("3+0 xpic")!)).toEqual([["carrier 1", "carrier 2"], ["carrier 3"]]);
  });

  test("one port short is told with the hop that lacks it", () => {
    const plan = planIfPorts(ifCards(1), [demand("A", "1+0"), demand("B", "1+1 hot-standby")]);
    expect(plan.ports).toBe(2);
    expect(plan.short.reduce((sum, { missing }) => sum + missing, 0)).toBe(1);
  });

  test("stated ports come first; a doubled, a wrong and an absent one are told", () => {
    const cards = [...ifCards(1), { ...ifCards(1)[0]!, slot: 2, card: FERN }];
    const claim = (slot: number, port: number) => [{ slot, port }];
    const { uses, faults } = planIfPorts(cards, [
      demand("A", "1+0", claim(1, 2)),
      demand("B", "1+0", claim(1, 2)),
      demand("C", "1+0", claim(2, 1)),
      demand("D", "1+0", claim(5, 1)),
      demand("E", "1+0", claim(1, 3)),
      demand("F", "1+0"),
    ]);
    expect(uses.map(({ hop, port, automatic }) => [hop, port, automatic])).toEqual([
      ["A", 2, false],
      ["F", 1, true],
    ]);
    expect(faults.map(({ hop, fault, by }) => [hop, fault, by])).toEqual([
      ["B", "taken", "A"],
      ["C", "no IF port", undefined],
      ["D", "no card in the slot", undefined],
      ["E", "no such port", undefined],
    ]);
  });

  test("no port is given twice, and none is left while an end lacks one", () => {
    const arrangement = fc.constantFrom(
      "1+0",
      "1+1 hot-standby",
      "2+0 xpic",
      "1+1 xpic four-units",
      "all-outdoor 1+0",
    );
    const hops = fc.uniqueArray(fc.stringMatching(/^[A-Z]{3}$/), { maxLength: 12 });
    fc.assert(
      fc.property(
        hops,
        fc.array(arrangement, { minLength: 12, maxLength: 12 }),
        fc.integer({ min: 0, max: 12 }),
        (names, kinds, cards) => {
          const demands = names.map((name, i) => demand(name, kinds[i]!));
          const plan = planIfPorts(ifCards(cards), demands);
          const keys = plan.uses.map(({ card, port }) => `${card.slot} ${port}`);
          expect(new Set(keys).size).toBe(keys.length);
          const needed = demands.reduce((sum, { facts }) => sum + facts.ifCables, 0);
          const lacking = plan.short.reduce((sum, { missing }) => sum + missing, 0);
          expect(keys.length + lacking).toBe(needed);
          if (lacking > 0) expect(keys.length).toBe(plan.ports);
        },
      ),
    );
  });

  test("ten thousand units at one site are placed in linear time", () => {
    const time = (count: number) => {
      const demands = Array.from({ length: count }, (_, i) =>
        demand(`H${i}`, i % 3 === 0 ? "2+0 xpic" : i % 3 === 1 ? "1+1 hot-standby" : "1+0"),
      );
      const start = process.cpuUsage();
      // Not enough cards: every last one is looked for.
      const plan = planIfPorts(ifCards(Math.ceil(count / 2)), demands);
      expect(plan.uses.length).toBe(plan.ports);
      // Not the clock: other work on the machine must not count.
      const { user, system } = process.cpuUsage(start);
      return user + system;
    };
    const quickest = (count: number) => Math.min(time(count), time(count), time(count));
    time(2000);
    // Sixteen times as many take sixteen times as long, on a busy machine some more; a quadratic way would take 256.
    expect(quickest(32_000) / quickest(2000)).toBeLessThan(100);
  });
});
