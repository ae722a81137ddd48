/**
 * What a survey says of the ground is what is judged: no point moved, and between two points the straight line, however
 * many points stand on it. Geometry by hand; the limits of 1 cm and 0.05 dB are the project's own.
 */
import fc from "fast-check";
import { expect, test } from "vitest";
import type { Hop } from "../../shared/design/design.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { clearanceFor } from "../../shared/evaluate/path/clearance.js";
import { diffractionGround } from "../../shared/evaluate/path/diffraction-ground.js";
import type { GroundInput } from "../../shared/evaluate/path/ground.js";
import { deltaBullington } from "../../shared/propagation/p526/index.js";
import { heightAt, reversedProfile } from "../../shared/terrain/profile.js";
import { type SurveyRow, surveyProfile } from "../../shared/terrain/survey.js";
import { CLIMATE, end, KELD, levelGround, makeHop, reversed, TARN, TRUNK } from "./builders.js";

const LENGTH_M = evaluateHop(makeHop(), levelGround(9000)).distanceM!;

function surveyed(rows: readonly SurveyRow[], lengthM = LENGTH_M): GroundInput {
  const { profile, fit } = surveyProfile(rows, lengthM, "s.csv", "field");
  return {
    profile,
    groundM: [profile.heightM[0], profile.heightM.at(-1)],
    profileKind: "survey",
    survey: fit,
  };
}

const at = (distanceM: number, heightM: number, coverM?: number): SurveyRow => ({
  distanceM,
  heightM,
  coverM,
});
/** Sites without a stated ground, so that the survey's own counts. */
const overSurvey = (more: Partial<Hop> = {}): Hop =>
  makeHop({
    ends: [end({ ...KELD, groundM: undefined }, "high"), end({ ...TARN, groundM: undefined }, "low")],
    ...more,
  });

test("a ridge at a surveyed point is told at its very distance and height", () => {
  // 3 m into the ray at 240 m, between points 25 and 50 m away.
  const ridge = 4321.5;
  const rows = [at(0, 200), at(ridge - 25, 202), at(ridge, 243), at(ridge + 50, 204), at(LENGTH_M, 200)];
  const found = evaluateHop(overSurvey(), surveyed(rows)).clearance[0]!;
  const k = TRUNK.clearance[0]!.kFactor;
  const bulgeM = (ridge * (LENGTH_M - ridge)) / (2 * k * 6_371_000);
  expect(found).toMatchObject({ distanceM: ridge, obstacleM: 243, verdict: "missed" });
  expect(found.clearanceM).toBeCloseTo(-3 - bulgeM, 9);
});

interface Drawn {
  readonly lengthM: number;
  readonly rows: readonly SurveyRow[];
  readonly antennaM: readonly [number, number];
  readonly frequencyHz: number;
  readonly kFactor: number;
  readonly fresnelFraction: number;
  /** Distances of further points on the lines between the rows. */
  readonly further: readonly number[];
}

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
/** Level, hilly and steep paths with up to five stretches; distances in whole decimetres, as a surveyor writes them. */
const paths = fc
  .record({
    lengthM: fc.integer({ min: 300, max: 90_000 }),
    inner: fc.array(fc.tuple(number(0, 1), number(-100, 3000)), { maxLength: 4 }),
    ends: fc.tuple(number(0, 3000), number(0, 3000)),
    steepness: fc.constantFrom(0, 0.01, 0.2, 1),
    antennas: fc.tuple(number(3, 80), number(3, 80)),
    frequencyHz: fc.constantFrom(4e9, 7e9, 18e9, 38e9, 80e9),
    kFactor: fc.constantFrom(0.5, 1, 4 / 3, 3),
    fresnelFraction: fc.constantFrom(0, 0.6, 1),
    further: fc.array(number(0, 1), { minLength: 1, maxLength: 200, size: "max" }),
  })
  .map((made): Drawn => {
    const { lengthM, inner, ends, steepness, antennas, ...rest } = made;
    const place = (share: number) =>
      Math.min(lengthM - 0.1, Math.max(0.1, Math.round(share * lengthM * 10) / 10));
    const heights = new Map([
      [0, ends[0] * steepness],
      ...inner.map(([share, heightM]) => [place(share), heightM * steepness] as const),
      [lengthM, ends[1] * steepness],
    ]);
    const rows = [...heights].sort(([a], [b]) => a - b).map(([d, heightM]) => at(d, heightM));
    return {
      ...rest,
      lengthM,
      rows,
      antennaM: [rows[0]!.heightM! + antennas[0], rows.at(-1)!.heightM! + antennas[1]],
      further: [...new Set(made.further.map(place))],
    };
  });

