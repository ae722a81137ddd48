/**
 * Hops whose ends are built differently: standby or a second receiving antenna at one end only. Every term of the
 * figures by hand is written out; arrangements and losses are common practice, no source.
 */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Coupler } from "../../shared/design/catalogue.js";
import type { Hop, HopEnd } from "../../shared/design/design.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { endsDiffer, goTogether, partnersOf } from "../../shared/radio/arrangement-pairs.js";
import { ARRANGEMENTS, arrangementByName } from "../../shared/radio/arrangements.js";
import { equipmentSteps } from "../../shared/report/steps.js";
import { judgeHop } from "../../shared/rules/judge.js";
import {
  ANTENNA,
  antennasFor,
  direction,
  end,
  KELD,
  lacksTold,
  levelGround,
  lineOf,
  makeHop,
  notFinite,
  R18,
  reversed,
  reversedGround,
  TARN,
  TRUNK,
} from "./builders.js";

const LENGTH_M = evaluateHop(makeHop(), levelGround(9000)).distanceM!;
const GROUND = levelGround(LENGTH_M);
const UNEQUAL: Coupler = { name: "H18-U", kind: "hybrid", mainLossDb: 1.6, standbyLossDb: 6.4 };
const evaluate = (hop: Hop) => evaluateHop(hop, GROUND);

/** Built so at KELD; TARN as the hop. */
function keldAs(name: string, keld: Partial<HopEnd>, more: Partial<Hop> = {}): Hop {
  const own = { arrangement: { name }, ...keld };
  return makeHop({ ends: [end(KELD, "high", own), end(TARN, "low")], ...more });
}
const GUARDED = keldAs("1+1 hot-standby", { coupler: UNEQUAL });
const SECOND: Partial<HopEnd> = { diversityAntenna: ANTENNA, diversityHeightM: 30 };

