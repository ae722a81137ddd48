import fc from "fast-check";
import { expect, test } from "vitest";
import type { Climate } from "../../shared/design/climate.js";
import type { Hop, HopEnd, Site } from "../../shared/design/design.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { withinReason } from "../../shared/evaluate/reason.js";
import { drawProfile } from "../../shared/report/draw/profile.js";
import { explainHop } from "../../shared/report/explain.js";
import { judgeHop } from "../../shared/rules/judge.js";
import { surveyProfile } from "../../shared/terrain/survey.js";
import { groundOf, NO_GROUND, notFinite } from "./builders.js";

/** Any finite number, and the awkward ones more often. */
const wild = fc.oneof(
  fc.constantFrom(0, -0, 1, -1, 1e-300, 1e300, -1e300, 5e-324),
  fc.double({ noNaN: true, noDefaultInfinity: true }),
  fc.double({ min: -1000, max: 1000, noNaN: true }),
);
const maybe = <T>(arbitrary: fc.Arbitrary<T>) => fc.option(arbitrary, { nil: undefined, freq: 3 });
const hertz = fc.oneof(fc.double({ min: 1e9, max: 100e9, noNaN: true }), wild);
const range = fc.record({ fromHz: hertz, toHz: hertz });

const site = (name: string): fc.Arbitrary<Site> =>
  fc.record({
    name: fc.constant(name),
    position: maybe(
      fc.record({
        latitudeDeg: fc.oneof(
          fc.double({ min: 47, max: 48, noNaN: true }),
          fc.double({ min: -90, max: 90, noNaN: true }),
          wild,
        ),
        longitudeDeg: fc.oneof(
          fc.double({ min: -31, max: -30, noNaN: true }),
          fc.double({ min: -180, max: 180, noNaN: true }),
        ),
      }),
    ),
    groundM: maybe(wild),
    structure: maybe(fc.record({ kind: fc.constant("mast"), heightM: wild })),
  });

const antenna = fc.record({
  name: fc.constant("A"),
  band: maybe(range),
  diameterM: maybe(wild),
  beamwidthDeg: maybe(wild),
  crossPolarDiscriminationDb: maybe(wild),
  gain: fc.array(fc.record({ gainDbi: wild, frequencyHz: maybe(hertz) }), { maxLength: 3 }),
  pattern: fc.array(fc.record({ angleDeg: wild, copolarDb: wild }), { maxLength: 2 }),
});

const coupler = fc.record({
  name: fc.constant("C"),
  kind: maybe(fc.constantFrom("hybrid", "omt", "dual-polarized")),
  mainLossDb: maybe(wild),
  standbyLossDb: maybe(wild),
});

const arrangementName = fc.constantFrom(
  "1+0",
  "1+1 hot-standby",
  "1+1 hot-standby two-antennas",
  "2+0 xpic",
  "1+1 xpic four-units",
  "4+1 xpic",
  "5+0 single-polarization",
  "3+1",
  "1+1 space-diversity",
  "1+1 frequency-diversity",
  "1+1 space-and-frequency-diversity",
  "none of ours",
);

const ends = (name: string): fc.Arbitrary<HopEnd> =>
  fc.record({
    site: site(name),
    antenna: maybe(antenna),
    arrangement: maybe(fc.record({ name: arrangementName })),
    diversityAntenna: maybe(antenna),
    diversityHeightM: maybe(wild),
    antennaHeightM: maybe(wild),
    coupler: maybe(coupler),
    further: maybe(
      fc.array(fc.record({ antenna: maybe(antenna), heightM: maybe(wild), coupler: maybe(coupler) }), {
        maxLength: 3,
      }),
    ),
    feeder: maybe(
      fc.record({
        name: fc.constant("F"),
        loss: fc.array(fc.record({ lossDbPerM: wild, frequencyHz: maybe(hertz) }), { maxLength: 3 }),
      }),
    ),
    feederLengthM: maybe(wild),
    transmits: maybe(fc.constantFrom("high", "low")),
    transmitFrequencyHz: maybe(hertz),
    transmitPowerDbm: maybe(wild),
    extraLossDb: maybe(wild),
  });

const mode = fc.record({
  modulation: fc.constant("QPSK"),
  bandwidthHz: fc.oneof(fc.constant(55e6), wild),
  bitRateBps: maybe(wild),
  transmitPowerDbm: maybe(wild),
  thresholdDbm: maybe(wild),
  requiredSnrDb: maybe(wild),
  signature: maybe(fc.record({ widthHz: wild, depthDb: wild, referenceDelayNs: wild })),
  dispersiveMarginDb: maybe(wild),
});