const profileOf = ({ rows, lengthM }: Pick<Drawn, "rows" | "lengthM">) =>
  surveyProfile(rows, lengthM, "s.csv", "field").profile;

function withFurther(drawn: Drawn): Drawn {
  const profile = profileOf(drawn);
  const all = new Map(drawn.rows.map((row) => [row.distanceM, row]));
  for (const d of drawn.further) if (!all.has(d)) all.set(d, at(d, heightAt(profile, d)!));
  return { ...drawn, rows: [...all.values()].sort((a, b) => a.distanceM - b.distanceM) };
}

function ray({ lengthM, rows, antennaM, frequencyHz }: Drawn) {
  const groundM = [rows[0]!.heightM!, rows.at(-1)!.heightM!] as const;
  return { distanceM: lengthM, antennaAslM: antennaM, groundM, frequencyHz };
}

const clears = (drawn: Drawn) => clearanceFor(drawn, ray(drawn), profileOf(drawn), [])!;

function diffractionDb(drawn: Drawn): number {
  const { groundM, frequencyHz } = ray(drawn);
  return deltaBullington(diffractionGround(profileOf(drawn), groundM, []), {
    antenna1HeightM: drawn.antennaM[0],
    antenna2HeightM: drawn.antennaM[1],
    effectiveRadiusM: drawn.kFactor * 6_371_000,
    frequencyHz,
    polarization: "vertical",
  }).lossDb;
}

test("further points on the lines between change clearance by less than 1 cm and diffraction by less than 0.05 dB", () => {
  let diffracted = 0;
  fc.assert(
    fc.property(paths, (drawn) => {
      const finer = withFurther(drawn);
      const [one, two] = [clears(drawn), clears(finer)];
      expect(Math.abs(two.clearanceM - one.clearanceM)).toBeLessThan(0.01);
      expect(Math.abs(two.fraction - one.fraction)).toBeLessThan(0.001);
      for (const end of [0, 1] as const) {
        const [a, b] = [one.heightNeededM[end], two.heightNeededM[end]];
        // The height beyond which none is proposed parts the two by a rounding at most.
        if (a !== undefined && b !== undefined) expect(Math.abs(b - a)).toBeLessThan(0.01);
        else expect(Math.min(a ?? 300, b ?? 300)).toBeGreaterThan(299.99);
      }
      const [coarse, fine] = [diffractionDb(drawn), diffractionDb(finer)];
      if (coarse > 0) diffracted++;
      expect(Math.abs(fine - coarse)).toBeLessThan(0.05);
    }),
    // So long at most: a failing path of two hundred points would be made smaller for many minutes.
    { numRuns: 1500, interruptAfterTimeLimit: 30_000 },
  );
  expect(diffracted).toBeGreaterThan(100);
});

test("over the Earth's bulge alone, near grazing, diffraction is that of a profile with very many points", () => {
  for (const lengthM of [15_000, 40_000, 80_000])
    for (const antennaM of [5, 20, 60])
      for (const frequencyHz of [4e9, 18e9, 80e9]) {
        const drawn = {
          lengthM,
          rows: [at(0, 0), at(lengthM, 0)],
          antennaM: [antennaM, antennaM + 7],
          frequencyHz,
          kFactor: 4 / 3,
          fresnelFraction: 0,
          further: Array.from({ length: 19_000 }, (_, i) => ((i + 1) * lengthM) / 19_001),
        } as const;
        expect(Math.abs(diffractionDb(withFurther(drawn)) - diffractionDb(drawn))).toBeLessThan(0.02);
      }
});