describe("hot standby at KELD, one unit at TARN", () => {
  const result = evaluate(GUARDED);
  const [there, back] = [direction(result, "KELD"), direction(result, "TARN")];
  const gasDb = (found: typeof there) => found.levels.find(({ passes }) => passes.code === "gases")!.changeDb;
  /** 92.45 + 20 log f + 20 log d, f in GHz, d in km (Rec. ITU-R P.525, from memory). */
  const freeSpaceDb = (ghz: number) => 92.45 + 20 * Math.log10(ghz) + 20 * Math.log10(LENGTH_M / 1000);

  test("its coupler costs once in either direction: outwards and inwards the arm of the unit in use", () => {
    // 20 dBm - 1.6 (main arm, KELD) + 38.5 - free space at 18.93 GHz - gases + 38.5, nothing at TARN.
    expect(there.receivedLevelDbm).toBeCloseTo(20 - 1.6 + 38.5 - freeSpaceDb(18.93) + gasDb(there) + 38.5, 2);
    // 20 dBm, nothing at TARN, + 38.5 - free space at 17.92 GHz - gases + 38.5 - 1.6 (main arm, KELD).
    expect(back.receivedLevelDbm).toBeCloseTo(20 + 38.5 - freeSpaceDb(17.92) + gasDb(back) + 38.5 - 1.6, 2);
    const bare = evaluate(makeHop());
    expect(there.receivedLevelDbm).toBeCloseTo(direction(bare, "KELD").receivedLevelDbm - 1.6, 9);
    expect(back.receivedLevelDbm).toBeCloseTo(direction(bare, "TARN").receivedLevelDbm - 1.6, 9);
  });

  test("there are two ways each: KELD switches as the sender of one, as the receiver of the other", () => {
    const told = (found: typeof there) =>
      found.paths!.map(({ state, from, to, fromArm, toArm, branchingLossDb }) => [
        state,
        `${from} ${fromArm}`,
        `${to} ${toArm}`,
        branchingLossDb,
      ]);
    expect(told(there)).toEqual([
      ["normal", "main main", "only none", 1.6],
      ["sender on standby", "standby standby", "only none", 6.4],
    ]);
    expect(told(back)).toEqual([
      ["normal", "only none", "main main", 1.6],
      ["receiver on standby", "only none", "standby standby", 6.4],
    ]);
  });

  test("the weakest state of standby is 6.4 - 1.6 dB below the normal one, and judged in both directions", () => {
    const standbyMarginDb = 10;
    const asked = evaluate({ ...GUARDED, objective: { ...TRUNK, standbyMarginDb } });
    expect(asked.standby!.verdict).toBe("met");
    expect(asked.standby!.weakest!.lessThanNormalDb).toBeCloseTo(4.8, 9);
    const least = Math.min(...[there, back].map(({ modes }) => modes[0]!.fadeMarginDb)) - 4.8;
    expect(asked.standby!.weakest!.fadeMarginDb).toBeCloseTo(least, 9);
  });

  test("one carrier, with its standby at KELD alone; the greater EIRP is licensed there", () => {
    const [carrier, ...others] = result.carriers!;
    expect(others).toEqual([]);
    expect(carrier!.name).toBe("only");
    const [keld, tarn] = carrier!.ends;
    // 20 dBm - 1.6 + 38.5 and 20 dBm - 6.4 + 38.5 at KELD; 20 dBm + 38.5 at TARN.
    expect(keld.eirp!.judgedDbm).toBeCloseTo(56.9, 9);
    expect(keld.standby!.eirp!.judgedDbm).toBeCloseTo(52.1, 9);
    expect(keld.licensedEirpDbm).toBeCloseTo(56.9, 9);
    expect(tarn.licensedEirpDbm).toBeCloseTo(58.5, 9);
    expect(tarn.standby).toBeUndefined();
    expect(keld.received!.judgedDbm).toBeCloseTo(back.receivedLevelDbm, 9);
    expect(tarn.received!.judgedDbm).toBeCloseTo(there.receivedLevelDbm, 9);
  });

  test("nothing is found but what the hop without a standby has, and its coupler where it is missing", () => {
    const rules = (hop: Hop) => judgeHop(hop, evaluate(hop), "2026-01-01").map(({ rule }) => rule);
    expect(rules(GUARDED)).toEqual(rules(makeHop()));
    expect(rules(keldAs("1+1 hot-standby", {}))).toContain("coupler-missing");
    const [missing] = judgeHop(
      keldAs("1+1 hot-standby", {}),
      evaluate(keldAs("1+1 hot-standby", {})),
      "2026-01-01",
    );
    expect(missing).toMatchObject({
      at: "hop KELD-TARN / KELD",
      related: [{ at: "hop KELD-TARN / KELD / arrangement", message: "1+1 hot-standby" }],
    });
  });
});

describe("failures of equipment", () => {
  const radio = { ...R18, mtbfHours: 200_000, switchOverHours: 0.01 };
  const outage = (hop: Hop) => evaluate({ ...hop, radio, repairHours: 8 }).availability!.equipment!;
  // u = 8/(200 000 + 8) = 3.99984e-5.
  const u = 8 / 200_008;

  test("the pair fails with u squared, the single unit with u; one end switches over", () => {
    const found = outage(GUARDED);
    // 1 - (1 - u^2)(1 - u), and one switch over of 0.01 h each 200 000 h: 5e-8.
    const byHand = 1 - (1 - u ** 2) * (1 - u) + 0.01 / 200_000;
    expect(found.unavailabilityPercent).toBeCloseTo(100 * byHand, 12);
    expect(found.switchOverPercent).toBeCloseTo(5e-6, 15);
    expect(found.protectionByEnd).toEqual([
      { site: "KELD", kind: "pairs", sets: 1 },
      { site: "TARN", kind: "none", sets: 1 },
    ]);
  });

  test("is explained step by step: each end by itself", () => {
    const told = (hop: Hop) =>
      equipmentSteps({ ...hop, radio, repairHours: 8 }).map(({ name, value }) => `${name} = ${value}`);
    // u^2 = 1.59987e-9 at KELD, u at TARN; like ends have one figure.
    expect(told(GUARDED)).toEqual([
      "unavailability of one unit, fraction = 0.000039998",
      "unavailability of the first end, fraction = 0.0000000015999",
      "unavailability of the second end, fraction = 0.000039998",
      "unavailability of both ends, fraction = 0.00004",
      "unavailability by switching over, fraction = 0.00000005",
    ]);
    expect(told(makeHop())[1]).toBe("unavailability of one end, fraction = 0.000039998");
  });

  test("it lies between both ends bare, 1 - (1 - u)^2, and both protected, 1 - (1 - u^2)^2", () => {
    const coupled = { coupler: UNEQUAL };
    const both = makeHop({
      arrangement: { name: "1+1 hot-standby" },
      ends: [end(KELD, "high", coupled), end(TARN, "low", coupled)],
    });
    expect(outage(makeHop()).unavailabilityPercent).toBeCloseTo(100 * (1 - (1 - u) ** 2), 12);
    expect(outage(makeHop()).protectionByEnd).toBeUndefined();
    expect(outage(both).unavailabilityPercent).toBeCloseTo(
      100 * (1 - (1 - u ** 2) ** 2 + (2 * 0.01) / 200_000),
      12,
    );
  });
});

