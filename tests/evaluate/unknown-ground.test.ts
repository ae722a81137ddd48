/** Unknown is not met: ground that is not known leaves open what it could spoil, unless it is missed already. */
import fc from "fast-check";
import { expect, test } from "vitest";
import type { Hop } from "../../shared/design/design.js";
import type { HopResult } from "../../shared/evaluate/account/result.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import type { GroundInput } from "../../shared/evaluate/path/ground.js";
import { surveyProfile } from "../../shared/terrain/survey.js";
import {
  ANTENNA,
  end,
  groundOf,
  KELD,
  lacksTold,
  levelGround,
  makeHop,
  NO_GROUND,
  notesTold,
  notFinite,
  TARN,
  TRUNK,
} from "./builders.js";

const LENGTH_M = evaluateHop(makeHop(), levelGround(9000)).distanceM!;
const STEP_M = LENGTH_M / 100;
const level = (): (number | null)[] => Array.from({ length: 101 }, () => 200);
/** Level ground with these samples not known. */
const without = (...samples: readonly number[]): GroundInput =>
  groundOf(
    level().map((height, i) => (samples.includes(i) ? null : height)),
    LENGTH_M,
  );

function verdicts(result: HopResult): string[] {
  return [
    ...result.clearance.filter(({ forInformation }) => !forInformation).map(({ verdict }) => verdict),
    ...(result.furtherPaths ?? []).flatMap(({ clearance }) => clearance.map(({ verdict }) => verdict)),
    ...(result.availability?.verdict === undefined ? [] : [result.availability.verdict]),
    ...(result.objectives ?? []).map(({ verdict }) => verdict),
    ...(result.standby === undefined ? [] : [result.standby.verdict]),
  ];
}

const ASKING = makeHop({
  objective: {
    ...TRUNK,
    availabilityPercent: 99.9,
    availabilityClass: { portion: "access", propagationPercent: 100 },
    quality: { portion: "access", sharePercent: 8 },
  },
});

test("a void one sample wide leaves everything open that is met without it", () => {
  const whole = evaluateHop(ASKING, without());
  expect(whole.unknownGround).toBeUndefined();
  expect(verdicts(whole).length).toBeGreaterThanOrEqual(3);
  expect(new Set(verdicts(whole))).toEqual(new Set(["met"]));
  expect(whole.availability!.committed).toBeDefined();
  const holed = evaluateHop(ASKING, without(50));
  expect(holed.unknownGround).toBe("part");
  expect(holed.profile!.gaps).toHaveLength(1);
  expect(verdicts(holed)).toHaveLength(verdicts(whole).length);
  expect(new Set(verdicts(holed))).toEqual(new Set(["open"]));
  // The figures are those of what is known, and no mode is committed to.
  expect(holed.availability!.availabilityPercent).toBe(whole.availability!.availabilityPercent);
  expect(holed.availability!.committed).toBeUndefined();
  expect(lacksTold(holed)).toContain("Ground: there are no heights at 4.68 km (void in the raster)");
});

test("what is missed over the known ground stays missed", () => {
  const heights = level().map((height, i) => (i === 20 ? null : i === 70 ? 260 : height));
  const result = evaluateHop(ASKING, groundOf(heights, LENGTH_M));
  expect(result.clearance[0]!.verdict).toBe("missed");
  expect(result.availability!.verdict).toBe("missed");
  expect(verdicts(result)).not.toContain("met");
});

test("without any profile nothing that rests on the path is met either", () => {
  const result = evaluateHop(ASKING, NO_GROUND);
  expect(result.unknownGround).toBe("all");
  expect(result.directions).toHaveLength(2);
  expect(new Set(verdicts(result))).toEqual(new Set(["open"]));
  expect(evaluateHop(ASKING, groundOf(level().fill(null), LENGTH_M)).unknownGround).toBe("all");
  const nowhere = makeHop({ ends: [end({ name: "KELD" }, "high"), end(TARN, "low")] });
  expect(evaluateHop(nowhere, NO_GROUND).unknownGround).toBeUndefined();
});

