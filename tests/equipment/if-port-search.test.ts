/**
 * IF ports on small chassis against every way to place them, tried here one after the other. What may pair is common
 * practice: two ports of one card with XPIC, or of two cards in neighbouring slots that pair.
 */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Card, InstalledChassis, PortClaim } from "../../shared/design/equipment.js";
import { pairFault, searchPlacement } from "../../shared/equipment/if-port-search.js";
import {
  type IfDemand,
  type IfPortPlan,
  partedPairs,
  planIfPorts,
  portGroups,
  wantsTwoCards,
} from "../../shared/equipment/if-ports.js";
import { type PlacedCard, slotCountOf } from "../../shared/equipment/placement.js";
import { arrangementByName } from "../../shared/radio/arrangements.js";

const CHASSIS: readonly InstalledChassis[] = ["1", "2"].map((name) => ({
  name,
  slots: [],
  loose: [],
  controllersProtected: false,
}));

function card(name: string, count: number, more: Partial<Card>): Card {
  return { name, kind: "if", ports: [{ count, type: "IF", powered: false }], ...more };
}
const MIST = card("MIST", 1, { xpic: false });
const LINK = card("MIST-LINK", 1, { xpic: true, pairs: "neighbour" });
const DRIZZLE = card("DRIZZLE", 3, { xpic: false });
const TWIN = card("TWIN", 2, { xpic: true, pairs: "within" });
const SQUALL = card("SQUALL", 3, { xpic: true, pairs: "within" });
const BOTH = card("BOTH", 2, { xpic: true, pairs: "neighbour" });
const WIDE = card("WIDE", 1, { xpic: true, pairs: "neighbour", slotCount: 2 });

function placed(card: Card, slot: number, chassis = 0): PlacedCard {
  return { chassis: CHASSIS[chassis]!, slot, card, automatic: false };
}

function demand(hop: string, arrangement: string, claims: readonly PortClaim[] = []): IfDemand {
  return { hop, facts: arrangementByName(arrangement)!, claims };
}

/** Everything that an assignment must hold; the sum of what is said says what it breaks. */
function faultsOf(plan: IfPortPlan, demands: readonly IfDemand[]): string[] {
  const faults: string[] = [];
  const keys = plan.uses.map(({ card: at, port }) => `${at.chassis.name} ${at.slot} ${port}`);
  if (new Set(keys).size < keys.length) faults.push("a port twice");
  for (const { card: at, port } of plan.uses)
    if (!(port >= 1 && port <= at.card.ports[0]!.count)) faults.push("no such port");
  for (const { hop, facts } of demands) {
    const own = plan.uses.filter((use) => use.hop === hop);
    if (new Set(own.map(({ branch }) => branch)).size < own.length) faults.push("a unit twice");
    if (partedPairs(facts, own).length > 0) faults.push(`${hop} parted`);
  }
  return faults;
}

/** Whether units can be given ports so that all have one and all pairs pair: every way, for few ports. */
function isPossible(cards: readonly PlacedCard[], demands: readonly IfDemand[], apart: boolean): boolean {
  const free = new Map(cards.map((at) => [at, at.card.ports[0]!.count]));
  const units: { hop: IfDemand; branch: string; stated?: PlacedCard }[] = [];
  for (const hop of demands) {
    const branches = portGroups(hop.facts).flat();
    const inOrder = [...branches].sort((a, b) => indexOf(hop, a) - indexOf(hop, b));
    for (const branch of branches) {
      const claim = hop.claims[inOrder.indexOf(branch)];
      units.push({ hop, branch, stated: cards.find(({ slot }) => slot === claim?.slot) });
    }
  }
  for (const { stated } of units) if (stated) free.set(stated, free.get(stated)! - 1);
  const at = new Map<string, PlacedCard>();
  const key = (hop: string, branch: string) => `${hop} / ${branch}`;
  const pairs = (hop: IfDemand, branch: string, on: PlacedCard): boolean => {
    if (hop.facts.xpicPairs === 0) return true;
    const group = portGroups(hop.facts).find((one) => one.includes(branch))!;
    const mate = group.find((one) => one !== branch);
    const other = mate === undefined ? undefined : at.get(key(hop.hop, mate));
    return other === undefined || pairFault(on, other) === undefined;
  };
  const isApart = (hop: IfDemand) =>
    !apart ||
    !wantsTwoCards(hop.facts) ||
    new Set(
      portGroups(hop.facts)
        .flat()
        .map((branch) => at.get(key(hop.hop, branch))),
    ).size > 1;
  const place = (index: number): boolean => {
    const unit = units[index];
    if (unit === undefined) return demands.every(isApart);
    const { hop, branch, stated } = unit;
    for (const on of stated ? [stated] : cards) {
      if (!stated && free.get(on)! < 1) continue;
      if (!pairs(hop, branch, on)) continue;
      at.set(key(hop.hop, branch), on);
      if (!stated) free.set(on, free.get(on)! - 1);
      if (place(index + 1)) return true;
      if (!stated) free.set(on, free.get(on)! + 1);
      at.delete(key(hop.hop, branch));
    }
    return false;
  };
  return place(0);
}