const climate: fc.Arbitrary<Climate> = fc.record({
  rainRateMmPerH: maybe(wild),
  rainTimePercent: maybe(fc.constantFrom(0.01, 0.1, 0)),
  rainZone: maybe(fc.constantFrom("K", "I", "")),
  logK: maybe(wild),
  dN75: maybe(wild),
  dN1: maybe(wild),
  kFactor: maybe(wild),
  temperatureK: maybe(wild),
  pressureHPa: maybe(wild),
  waterVapourDensityGm3: maybe(wild),
  multipathMethod: maybe(fc.constantFrom("current", "preceding", "quick")),
  terrainRoughnessM: maybe(wild),
  rainHeightM: maybe(wild),
  rainProbabilityPercent: maybe(wild),
  worstMonthQ1: maybe(wild),
  worstMonthBeta: maybe(wild),
  uncheckedMethods: maybe(fc.constantFrom("use", "leave-out")),
});

const hops: fc.Arbitrary<Hop> = fc.record({
  name: fc.constant("KELD-TARN"),
  ends: fc.tuple(ends("KELD"), ends("TARN")),
  polarization: maybe(fc.constantFrom("horizontal", "vertical", "slant")),
  arrangement: fc.record({ name: arrangementName }),
  radio: maybe(
    fc.record({
      name: fc.constant("R"),
      tuning: maybe(range),
      lowHalf: maybe(range),
      highHalf: maybe(range),
      duplexSpacingHz: maybe(wild),
      noiseFigureDb: maybe(wild),
      overloadDbm: maybe(wild),
      xpicGainDb: maybe(wild),
      hysteresisDb: maybe(wild),
      mtbfHours: maybe(wild),
      switchOverHours: maybe(wild),
      modes: fc.array(mode, { maxLength: 3 }),
    }),
  ),
  modes: fc.array(mode, { maxLength: 3 }),
  climate,
  objective: maybe(
    fc.record({
      name: fc.constant("trunk"),
      availabilityPercent: maybe(fc.double({ min: 0, max: 100, noNaN: true })),
      capacityBps: maybe(wild),
      fadeMarginDb: maybe(wild),
      clearance: fc.array(fc.record({ fresnelFraction: wild, kFactor: wild }), { maxLength: 2 }),
      availabilityClass: maybe(
        fc.record({
          portion: fc.constantFrom("long-haul", "short-haul", "access"),
          linkLengthM: maybe(wild),
          propagationPercent: maybe(wild),
        }),
      ),
      quality: maybe(
        fc.record({
          portion: fc.constantFrom("intermediate", "terminating", "short-haul", "access"),
          linkLengthM: maybe(wild),
          sharePercent: maybe(wild),
          blockRatio: maybe(wild),
        }),
      ),
    }),
  ),
  obstacles: fc.array(fc.record({ heightM: wild, distanceM: wild }), { maxLength: 2 }),
  accepts: fc.constant([]),
  furtherChannels: maybe(
    fc.array(
      fc.record({
        plan: fc.constant("P"),
        bandwidthHz: fc.constant(55e6),
        number: fc.constant(1),
        standing: fc.constant("stated" as const),
        separationHz: wild,
      }),
      { maxLength: 2 },
    ),
  ),
  degradationDb: maybe(wild),
  repairHours: maybe(wild),
  measuredRain: maybe(
    fc.record({
      attenuation001Db: wild,
      frequencyHz: hertz,
      polarization: maybe(fc.constantFrom("horizontal", "vertical")),
    }),
  ),
  surfaces: maybe(
    fc.array(
      fc.record({
        kind: fc.constantFrom("water", "sea", "flat", "rough"),
        fromM: wild,
        toM: wild,
        heightM: maybe(wild),
      }),
      { maxLength: 2 },
    ),
  ),
});

/** Rows of a survey: distances, heights and cover as they may stand in a file. */
const surveys = fc
  .array(
    fc.tuple(
      fc.double({ min: 0.001, max: 3000, noNaN: true }),
      fc.option(fc.double({ min: -500, max: 9000, noNaN: true }), { nil: undefined }),
      fc.double({ min: 0, max: 500, noNaN: true }),
    ),
    { minLength: 2, maxLength: 20 },
  )
  .map((steps) => {
    let distanceM = 0;
    return steps.map(([stepM, heightM, coverM], i) => ({
      distanceM: (distanceM += i === 0 ? 0 : stepM),
      heightM,
      coverM,
    }));
  });