test("an obstacle off the path leaves every ray open that is met without it, over further antennas too", () => {
  const second = { diversityAntenna: ANTENNA, diversityHeightM: 36 };
  const rays = (distanceM: number) => {
    const { clearance, furtherPaths } = evaluateHop(
      makeHop({
        arrangement: { name: "1+1 space-diversity" },
        ends: [end(KELD, "high", second), end(TARN, "low", second)],
        obstacles: [{ distanceM, heightM: 1 }],
      }),
      without(),
    );
    return [clearance, ...furtherPaths!.map((path) => path.clearance)].map(([one]) => one!.verdict);
  };
  expect(rays(LENGTH_M / 2)).toEqual(["met", "met", "met"]);
  expect(rays(LENGTH_M + 50)).toEqual(["open", "open", "open"]);
});

test("no verdict is met where some ground is not known, whatever the ground, the gaps and the hop (property)", () => {
  const sample = fc.oneof(
    { weight: 8, arbitrary: fc.double({ min: 150, max: 232, noNaN: true }) },
    fc.constant(null),
  );
  let open = 0;
  fc.assert(
    fc.property(
      fc.array(sample, { minLength: 3, maxLength: 40 }),
      fc.option(fc.double({ min: 1, max: 1000, noNaN: true }), { nil: undefined }),
      fc.constantFrom("1+0", "1+1 space-diversity", "1+1 hot-standby"),
      (heights, bridgeGapsM, arrangement) => {
        const coupler = { name: "C", kind: "hybrid", mainLossDb: 1.6, standbyLossDb: 6.4 } as const;
        const second = { diversityAntenna: ANTENNA, diversityHeightM: 30, coupler };
        const hop = makeHop({
          ...ASKING,
          arrangement: { name: arrangement },
          ends: [end(KELD, "high", second), end(TARN, "low", second)],
          bridgeGapsM,
        });
        const result = evaluateHop(hop, groundOf(heights, LENGTH_M));
        expect(notFinite(result)).toEqual([]);
        const { gaps, bridges = [] } = result.profile!;
        const unknown = heights.some((height) => height === null);
        expect(result.unknownGround !== undefined).toBe(gaps.length > 0);
        if (unknown) expect(gaps.length + bridges.length).toBeGreaterThan(0);
        if (result.unknownGround !== undefined) {
          expect(verdicts(result)).not.toContain("met");
          if (verdicts(result).includes("open")) open++;
        }
        for (const { fromM, toM } of bridges) expect(toM - fromM).toBeLessThan(bridgeGapsM!);
      },
    ),
    { numRuns: 400 },
  );
  expect(open).toBeGreaterThan(20);
});

const bridging = (bridgeGapsM: number, more: Partial<Hop> = {}) =>
  makeHop({ ...ASKING, ...more, bridgeGapsM });

test("a gap shorter than the network states is bridged by a straight line and named; a wider one stays open", () => {
  const heights = level().map((height, i) => (i === 50 || i === 51 ? null : i > 51 ? 209 : height));
  // Two samples: from the 49th to the 52nd it is three steps wide.
  const widthM = 3 * STEP_M;
  const bridged = evaluateHop(bridging(widthM * 1.0001), groundOf(heights, LENGTH_M));
  expect(bridged.unknownGround).toBeUndefined();
  expect(bridged.profile!.gaps).toEqual([]);
  expect(bridged.profile!.bridges).toEqual([
    { fromM: expect.closeTo(49 * STEP_M, 6), toM: expect.closeTo(52 * STEP_M, 6) },
  ]);
  expect(new Set(verdicts(bridged))).toEqual(new Set(["met"]));
  expect(notesTold(bridged).join(" ")).toContain("from 4.59 km to 4.87 km is not known; a straight line");
  // A third and two thirds of the way from 200 to 209.
  expect(bridged.profile!.meanM).toBeCloseTo((50 * 200 + 203 + 206 + 49 * 209) / 101, 9);
  const open = evaluateHop(bridging(widthM * 0.9999), groundOf(heights, LENGTH_M));
  expect(open.unknownGround).toBe("part");
  expect(open.profile!.bridges).toBeUndefined();
  // Of two gaps the short one alone.
  const both = evaluateHop(bridging(3.5 * STEP_M), without(20, 50, 51, 52, 53));
  expect(both.profile!.gaps).toHaveLength(1);
  expect(both.profile!.bridges).toHaveLength(1);
  expect(both.unknownGround).toBe("part");
});