describe("space diversity at KELD only", () => {
  // One unit's second antenna is only the hop's where it is long enough for multipath.
  const diverse = keldAs("1+1 space-diversity", SECOND);
  const both = makeHop({
    arrangement: { name: "1+1 space-diversity" },
    ends: [end(KELD, "high", SECOND), end(TARN, "low", SECOND)],
  });
  const [one, all, bare] = [diverse, both, makeHop()].map(evaluate);

  test("mends what KELD receives as at both ends, and leaves what TARN receives as without", () => {
    const clearAir = (result: typeof one, from: string) => {
      const { fadeMarginDb, causes } = direction(result!, from).modes[0]!;
      return { fadeMarginDb, causes: causes?.filter(({ cause }) => cause !== "rain") };
    };
    expect(clearAir(one, "TARN")).toEqual(clearAir(all, "TARN"));
    expect(clearAir(one, "KELD")).toEqual(clearAir(bare, "KELD"));
    expect(clearAir(one, "TARN")).not.toEqual(clearAir(bare, "TARN"));
    const multipath = (result: typeof one) => result!.availability!.multipathPercent;
    expect(multipath(one)).toBeLessThan(multipath(bare));
    expect(multipath(all)).toBeLessThan(multipath(one));
    // Both directions add: half of each of the other hops', as far as their frequencies are alike.
    const of = (result: typeof one, from: string) =>
      direction(result!, from).modes[0]!.causes!.filter(({ cause }) => cause !== "rain")[0]!.yearPercent;
    expect(multipath(one)).toBeCloseTo(of(all, "TARN") + of(bare, "KELD"), 12);
  });

  test("has the ray to KELD's second antenna, and no other", () => {
    expect(one!.furtherPaths!.map(({ antennas, of, name }) => [antennas.join(), of, name])).toEqual([
      ["2,1", "diversity", "diversity antenna at KELD"],
    ]);
    expect(one!.furtherPaths![0]!.clearance).toEqual(all!.furtherPaths![0]!.clearance);
  });

  test("its rules ask for the second antenna at KELD alone", () => {
    const found = (hop: Hop) =>
      judgeHop(hop, evaluate(hop), "2026-01-01").filter(({ rule }) => rule === "diversity-incomplete");
    expect(found(diverse)).toEqual([]);
    const elsewhere = { ...diverse, ends: [diverse.ends[0], end(TARN, "low", SECOND)] as const };
    expect(found(elsewhere).map(({ message }) => message)).toEqual([
      "TARN has a diversity antenna, but the arrangement is 1+0; it is not counted",
    ]);
  });

  test("beside hot standby the second antenna switches at one end, the arm at the other", () => {
    const mixed: Hop = {
      ...diverse,
      ends: [
        diverse.ends[0],
        end(TARN, "low", { arrangement: { name: "1+1 hot-standby" }, coupler: UNEQUAL }),
      ],
    };
    const { paths } = direction(evaluate(mixed), "TARN");
    expect(paths!.map(({ state, branchingLossDb }) => [state, branchingLossDb])).toEqual([
      ["normal", 1.6],
      ["receiver on standby", 1.6],
      ["sender on standby", 6.4],
      ["both on standby", 6.4],
    ]);
  });
});