/** Branches in the order in which ports are stated for them. */
function indexOf({ facts }: IfDemand, branch: string): number {
  const groups = portGroups(facts);
  const four = facts.hotStandby && groups.length === 2;
  const place = groups.findIndex((group) => group.includes(branch));
  const inGroup = groups[place]!.indexOf(branch);
  return four ? 2 * inGroup + place : groups.slice(0, place).flat().length + inGroup;
}

test.each<[Card, number, Card, number, boolean]>([
  [LINK, 3, LINK, 4, true],
  [LINK, 3, LINK, 5, false],
  [WIDE, 3, LINK, 5, true],
  [WIDE, 3, LINK, 6, false],
  [LINK, 3, WIDE, 4, true],
  [LINK, 3, WIDE, 5, false],
  [WIDE, 3, WIDE, 5, true],
  [WIDE, 3, WIDE, 6, false],
])(
  "cards are neighbours where the slots of one end and those of the other begin, whichever is named first (%#)",
  (one, low, other, high, beside) => {
    const [a, b] = [placed(one, low), placed(other, high)];
    const fault = beside ? undefined : `slots ${low} and ${high} are not neighbours`;
    expect([pairFault(a, b), pairFault(b, a)]).toEqual([fault, fault]);
  },
);

test("of linked cards one whose ports are all stated for others is left alone", () => {
  const places = [3, 4, 5, 6].map((slot) => ({ card: placed(LINK, slot), free: slot === 4 ? 0 : 1 }));
  for (const hop of ["A", "B", "C", "D", "E", "F"]) {
    const requests = [{ hop, key: hop, units: 2 }] as const;
    const { found } = searchPlacement({ places, requests, apart: new Map() });
    expect(found?.[0]?.toSorted(), hop).toEqual([2, 3]);
  }
});

