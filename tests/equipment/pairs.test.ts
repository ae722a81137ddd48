/** Both bands of a dual-band pair together, of results that are stated and not computed. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Antenna } from "../../shared/design/catalogue.js";
import type { Hop, HopEnd } from "../../shared/design/design.js";
import type { HopResult } from "../../shared/evaluate/account/result.js";
import { hopInNetwork } from "../../shared/network/in-network.js";
import { Memory } from "../../shared/network/memory.js";
import { pairResult, sharesAntenna } from "../../shared/network/pairs.js";
import { ANTENNA, end, KELD, makeHop, QAM128, QPSK, TARN } from "../evaluate/builders.js";

function bandOf(name: string, pairedWith: string | undefined, arrangement: string, more: Partial<Hop> = {}) {
  return makeHop({
    name,
    pairedWith,
    arrangement: { name: arrangement },
    modes: [QPSK, QAM128],
    objective: undefined,
    ...more,
  });
}
const LOW = bandOf("LOW", "HIGH", "dual-band low");
const HIGH = bandOf("HIGH", "LOW", "dual-band high");

/** Margins of the two modes in each direction; a direction that is undefined has no level. */
type Margins = readonly [there?: readonly [number, number], back?: readonly [number, number]];

interface Found {
  readonly margins: Margins;
  /** Of both directions together, percent of the year. */
  readonly out?: number;
  readonly rates?: readonly (number | undefined)[];
}

function resultOf({ margins, out, rates = [78e6, 310e6] }: Found): HopResult {
  const directions = margins.flatMap((both) =>
    both === undefined
      ? []
      : [
          {
            modes: both.map((fadeMarginDb, i) => {
              const { modulation, bandwidthHz } = [QPSK, QAM128][i]!;
              return { modulation, bandwidthHz, fadeMarginDb, bitRateBps: rates[i] };
            }),
          },
        ],
  );
  const availability =
    out === undefined
      ? undefined
      : {
          availabilityPercent: 100 - out,
          bound: out < 0.001 ? "at least" : undefined,
          outage: {
            yearPercent: out,
            bound: out < 0.001 ? "at most" : undefined,
            atMost: { yearPercent: 2 * out },
          },
        };
  return { directions, availability } as unknown as HopResult;
}

const WORKS: Margins = [
  [20, 10],
  [20, 10],
];
const judged = (hop: Hop, found: Found) => ({ hop, result: resultOf(found) });
const pair = (low: Found, high: Found) => pairResult(judged(LOW, low), judged(HIGH, high))!;

test("two hops are a pair where each names the other and one is the low band, the other the high one", () => {
  const names = [undefined, "A", "B", "C"];
  const arrangements = ["dual-band low", "dual-band high", "1+0", "no such"];
  for (const ofA of names)
    for (const ofB of names)
      for (const a of arrangements)
        for (const b of arrangements) {
          const [one, other] = [bandOf("A", ofA, a), bandOf("B", ofB, b)].map((hop) =>
            judged(hop, { margins: WORKS, out: 0.01 }),
          );
          const isPair =
            ofA === "B" && ofB === "A" && [a, b].toSorted().join() === "dual-band high,dual-band low";
          expect(pairResult(one!, other!) !== undefined, [ofA, ofB, a, b].join()).toBe(isPair);
        }
});

test("the band with the smaller outage is the robust one, the low band where both are alike or one is not known", () => {
  const some = fc.option(fc.double({ min: 1e-4, max: 1, noNaN: true }), { nil: undefined });
  fc.assert(
    fc.property(some, some, fc.boolean(), (low, high, swapped) => {
      const both = [
        judged(LOW, { margins: WORKS, out: low }),
        judged(HIGH, { margins: WORKS, out: high }),
      ] as const;
      const found = swapped ? pairResult(both[1], both[0])! : pairResult(both[0], both[1])!;
      const known = low !== undefined && high !== undefined;
      const robust = known && high < low ? HIGH : LOW;
      expect([found.robust.hop, found.other.hop]).toEqual(robust === LOW ? ["LOW", "HIGH"] : ["HIGH", "LOW"]);
      // Rain takes both at once: never the product.
      const least = known ? Math.min(low, high) : undefined;
      expect(found.bothOutPercent).toBe(least);
      expect(found.bothOutAtMostPercent).toBe(least === undefined ? undefined : 2 * least);
      expect(found.bothOutBound).toBe(least !== undefined && least < 0.001 ? "at most" : undefined);
      const lowBand = found.robust.hop === "LOW" ? found.robust : found.other;
      expect(lowBand.availabilityPercent).toBe(low === undefined ? undefined : 100 - low);
    }),
  );
  expect(pair({ margins: WORKS, out: 0.1 }, { margins: WORKS, out: 0.1 }).robust.hop).toBe("LOW");
});