test("no point on the ground clears less than what is told, and what is told lies on the ground", () => {
  fc.assert(
    fc.property(paths, (drawn) => {
      const found = clears(drawn);
      const { lengthM, antennaM, frequencyHz, kFactor, fresnelFraction } = drawn;
      const profile = profileOf(drawn);
      const clearanceAt = (d: number, topM: number) =>
        antennaM[0] +
        ((antennaM[1] - antennaM[0]) * d) / lengthM -
        topM -
        (d * (lengthM - d)) / (2 * kFactor * 6_371_000);
      const radiusAt = (d: number) =>
        Math.max(0.1, Math.sqrt((299_792_458 * d * (lengthM - d)) / (frequencyHz * lengthM)));
      const there = heightAt(profile, found.distanceM)!;
      expect(found.obstacleM).toBeCloseTo(there, 6);
      expect(found.clearanceM).toBeCloseTo(clearanceAt(found.distanceM, there), 6);
      for (const d of drawn.further) {
        const clearanceM = clearanceAt(d, heightAt(profile, d)!);
        expect(clearanceM / radiusAt(d)).toBeGreaterThanOrEqual(found.fraction - 1e-6);
        // Each antenna raised as told, alone, clears here.
        for (const end of [0, 1] as const) {
          const neededM = found.heightNeededM[end];
          if (neededM === undefined) continue;
          const raiseM = drawn.rows.at(end === 0 ? 0 : -1)!.heightM! + neededM - antennaM[end];
          const share = end === 0 ? 1 - d / lengthM : d / lengthM;
          if (raiseM < 0) continue;
          expect(clearanceM + raiseM * share).toBeGreaterThanOrEqual(fresnelFraction * radiusAt(d) - 1e-6);
        }
      }
    }),
    { numRuns: 1000 },
  );
});

test("over a bulge higher than the antennas the least clearance lies in the middle of the line, not at its ends", () => {
  // Sites at 200 m, antennas 10 m up, a plain at 211 m from 100 m before one to 100 m before the other.
  const lengthM = 50_000;
  const profile = profileOf({
    lengthM,
    rows: [at(0, 200), at(100, 211), at(lengthM - 100, 211), at(lengthM, 200)],
  });
  const path = {
    distanceM: lengthM,
    antennaAslM: [210, 210] as const,
    groundM: [200, 200] as const,
    frequencyHz: 18e9,
  };
  const found = clearanceFor({ kFactor: 4 / 3, fresnelFraction: 0.6 }, path, profile, [])!;
  // n = -1 m - D^2/(8 k a), F1 = sqrt(lambda D)/2.
  const radiusM = Math.sqrt((299_792_458 / 18e9) * lengthM) / 2;
  expect(found.clearanceM).toBeCloseTo(-1 - lengthM ** 2 / (8 * (4 / 3) * 6_371_000), 6);
  expect(found.distanceM).toBeCloseTo(lengthM / 2, 3);
  expect(found.fraction).toBeCloseTo(found.clearanceM / radiusM, 9);
});

test("close to an antenna, where the radius begins to grow, the line is looked at", () => {
  // A slope of 1 in 2 from 2 m above the antenna, 3 m long, then level far below: at 18 GHz the radius is 0.1 m up to
  // d (D - d) lambda/D = 0.01 m2, nearly d = 0.01 m2/lambda = 0.6004 m, and the ray is blocked there by 2.3 m.
  const lengthM = 9000;
  const slope = [at(0, 212), at(3, 213.5), at(3.1, 150)];
  const rows = [...slope, at(lengthM, 200)];
  const turned = rows.map(({ distanceM, heightM }) => at(lengthM - distanceM, heightM!)).reverse();
  const clearsOver = (surveyed: readonly SurveyRow[], groundM: readonly [number, number]) =>
    clearanceFor(
      { kFactor: 4 / 3, fresnelFraction: 0.6 },
      { distanceM: lengthM, antennaAslM: [210, 210], groundM, frequencyHz: 18e9 },
      profileOf({ lengthM, rows: surveyed }),
      [],
    )!;
  const nearM = 0.01 / (299_792_458 / 18e9);
  for (const [found, atM] of [
    [clearsOver(rows, [212, 200]), nearM],
    [clearsOver(turned, [200, 212]), lengthM - nearM],
  ] as const) {
    expect(found.distanceM).toBeCloseTo(atM, 3);
    expect(found.clearanceM).toBeCloseTo(-2 - nearM / 2, 3);
    expect(found.fraction).toBeCloseTo((-2 - nearM / 2) / 0.1, 1);
  }
});