describe("IF ports that fit only together", () => {
  test("a pair and a single carrier, on a card for two and a card for one", () => {
    const cards = [placed(MIST, 3), placed(TWIN, 5)];
    const demands = [demand("A", "3+0 xpic"), demand("B", "1+0")];
    // One by one B may take a port of the only card for the pair.
    for (const hop of ["B", "C", "D", "E", "F"]) {
      const plan = planIfPorts([...cards, placed(MIST, 6)], [demands[0]!, { ...demands[1]!, hop }]);
      expect(plan.short).toEqual([]);
      expect(faultsOf(plan, [demands[0]!])).toEqual([]);
    }
  });

  test("a pair on two cards that are linked, wherever the single ones stand", () => {
    const cards = [placed(LINK, 3), placed(LINK, 4), placed(MIST, 5), placed(MIST, 6)];
    for (const hop of ["A", "B", "C", "D"]) {
      const demands = [demand(hop, "2+0 xpic"), demand("Y", "1+0"), demand("Z", "1+0")];
      const plan = planIfPorts(cards, demands);
      expect([plan.short, faultsOf(plan, demands)], hop).toEqual([[], []]);
    }
  });

  test("the other half of a stated port is put where it pairs", () => {
    const cards = [placed(MIST, 3), placed(TWIN, 4), placed(MIST, 5), placed(TWIN, 6)];
    for (const hop of ["A", "B", "C", "D", "E", "F"]) {
      const demands = [demand(hop, "2+0 xpic", [{ slot: 6, port: 2 }]), demand("Z", "1+0")];
      const plan = planIfPorts(cards, demands);
      expect(faultsOf(plan, demands), hop).toEqual([]);
      expect(plan.uses.filter((use) => use.hop === hop).map(({ card: on, port }) => [on.slot, port])).toEqual(
        expect.arrayContaining([
          [6, 1],
          [6, 2],
        ]),
      );
    }
  });

  test("what nobody can place is told as such, one port or one pair too many", () => {
    const parted = planIfPorts([placed(MIST, 3), placed(MIST, 4)], [demand("A", "2+0 xpic")]);
    expect([parted.search, parted.short]).toEqual(["none", []]);
    const short = planIfPorts([placed(TWIN, 3)], [demand("A", "3+0 xpic")]);
    expect([short.search, short.short]).toEqual(["none", [{ hop: "A", needed: 3, missing: 1 }]]);
    const enough = planIfPorts([placed(TWIN, 3), placed(MIST, 4)], [demand("A", "3+0 xpic")]);
    expect([enough.search ?? "found", enough.short]).toEqual(["found", []]);
  });

  test("main and standby stay on two cards where they can", () => {
    const cards = [placed(TWIN, 3), placed(DRIZZLE, 4), placed(MIST, 5)];
    const demands = [demand("A", "2+0 xpic"), demand("B", "1+1 hot-standby"), demand("C", "1+0")];
    for (const last of ["C", "D", "E", "F", "G", "H"]) {
      const all = [...demands.slice(0, 2), { ...demands[2]!, hop: last }];
      const plan = planIfPorts(cards, all);
      expect(faultsOf(plan, all)).toEqual([]);
      if (plan.search === undefined) continue;
      const used = new Set(plan.uses.filter(({ hop }) => hop === "B").map(({ card: on }) => on));
      expect(used.size, last).toBe(2);
    }
  });

  test("a search that could take for ever ends after so many steps, and says so", () => {
    // Twenty units have to pair with stated ports of the card between two that have room for nineteen.
    const linked = (count: number, slot: number) =>
      placed(card(`L${slot}`, count, { xpic: true, pairs: "neighbour" }), slot);
    const demands = Array.from({ length: 20 }, (_, i) =>
      demand(`H${i}`, "2+0 xpic", [{ slot: 2, port: i + 1 }]),
    );
    const tight = [linked(10, 1), linked(20, 2), linked(9, 3), placed(DRIZZLE, 7)];
    const plan = planIfPorts(tight, demands);
    expect(plan.search).toBe("given up");
    expect(planIfPorts(tight, demands)).toEqual(plan);
    const wide = [linked(10, 1), linked(20, 2), linked(10, 3), placed(DRIZZLE, 7)];
    const found = planIfPorts(wide, demands);
    expect([found.search, found.short, faultsOf(found, demands)]).toEqual(["found", [], []]);
  });
});

const cardsOf = fc
  .array(fc.tuple(fc.constantFrom(MIST, LINK, DRIZZLE, TWIN, SQUALL, BOTH, WIDE), fc.boolean()), {
    minLength: 1,
    maxLength: 5,
  })
  .map((list) => {
    // A slot is left empty here and there.
    let free = 1;
    return list.map(([one, gap]) => {
      const slot = free + (gap ? 1 : 0);
      free = slot + slotCountOf(one);
      return placed(one, slot);
    });
  });