test("the relay of an all-indoor sender makes no way: the standby is judged where it receives", () => {
  const name = "all-indoor 1+1 space-diversity";
  const line = lineOf(name);
  const hop = makeHop({
    arrangement: { name: "all-indoor 1+0" },
    objective: { ...TRUNK, standbyMarginDb: 5 },
    ends: [end(KELD, "high", { arrangement: { name }, ...SECOND, ...line }), end(TARN, "low", line)],
  });
  const result = evaluate(hop);
  expect(direction(result, "KELD").paths).toBeUndefined();
  expect(direction(result, "TARN").paths!.map(({ state }) => state)).toEqual([
    "normal",
    "receiver on standby",
  ]);
  expect(result.standby!.verdict).toBe("met");
});

describe("which arrangements go together", () => {
  // By hand, common practice: what goes over the air has to be alike.
  test.each([
    ["1+0", "1+1 hot-standby", true],
    ["1+0", "1+1 hot-standby two-antennas", true],
    ["1+0", "1+1 space-diversity", true],
    ["1+1 hot-standby", "1+1 space-diversity", true],
    ["1+1 frequency-diversity", "1+1 space-and-frequency-diversity", true],
    ["2+0 single-polarization", "2+0 single-polarization two-antennas", true],
    ["2+0 xpic", "1+1 xpic four-units", true],
    ["all-outdoor 1+0", "all-outdoor 1+1 hot-standby", true],
    ["all-indoor 1+1 hot-standby", "all-indoor 1+1 space-diversity", true],
    ["1+0", "2+0 single-polarization", false],
    ["1+0", "2+0 xpic", false],
    ["1+0", "1+1 xpic two-units", false],
    ["1+0", "1+1 frequency-diversity", false],
    ["1+0", "dual-band low", false],
    ["1+0", "all-outdoor 1+0", false],
    ["1+0", "all-indoor 1+0", false],
    ["1+1 frequency-diversity", "2+0 single-polarization", false],
    ["2+0 xpic", "2+0 dual-polarization", false],
    ["1+1 xpic two-units", "2+0 xpic", false],
    ["3+1 xpic", "4+0 xpic", false],
    ["3+1 xpic", "3+0 xpic", false],
    ["3+1 xpic", "3+1 dual-polarization", false],
    ["3+1 xpic", "3+1 single-polarization", false],
    ["dual-band low", "dual-band high", false],
  ])("%s and %s: %s", (one, other, expected) => {
    const [a, b] = [arrangementByName(one)!, arrangementByName(other)!];
    expect([goTogether(a, b), goTogether(b, a)]).toEqual([expected, expected]);
  });

  test("each that can't says why, and where; its level is open, never met", () => {
    for (const facts of ARRANGEMENTS) {
      if (facts.name === "1+0" || goTogether(facts, arrangementByName("1+0")!)) continue;
      const hop = keldAs(facts.name, {});
      const result = evaluate(hop);
      expect(lacksTold(result), facts.name).toContain("at KELD does not work with 1+0");
      expect(result.availability?.verdict).not.toBe("met");
      const [finding] = judgeHop(hop, result, "2026-01-01").filter(({ rule }) => rule === "end-arrangement");
      expect(finding).toMatchObject({
        at: "hop KELD-TARN / KELD / arrangement",
        severity: "error",
        help: "With 1+0 go 1+1 hot-standby, 1+1 hot-standby two-antennas and 1+1 space-diversity, and 1+0 itself.",
      });
      expect(notFinite(result)).toEqual([]);
    }
  });

  test("what differs is told in figures", () => {
    const hop = keldAs("2+0 xpic", {});
    expect(judgeHop(hop, evaluate(hop), "2026-01-01").map(({ message }) => message)).toContain(
      "2+0 xpic at KELD does not work with 1+0 at TARN: 2 carriers on the air against 1, 2 working carriers against 1, 2 polarizations against 1 and XPIC against no XPIC",
    );
  });
});

const PAIRS = ARRANGEMENTS.flatMap((one) => [one, ...partnersOf(one)].map((other) => [one, other] as const));
const COUPLER_OF = {
  hybrid: UNEQUAL,
  omt: { name: "O18", kind: "omt", mainLossDb: 0.4 },
  "dual-polarized": { name: "D18-U", kind: "dual-polarized", mainLossDb: 2, standbyLossDb: 6.8 },
  splitter: { name: "S18", kind: "splitter", mainLossDb: 3.5, transmitLossDb: 0.5 },
} as const satisfies Record<string, Coupler>;