/** Heights of a profile; its length is that of the path when there is one. */
const heights = maybe(
  fc.array(fc.option(fc.double({ min: -500, max: 9000, noNaN: true }), { nil: null }), {
    minLength: 2,
    maxLength: 20,
  }),
);

test("no result and no message holds a number that is not finite, whatever stands in the design", () => {
  fc.assert(
    fc.property(hops, heights, fc.double({ min: 1, max: 1e6, noNaN: true }), (hop, profile, otherM) => {
      const lengthM = evaluateHop(hop, NO_GROUND).distanceM ?? otherM;
      const ground = profile === undefined ? NO_GROUND : groundOf(profile, lengthM);
      const result = evaluateHop(hop, ground);
      expect(notFinite(result)).toEqual([]);
      expect(notFinite(explainHop(hop, result), "explanations")).toEqual([]);
      expect(notFinite(judgeHop(hop, result, "2026-01-01"), "findings")).toEqual([]);
    }),
    { numRuns: 2000 },
  );
});

test("nor where a reflection lies a hair beyond the end of the path", () => {
  const end = (name: string, longitudeDeg: number, groundM: number | undefined, more: Partial<HopEnd>) => ({
    site: { name, position: { latitudeDeg: 0, longitudeDeg }, groundM },
    antennaHeightM: 0,
    ...more,
  });
  const pattern = [{ angleDeg: 5e-324, copolarDb: 0 }];
  const hop: Hop = {
    name: "KELD-TARN",
    ends: [
      end("KELD", -30, undefined, { antenna: { name: "A", gain: [], pattern } }),
      end("TARN", -30.00076389810377, 0, { transmitFrequencyHz: 1e9 }),
    ],
    arrangement: { name: "1+0" },
    modes: [],
    climate: {},
    obstacles: [],
    accepts: [],
    surfaces: [{ kind: "water", fromM: 0, toM: 0, heightM: -5e-324 }],
  };
  const lengthM = evaluateHop(hop, NO_GROUND).distanceM!;
  const result = evaluateHop(hop, groundOf([133.57583692462876, null, null], lengthM));
  expect(result.reflections).toHaveLength(1);
  expect(notFinite(result)).toEqual([]);
});

test("nor over any survey, with or without bridges", () => {
  fc.assert(
    fc.property(
      hops,
      surveys,
      maybe(fc.double({ min: 1e-3, max: 1000, noNaN: true })),
      (hop, rows, bridgeGapsM) => {
        const lengthM = evaluateHop(hop, NO_GROUND).distanceM ?? rows.at(-1)!.distanceM;
        const { profile, fit } = surveyProfile(rows, lengthM, "s.csv", "map");
        const ends = [profile.heightM[0]!, profile.heightM.at(-1)!];
        const [from, to] = ends.map((heightM) => (Number.isNaN(heightM) ? undefined : heightM));
        const ground = { profile, groundM: [from, to] as const, profileKind: "survey" as const, survey: fit };
        const result = evaluateHop({ ...hop, bridgeGapsM }, ground);
        expect(notFinite(result)).toEqual([]);
        expect(notFinite(explainHop(hop, result), "explanations")).toEqual([]);
        expect(notFinite(judgeHop(hop, result, "2026-01-01"), "findings")).toEqual([]);
        const drawn = drawProfile(withinReason(hop).hop, result, profile);
        expect(drawn?.svg ?? "").not.toMatch(/NaN|Infinity|undefined/);
      },
    ),
    { numRuns: 1000 },
  );
});

test("an explanation leaves out no input, method or remark that the result holds", () => {
  fc.assert(
    fc.property(hops, heights, fc.double({ min: 1, max: 1e6, noNaN: true }), (hop, profile, otherM) => {
      const lengthM = evaluateHop(hop, NO_GROUND).distanceM ?? otherM;
      const result = evaluateHop(hop, profile === undefined ? NO_GROUND : groundOf(profile, lengthM));
      const told = explainHop(hop, result);
      expect(new Set(told.flatMap(({ notes }) => notes))).toEqual(new Set(result.notes));
      expect(new Set(told.flatMap(({ inputs }) => inputs))).toEqual(new Set(result.inputs));
      expect(new Set(told.flatMap(({ methods }) => methods))).toEqual(new Set(result.methods));
    }),
    { numRuns: 1000 },
  );
});