describe("the rate in clear air", () => {
  const rate = (margins: Margins, rates?: Found["rates"]) =>
    pair({ margins, rates }, { margins: WORKS }).robust.clearAirBps;

  test("is that of the highest mode with a margin in both directions", () => {
    expect(rate(WORKS)).toBe(310e6);
    for (const oneWay of [
      [
        [20, 10],
        [20, 0],
      ],
      [
        [20, 0],
        [20, 10],
      ],
    ] as const)
      expect(rate(oneWay)).toBe(78e6);
    expect(
      rate([
        [20, 1e-9],
        [20, 1e-9],
      ]),
    ).toBe(310e6);
    expect(
      rate([
        [0, -5],
        [20, 10],
      ]),
    ).toBe(0);
  });

  test("is not known where a direction or the rate is not", () => {
    expect(rate([[20, 10]])).toBeUndefined();
    expect(rate([])).toBeUndefined();
    expect(rate(WORKS, [78e6, undefined])).toBeUndefined();
  });

  test("adds up over both bands where both are known", () => {
    const one = { margins: WORKS };
    const other = { margins: WORKS, rates: [78e6, 200e6] };
    const none = { margins: [] } as const;
    expect(pair(one, other).clearAirBps).toBe(510e6);
    for (const [low, high] of [
      [one, none],
      [none, one],
      [none, none],
    ] as const)
      expect(pair(low, high).clearAirBps).toBeUndefined();
  });

  test("is beside that of the mode that is judged, with its name", () => {
    expect(pair({ margins: WORKS }, { margins: WORKS }).robust).toMatchObject({
      judgedBps: 78e6,
      modulation: "QPSK",
    });
    const { judgedBps, modulation } = pair({ margins: [] }, { margins: WORKS }).robust;
    expect([judgedBps, modulation]).toEqual([undefined, undefined]);
  });
});

test("a hop in its network has its other band, and both together once both are evaluated", () => {
  const results = new Map([
    ["LOW", resultOf({ margins: WORKS, out: 0.01 })],
    ["HIGH", resultOf({ margins: WORKS, out: 0.1 })],
  ]);
  const hops = new Map([LOW, HIGH].map((hop) => [hop.name, hop]));
  const network = (evaluated: readonly string[]) => ({
    hop: (name: string) => hops.get(name),
    result: (name: string) => (evaluated.includes(name) ? results.get(name) : undefined),
  });
  const pairIn = (evaluated: readonly string[]) => hopInNetwork(LOW, network(evaluated), new Memory()).pair;
  expect(pairIn(["LOW", "HIGH"])).toMatchObject({
    other: HIGH,
    both: { robust: { hop: "LOW" }, bothOutPercent: 0.01 },
  });
  for (const evaluated of [["LOW"], ["HIGH"], []]) expect(pairIn(evaluated)).toMatchObject({ other: HIGH });
  for (const evaluated of [["LOW"], ["HIGH"], []]) expect(pairIn(evaluated)!.both).toBeUndefined();
  const alone = hopInNetwork({ ...LOW, pairedWith: undefined }, network(["LOW", "HIGH"]), new Memory());
  expect(alone.pair).toBeUndefined();
});

test("a hop is made anew in its network when a figure of its other band changes, and else stays the same", () => {
  const hops = new Map([LOW, HIGH].map((hop) => [hop.name, hop]));
  const results = new Map([
    ["LOW", resultOf({ margins: WORKS, out: 0.01 })],
    ["HIGH", resultOf({ margins: WORKS, out: 0.1 })],
  ]);
  const network = { hop: (name: string) => hops.get(name), result: (name: string) => results.get(name) };
  const memory = new Memory();
  const low = () => hopInNetwork(LOW, network, memory);
  const first = low();
  expect(first.pair!.both!.bothOutPercent).toBe(0.01);
  expect(low()).toBe(first);
  // The hop is as it was; its ground, say, is another.
  results.set("HIGH", resultOf({ margins: WORKS, out: 0.002 }));
  expect(low().pair!.both!.bothOutPercent).toBe(0.002);
  results.delete("HIGH");
  expect(low().pair).toMatchObject({ other: HIGH, both: undefined });
  hops.delete("HIGH");
  expect(low().pair).toBeUndefined();
});

describe("one antenna for both bands", () => {
  const dual = {
    ...ANTENNA,
    name: "DUAL",
    mount: { secondBand: { fromHz: 71e9, toHz: 86e9 } },
  } as unknown as Antenna;
  const single = { ...dual, mount: {} } as Antenna;
  const at =
    (more: Partial<HopEnd>) =>
    (hop: Hop): Hop => ({
      ...hop,
      ends: [end(KELD, "high", { antenna: dual, ...more }), end(TARN, "low")],
    });
  const elsewhere = (hop: Hop): Hop => ({
    ...hop,
    ends: [end({ ...KELD, name: "MOSS" }, "high", { antenna: dual }), end(TARN, "low")],
  });
  const shares = (low: Hop, high: Hop, site = "KELD") => sharesAntenna(low, high, site);

  test("is one of two bands, of one name at one height, of hops that name each other", () => {
    const same = at({});
    expect(shares(same(LOW), same(HIGH))).toBe(true);
    expect(shares(same(HIGH), same(LOW))).toBe(true);
    const others: readonly (readonly [string, Hop, Hop, string?])[] = [
      ["the low one names none", same({ ...LOW, pairedWith: undefined }), same(HIGH)],
      ["the high one names none", same(LOW), same({ ...HIGH, pairedWith: undefined })],
      ["other heights", same(LOW), at({ antennaHeightM: 41 })(HIGH)],
      ["another antenna", same(LOW), at({ antenna: { ...dual, name: "OTHER" } })(HIGH)],
      ["no antenna on the high one", same(LOW), at({ antenna: undefined })(HIGH)],
      ["no antenna on the low one", at({ antenna: undefined })(LOW), same(HIGH)],
      ["no antenna at all", at({ antenna: undefined })(LOW), at({ antenna: undefined })(HIGH)],
      ["one band", at({ antenna: single })(LOW), at({ antenna: single })(HIGH)],
      ["no word of its mount", same(LOW), same(HIGH), "TARN"],
      ["another site", same(LOW), same(HIGH), "MOSS"],
      ["the high one does not end there", same(LOW), elsewhere(HIGH)],
      ["the low one does not end there", elsewhere(LOW), same(HIGH)],
    ];
    for (const [what, low, high, site] of others) expect(shares(low, high, site), what).toBe(false);
  });
});