const dressed = (name: string, own: boolean, extraLossDb: number): Partial<HopEnd> => {
  const { coupler } = arrangementByName(name)!;
  const joins = coupler && COUPLER_OF[coupler];
  return {
    ...(own && { arrangement: { name } }),
    ...lineOf(name),
    ...antennasFor(name, ANTENNA, joins),
    coupler: joins,
    extraLossDb,
  };
};

const anyPair = fc.record({
  pair: fc.constantFrom(...PAIRS),
  lossesDb: fc.tuple(fc.integer({ min: 0, max: 8 }), fc.integer({ min: 0, max: 8 })),
  hillM: fc.integer({ min: 0, max: 45 }),
  mtbfHours: fc.option(fc.integer({ min: 1000, max: 1e6 }), { nil: undefined }),
  states: fc.constantFrom("one", "both"),
});

describe("any two that go together", () => {
  test("exchanging the ends mirrors every figure", () => {
    fc.assert(
      fc.property(anyPair, ({ pair: [one, other], lossesDb, hillM, mtbfHours, states }) => {
        const hop = makeHop({
          arrangement: { name: states === "both" ? one.name : other.name },
          radio: { ...R18, mtbfHours, switchOverHours: 0.01 },
          repairHours: 8,
          ends: [
            end(KELD, "high", dressed(one.name, true, lossesDb[0])),
            end(TARN, "low", dressed(other.name, states === "both", lossesDb[1])),
          ],
        });
        const turned: Hop = {
          ...reversed(hop, LENGTH_M),
          arrangement: { name: other.name },
        };
        const ground = levelGround(LENGTH_M, hillM);
        const result = evaluateHop(hop, ground);
        const mirror = evaluateHop(turned, reversedGround(ground));
        expect(notFinite(result)).toEqual([]);
        for (const from of ["KELD", "TARN"]) alike(direction(mirror, from), direction(result, from));
        alike(mirror.standby, result.standby);
        alike(
          mirror.availability?.equipment?.unavailabilityPercent,
          result.availability?.equipment?.unavailabilityPercent,
        );
        alike(mirror.availability?.availabilityPercent, result.availability?.availabilityPercent);
        alike(
          mirror.carriers?.map((carrier) => ({ ...carrier, ends: carrier.ends.toReversed() })),
          result.carriers,
        );
        const rays = (found: typeof result, turn: boolean) =>
          (found.furtherPaths ?? [])
            .map(({ antennas, of }) => `${(turn ? antennas.toReversed() : antennas).join()} ${of}`)
            .sort();
        expect(rays(mirror, true)).toEqual(rays(result, false));
      }),
      { numRuns: 150 },
    );
  });

  test("an end that states the hop's own arrangement changes nothing", () => {
    fc.assert(
      fc.property(fc.constantFrom(...ARRANGEMENTS), fc.constantFrom(0, 1, 2), ({ name }, which) => {
        const hop = (at: readonly number[]) =>
          makeHop({
            arrangement: { name },
            ends: [
              end(KELD, "high", dressed(name, at.includes(0), 0)),
              end(TARN, "low", dressed(name, at.includes(1), 0)),
            ],
          });
        const stating = hop(which === 2 ? [0, 1] : [which]);
        expect(endsDiffer(stating)).toBe(false);
        const [plain, stated] = [hop([]), stating].map((one) => {
          const result = evaluate(one);
          return { result, findings: judgeHop(one, result, "2026-01-01").map(({ message }) => message) };
        });
        expect(stated).toEqual(plain);
      }),
      { numRuns: 120 },
    );
  });
});

/** Sums of decibels in another order differ in their last digits. */
function alike(one: unknown, other: unknown): void {
  expect(rounded(one)).toEqual(rounded(other));
}

function rounded(value: unknown): unknown {
  if (typeof value === "number") return Number(value.toPrecision(9));
  if (Array.isArray(value)) return value.map(rounded);
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, rounded(inner)]));
}