const arrangements = fc.constantFrom(
  "1+0",
  "1+1 hot-standby",
  "2+0 xpic",
  "2+0 dual-polarization",
  "3+0 xpic",
  "1+1 frequency-diversity",
  "1+1 xpic four-units",
);
const demandsOf = fc
  .uniqueArray(fc.stringMatching(/^[A-Z]{2}$/), { minLength: 1, maxLength: 4 })
  .chain((names) =>
    fc
      .array(fc.tuple(arrangements, fc.nat({ max: 3 })), { minLength: names.length, maxLength: names.length })
      .map((kinds) => names.map((hop, i) => ({ hop, arrangement: kinds[i]![0], claimed: kinds[i]![1] }))),
  );

/** So many ports stated, each once. */
function withClaims(
  cards: readonly PlacedCard[],
  wanted: readonly { hop: string; arrangement: string; claimed: number }[],
): IfDemand[] {
  const ports = cards.flatMap(({ slot, card: { ports: of } }) =>
    Array.from({ length: of[0]!.count }, (_, i) => ({ slot, port: i + 1 })),
  );
  return wanted.map(({ hop, arrangement, claimed }) => {
    const count = Math.max(0, Math.min(claimed - 1, arrangementByName(arrangement)!.ifCables));
    return demand(hop, arrangement, ports.splice(0, count));
  });
}

/** A pair whose ports are both stated and cannot pair: the design says so, and no search is made for it. */
function isPartedAsStated(demands: readonly IfDemand[], cards: readonly PlacedCard[]): boolean {
  return demands.some(({ hop, facts, claims }) => {
    const alone = planIfPorts(cards, [{ hop, facts, claims }]).uses.filter(({ automatic }) => !automatic);
    return partedPairs(facts, alone).length > 0;
  });
}

describe("over small chassis", () => {
  test("a placement is found whenever there is one, and none breaks a rule", () => {
    let searched = 0;
    fc.assert(
      fc.property(cardsOf, demandsOf, (cards, wanted) => {
        const demands = withClaims(cards, wanted);
        const units = demands.reduce((sum, { facts }) => sum + facts.ifCables, 0);
        if (units > 9 || isPartedAsStated(demands, cards)) return;
        const plan = planIfPorts(cards, demands);
        const possible = isPossible(cards, demands, false);
        const faults = faultsOf(plan, demands);
        expect(plan.short.length === 0 && faults.length === 0).toBe(possible);
        expect(plan.search === "none").toBe(!possible);
        expect(faults.filter((fault) => !fault.endsWith("parted"))).toEqual([]);
        if (plan.search !== "found") return;
        searched++;
        const onOneCard = demands.filter(
          ({ hop, facts }) =>
            wantsTwoCards(facts) &&
            new Set(plan.uses.filter((use) => use.hop === hop).map(({ card: on }) => on)).size === 1,
        );
        // Stated ports may put both on one card: that is no work of the search.
        if (onOneCard.length > 0) expect(isPossible(cards, demands, true)).toBe(false);
      }),
      { numRuns: 3000 },
    );
    expect(searched).toBeGreaterThan(50);
  });

  test("the same placement whatever comes first, and stated as it is it needs no search", () => {
    fc.assert(
      fc.property(cardsOf, demandsOf, (cards, wanted) => {
        const demands = withClaims(cards, wanted);
        const plan = planIfPorts(cards, demands);
        const place = (of: IfPortPlan) =>
          of.uses.map(({ hop, branch, card: on, port }) => `${hop} ${branch} ${on.slot} / ${port}`).sort();
        if (demands.every(({ claims }) => claims.length === 0))
          expect(place(planIfPorts(cards, demands.toReversed()))).toEqual(place(plan));
        if (plan.search !== "found") return;
        const written = demands.map((one) => {
          const own = plan.uses.filter(({ hop }) => hop === one.hop);
          const inOrder = own.sort((a, b) => indexOf(one, a.branch) - indexOf(one, b.branch));
          return { ...one, claims: inOrder.map(({ card: { slot }, port }) => ({ slot, port })) };
        });
        const again = planIfPorts(cards, written);
        expect([again.search, again.faults, again.short]).toEqual([undefined, [], []]);
        expect(place(again)).toEqual(place(plan));
      }),
      { numRuns: 1000 },
    );
  });
});
