/** Halves against every choice there is, on small networks. */
import fc from "fast-check";
import { expect, test } from "vitest";
import type { HalfOfBand } from "../../shared/design/design.js";
import { otherHalf } from "../../shared/radio/halves.js";
import { type HopOfBand, settleHalves } from "../../shared/radio/settle-halves.js";

const SITES = ["A", "B", "C", "D", "E", "F"] as const;
const half = fc.constantFrom<(HalfOfBand | undefined)[]>("high", "low", undefined);

const network: fc.Arbitrary<readonly HopOfBand[]> = fc
  .array(
    fc.record({
      sites: fc.tuple(fc.constantFrom(...SITES), fc.constantFrom(...SITES)),
      firstHalf: half,
      keeps: fc.boolean(),
      band: fc.constantFrom("F.595", "F.595", "F.595", "F.749"),
    }),
    { maxLength: 9 },
  )
  .map((hops) => hops.map((hop, index) => ({ ...hop, name: `H${index}` })));

/** Rings with chords: many are odd. */
const mesh: fc.Arbitrary<readonly HopOfBand[]> = fc
  .record({
    size: fc.integer({ min: 3, max: 6 }),
    chords: fc.array(fc.tuple(fc.nat(5), fc.nat(5)), { maxLength: 3 }),
    halves: fc.array(half, { minLength: 9, maxLength: 9 }),
  })
  .map(({ size, chords, halves }) =>
    [
      ...Array.from({ length: size }, (_, index) => [index, (index + 1) % size] as const),
      ...chords.map(([a, b]) => [a % size, b % size] as const),
    ].map(([a, b], index) => ({
      name: `H${index}`,
      band: "F.595",
      sites: [SITES[a]!, SITES[b]!] as const,
      firstHalf: halves[index],
    })),
  );

const proper = (hops: readonly HopOfBand[]) => hops.filter(({ sites: [a, b] }) => a !== b);

/** Every way to give each site of a band one half, as the hops that it exchanges; none: it cannot be done. */
function everyWay(hops: readonly HopOfBand[]): readonly (readonly HopOfBand[])[] {
  const sites = [...new Set(hops.flatMap(({ sites, band }) => sites.map((site) => `${band} ${site}`)))];
  return Array.from({ length: 2 ** sites.length }).flatMap((_, bits) => {
    const of = (hop: HopOfBand, end: 0 | 1): HalfOfBand =>
      (bits >> sites.indexOf(`${hop.band} ${hop.sites[end]}`)) & 1 ? "high" : "low";
    if (hops.some((hop) => of(hop, 0) === of(hop, 1))) return [];
    return [hops.filter((hop) => hop.firstHalf !== undefined && hop.firstHalf !== of(hop, 0))];
  });
}

function isOneHalfASite(
  hops: readonly HopOfBand[],
  halfOf: (hop: HopOfBand) => HalfOfBand | undefined,
): boolean {
  const at = new Map<string, HalfOfBand>();
  return hops.every((hop) => {
    const first = halfOf(hop);
    if (first === undefined) return true;
    return hop.sites.every((site, index) => {
      const own = index === 0 ? first : otherHalf(first);
      const known = at.get(`${hop.band} ${site}`);
      at.set(`${hop.band} ${site}`, own);
      return known === undefined || known === own;
    });
  });
}

test.each([
  ["any network", network],
  ["rings and meshes", mesh],
])("%s: the fewest hops are exchanged, and a ring is named where none would do", (_, networks) => {
  fc.assert(
    fc.property(networks, (all) => {
      const hops = proper(all);
      const settled = settleHalves(all);
      expect(settled.flatMap((one) => one.hops).toSorted()).toEqual(hops.map(({ name }) => name).toSorted());
      const ways = everyWay(hops);
      expect(settled.every(({ ring }) => ring === undefined)).toBe(ways.length > 0);
      // Every component by itself.
      for (const one of settled) {
        const own = hops.filter(({ name }) => one.hops.includes(name));
        const leftOut = new Set(one.leftOut);
        expect(leftOut.size > 0).toBe(one.ring !== undefined);
        const left = own.filter(({ name }) => !leftOut.has(name));
        expect(isOneHalfASite(left, ({ name }) => one.firstHalf.get(name))).toBe(true);
        const cost = (exchanged: readonly HopOfBand[]) =>
          100 * exchanged.filter(({ keeps }) => keeps).length + exchanged.length;
        expect(cost(own.filter(({ name }) => one.exchanged.includes(name)))).toBe(
          Math.min(...everyWay(left).map(cost)),
        );
        expect([...one.keptExchanged]).toEqual(
          one.exchanged.filter((name) => own.find((hop) => hop.name === name)!.keeps),
        );
      }
    }),
    { numRuns: 300 },
  );
});

/** Lengths of all rings of distinct sites by trying every set of hops. */
function oddRings(hops: readonly HopOfBand[]): readonly (readonly string[])[] {
  return Array.from({ length: 2 ** hops.length }).flatMap((_, bits) => {
    const some = hops.filter((_, index) => (bits >> index) & 1);
    if (some.length % 2 === 0) return [];
    const degree = new Map<string, number>();
    for (const site of some.flatMap(({ sites }) => sites)) degree.set(site, (degree.get(site) ?? 0) + 1);
    const isRing = [...degree.values()].every((count) => count === 2) && degree.size === some.length;
    const [component, ...others] = settleHalves(some);
    return isRing && others.length === 0 ? [component!.hops] : [];
  });
}

test("the first ring is a shortest one, and those that open are those that every odd ring has", () => {
  fc.assert(
    fc.property(mesh, (all) => {
      const hops = proper(all);
      for (const { ring } of settleHalves(all)) {
        const odd = oddRings(hops);
        expect(ring?.hops.length ?? 0).toBe(odd.length === 0 ? 0 : Math.min(...odd.map((one) => one.length)));
        if (ring === undefined) continue;
        expect(odd.map((one) => one.toSorted().join(" "))).toContain(ring.hops.toSorted().join(" "));
        expect([...ring.opens].toSorted()).toEqual(
          hops.map(({ name }) => name).filter((name) => odd.every((one) => one.includes(name))),
        );
        // In order round.
        for (const [index, name] of ring.hops.entries()) {
          const [own, next] = [name, ring.hops[(index + 1) % ring.hops.length]!].map(
            (one) => hops.find((hop) => hop.name === one)!.sites,
          );
          expect(own!.some((site) => next!.includes(site))).toBe(true);
        }
      }
    }),
    { numRuns: 300 },
  );
});

test("what keeps its half is exchanged only where what keeps contradicts itself", () => {
  const line: readonly HopOfBand[] = [
    { name: "AB", band: "F.595", sites: ["A", "B"], firstHalf: "high", keeps: true },
    { name: "BC", band: "F.595", sites: ["B", "C"] },
    { name: "CD", band: "F.595", sites: ["C", "D"], firstHalf: "low", keeps: true },
  ];
  expect(settleHalves(line)).toMatchObject([{ exchanged: ["CD"], keptExchanged: ["CD"], leftOut: [] }]);
  expect(settleHalves(line.with(2, { ...line[2]!, firstHalf: "high" }))).toMatchObject([
    {
      exchanged: [],
      firstHalf: new Map([
        ["AB", "high"],
        ["BC", "low"],
        ["CD", "high"],
      ]),
    },
  ]);
});