test("an obstacle in a gap stands on the bridge, and is not counted without one", () => {
  const obstacles = [{ title: "crane", heightM: 39, distanceM: 50 * STEP_M }];
  const bridged = evaluateHop(bridging(500, { obstacles }), without(50));
  expect(bridged.clearance[0]).toMatchObject({ obstacle: "crane", obstacleM: 239, verdict: "missed" });
  const open = evaluateHop(makeHop({ ...ASKING, obstacles }), without(50));
  expect(open.clearance[0]).toMatchObject({ verdict: "open" });
  expect(lacksTold(open)).toContain("the ground under crane is not known");
});

test("at an end a gap is bridged from ground that the design states there, and from nothing else", () => {
  const stated = evaluateHop(bridging(500), without(0, 1));
  expect(stated.profile!.gaps).toEqual([]);
  expect(stated.profile!.bridges).toEqual([{ fromM: 0, toM: expect.closeTo(2 * STEP_M, 6) }]);
  const ends = [end({ ...KELD, groundM: undefined }, "high"), end(TARN, "low")] as const;
  const ground = { ...without(0, 1), groundM: [200, 200] as const };
  const silent = evaluateHop(bridging(500, { ends }), ground);
  expect(silent.profile!.gaps).toHaveLength(1);
  expect(silent.unknownGround).toBe("part");
});

test("a gap between rows of a survey from a map is bridged like a void of a raster", () => {
  const rows = Array.from({ length: 101 }, (_, i) => ({
    distanceM: i * STEP_M,
    heightM: i < 50 ? 200 : 203,
  })).filter((_, i) => i <= 40 || i >= 47);
  const { profile, fit } = surveyProfile(rows, LENGTH_M, "s.csv", "map");
  const ground: GroundInput = { profile, groundM: [200, 203], profileKind: "survey", survey: fit };
  const open = evaluateHop(ASKING, ground);
  expect(open.profile!.gaps).toEqual([
    { fromM: expect.closeTo(40 * STEP_M, 6), toM: expect.closeTo(47 * STEP_M, 6), reason: "void" },
  ]);
  expect(open.clearance[0]!.verdict).toBe("open");
  const bridged = evaluateHop(bridging(800), ground);
  expect(bridged.profile!.gaps).toEqual([]);
  expect(bridged.clearance[0]!.verdict).toBe("met");
});

test("a reflection counts as shielded where known ground stands in it, and as open where only unknown ground may", () => {
  const surfaces = [{ kind: "water", fromM: 0, toM: LENGTH_M, heightM: 200 }] as const;
  const shielded = (ground: GroundInput) =>
    evaluateHop(makeHop({ surfaces }), ground).reflections![0]!.shielded;
  expect(shielded(without())).toBe(false);
  expect(shielded(without(20))).toBeUndefined();
  const hill = level().map((height, i) => (i === 20 ? null : i === 30 ? 238 : height));
  expect(shielded(groundOf(hill, LENGTH_M))).toBe(true);
});

test("a profile that is more than a fiftieth longer or shorter than the path is of another one", () => {
  const lackOf = (share: number) => lacksTold(evaluateHop(makeHop(), levelGround(share * LENGTH_M)));
  for (const share of [0.981, 1, 1.019]) expect(lackOf(share)).not.toMatch(/profile/);
  for (const share of [0.979, 1.021]) expect(lackOf(share)).toMatch(/profile/);
});