test("the same survey told from the other end gives the same figures", () => {
  fc.assert(
    fc.property(paths, (drawn) => {
      const there = clears(drawn);
      const { lengthM, antennaM } = drawn;
      const [groundM, otherM] = ray(drawn).groundM;
      const back = clearanceFor(
        drawn,
        { ...ray(drawn), antennaAslM: [antennaM[1], antennaM[0]], groundM: [otherM, groundM] },
        reversedProfile(profileOf(drawn)),
        [],
      )!;
      expect(back.fraction).toBeCloseTo(there.fraction, 6);
      expect(back.heightNeededM.map((heightM) => heightM ?? 0)).toEqual(
        there.heightNeededM.toReversed().map((heightM) => expect.closeTo(heightM ?? 0, 6)),
      );
      expect(lengthM).toBeGreaterThan(0);
    }),
  );
});

test("an obstacle stands at its place on the bare ground, beside cover and not upon it", () => {
  const rows = [at(0, 200), at(3000, 200, 12), at(4000, 210, 12), at(LENGTH_M, 200)];
  const hop = overSurvey({ obstacles: [{ title: "crane", heightM: 30, distanceM: 3333 }] });
  const result = evaluateHop(hop, surveyed(rows));
  expect(result.clearance[0]).toMatchObject({ obstacle: "crane", distanceM: 3333 });
  expect(result.clearance[0]!.obstacleM).toBeCloseTo(233.33, 9);
  // The mean is that of the ground, by length: a trapezium of 10 m at 4000 m.
  expect(result.profile!.meanM).toBeCloseTo(200 + (10 * (LENGTH_M - 3000)) / 2 / LENGTH_M, 9);
  expect(result.profile!.highestM).toBe(210);
  const back = reversed(hop, LENGTH_M);
  const turned = evaluateHop(back, {
    ...surveyed(rows),
    profile: reversedProfile(surveyed(rows).profile!),
  });
  expect(turned.clearance[0]!.fraction).toBeCloseTo(result.clearance[0]!.fraction, 9);
  expect(turned.diffractionLossDb).toBeCloseTo(result.diffractionLossDb!, 6);
});

test("ground at the sites is told as the survey's, or as what the design states beside it", () => {
  const rows = [at(0, 203), at(LENGTH_M, 206)];
  const [keld, tarn] = evaluateHop(overSurvey(), surveyed(rows)).geometry!;
  expect([keld.groundM, keld.groundFrom, tarn.groundM, tarn.groundFrom]).toEqual([
    203,
    "survey",
    206,
    "survey",
  ]);
  const stated = evaluateHop(makeHop(), surveyed(rows)).geometry!;
  expect(
    stated.map(({ groundM, groundFrom, terrainGroundM }) => [groundM, groundFrom, terrainGroundM]),
  ).toEqual([
    [200, "design", 203],
    [200, "design", 206],
  ]);
});

test("cover of a survey is in the way of the ray as ground would be, and diffracts", () => {
  const bare = [at(0, 200), at(4000, 200), at(4100, 200), at(LENGTH_M, 200)];
  const wooded = [at(0, 200), at(4000, 200, 45), at(4100, 200, 45), at(LENGTH_M, 200)];
  const [clear, blocked] = [bare, wooded].map((rows) => evaluateHop(overSurvey(), surveyed(rows)));
  expect(clear!.clearance[0]!.verdict).toBe("met");
  expect(clear!.diffractionLossDb).toBe(0);
  expect(blocked!.clearance[0]).toMatchObject({ verdict: "missed", obstacleM: 245 });
  expect(blocked!.diffractionLossDb).toBeGreaterThan(6);
  expect(blocked!.profile!.meanM).toBe(200);
});

test("the place of an obstacle decides its diffraction, not the nearest sample of a raster", () => {
  // Two samples 93 m apart at most; the same crane at a sample and between two.
  const lossDb = (distanceM: number, points: number) =>
    evaluateHop(
      makeHop({ climate: CLIMATE, obstacles: [{ heightM: 45, distanceM }] }),
      levelGround(LENGTH_M, 0, points),
    ).diffractionLossDb!;
  const between = LENGTH_M * 0.2045;
  expect(lossDb(between, 101)).toBeGreaterThan(3);
  expect(lossDb(between, 101)).toBeCloseTo(lossDb(between, 2001), 3);
  expect(Math.abs(lossDb(between, 101) - lossDb(LENGTH_M * 0.2, 101))).toBeGreaterThan(0.01);
});
