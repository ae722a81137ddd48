/**
 * Each input of each method at its limits: what lies inside is computed, what lies outside is refused, or thrown where a
 * function states so. The limits are those of the formulas (a logarithm of what is not positive) and those that the
 * functions state.
 */
import { describe, expect, it } from "vitest";
import { yearOfWorstMonth } from "../../shared/propagation/p452/worst-month.js";
import {
  effectiveEarthRadiusFactor,
  refractivity,
  saturationPressureHPa,
  vapourPressureHPa,
} from "../../shared/propagation/p453.js";
import { freeSpaceLossDb } from "../../shared/propagation/p525.js";
import { sphericalEarth } from "../../shared/propagation/p526/spherical-earth.js";
import { annualConversion } from "../../shared/propagation/p530/annual.js";
import { averageTerrainLoss } from "../../shared/propagation/p530/clearance.js";
import { clearAirXpdOutage, precipitationXpdOutage } from "../../shared/propagation/p530/cross-polar.js";
import {
  frequencyDiversityImprovement,
  spaceAndFrequencyOutage,
  spaceDiversityImprovement,
  twoBranchOutage,
} from "../../shared/propagation/p530/diversity.js";
import { enhancementExceeded } from "../../shared/propagation/p530/enhancement.js";
import { multipathOccurrence17 } from "../../shared/propagation/p530/multipath17.js";
import { rainDistribution, rainLaw } from "../../shared/propagation/p530/rain.js";
import {
  horizontalFromVertical,
  rainEvents,
  scaleRainFrequency,
  verticalFromHorizontal,
} from "../../shared/propagation/p530/rain-scaling.js";
import { lobeSpacing, reflectionGeometry } from "../../shared/propagation/p530/reflection.js";
import { effectiveReflection } from "../../shared/propagation/p530/reflection-coefficient.js";
import { selectiveOutage } from "../../shared/propagation/p530/selective.js";
import { seriesMultipathOutage } from "../../shared/propagation/p530/several-hops.js";
import { shorterPeriod } from "../../shared/propagation/p530/shorter-periods.js";
import { precipitationDistribution } from "../../shared/propagation/p530/wet-snow.js";
import { gasAttenuationDb, lineByLine, specificGasAttenuation } from "../../shared/propagation/p676.js";
import { referenceAtmosphere } from "../../shared/propagation/p835.js";
import { rainCoefficients } from "../../shared/propagation/p838.js";
import { liquidWaterCoefficient, specificFogAttenuationDbPerKm } from "../../shared/propagation/p840.js";
import { worstMonthFromAnnual } from "../../shared/propagation/p841.js";

/** Of one input: values that are computed, and values that are not. */
interface Limits {
  readonly inside?: readonly number[];
  readonly outside: readonly number[];
}

const ABOVE_ZERO: Limits = { inside: [1e-3], outside: [0, -1, Number.NaN] };
const ZERO_OR_MORE: Limits = { inside: [0], outside: [-1e-9, Number.NaN] };
const ANY_NUMBER: Limits = { inside: [-1, 0, 1], outside: [Number.NaN, Number.POSITIVE_INFINITY] };
const between = (lowest: number, highest: number, step: number): Limits => ({
  inside: [lowest, highest],
  outside: [lowest - step, highest + step, Number.NaN],
});

type Numbers = Readonly<Record<string, number>>;

/** Throws where an outcome is a refusal, so that both ways to say no are the same. */
function method<I extends Numbers>(
  name: string,
  run: (inputs: I) => unknown,
  usual: I,
  limits: Partial<Record<keyof I, Limits>>,
) {
  const figureOf = (inputs: I) => {
    const outcome = run(inputs);
    if (typeof outcome === "object" && outcome !== null && "ok" in outcome && outcome.ok !== true)
      throw new RangeError("refused");
    return outcome;
  };
  describe(name, () => {
    it("computes the usual", () => void figureOf(usual));
    for (const [input, { inside = [], outside }] of Object.entries(limits) as [keyof I & string, Limits][]) {
      it.each(inside)(`${input} %s is computed`, (value) => void figureOf({ ...usual, [input]: value }));
      it.each(outside)(`${input} %s is refused`, (value) => {
        expect(() => figureOf({ ...usual, [input]: value })).toThrow(RangeError);
      });
    }
  });
}

method(
  "Rec. ITU-R P.453, refractivity",
  refractivity,
  { dryPressureHPa: 1000, vapourPressureHPa: 10, temperatureK: 290 },
  {
    dryPressureHPa: ZERO_OR_MORE,
    vapourPressureHPa: ZERO_OR_MORE,
    temperatureK: ABOVE_ZERO,
  },
);
method(
  "P.453, saturation",
  ({ t, p }) => saturationPressureHPa(t, p),
  { t: 15, p: 1013 },
  {
    t: { inside: [-257], outside: [-258, Number.NaN] },
    p: ZERO_OR_MORE,
  },
);
method(
  "P.453, vapour pressure",
  ({ h, t, p }) => vapourPressureHPa(h, t, p),
  { h: 50, t: 15, p: 1013 },
  { h: ZERO_OR_MORE },
);
method("P.453, effective radius", ({ g }) => effectiveEarthRadiusFactor(g), { g: -39 }, { g: ANY_NUMBER });
method("P.525", ({ d, f }) => freeSpaceLossDb(d, f), { d: 1000, f: 1e9 }, { d: ABOVE_ZERO, f: ABOVE_ZERO });
method(
  "P.526, spherical earth",
  (path) => sphericalEarth({ ...path, polarization: "vertical" }),
  { distanceM: 60_000, height1M: 30, height2M: 30, frequencyHz: 1e9, effectiveRadiusM: 8.5e6 },
  {
    distanceM: ABOVE_ZERO,
    height1M: ABOVE_ZERO,
    height2M: ABOVE_ZERO,
    frequencyHz: ABOVE_ZERO,
    effectiveRadiusM: { outside: [0, -1, Number.NaN] },
  },
);
method(
  "P.452, worst month",
  yearOfWorstMonth,
  { worstMonthPercent: 1, latitudeDeg: 45, omega: 0 },
  {
    worstMonthPercent: { inside: [50], outside: [0, 50.001] },
    latitudeDeg: between(-90, 90, 0.001),
    omega: between(0, 1, 0.001),
  },
);
method("P.841", worstMonthFromAnnual, { annualPercent: 0.01 }, { annualPercent: between(0, 100, 0.001) });
method(
  "P.676, specific",
  specificGasAttenuation,
  { frequencyHz: 23e9, pressureHPa: 1013, temperatureK: 288, waterVapourDensityGm3: 7.5 },
  {
    frequencyHz: { outside: [0, -1] },
    pressureHPa: { outside: [0, -1] },
    temperatureK: { outside: [0, -1, Number.NaN] },
    waterVapourDensityGm3: ZERO_OR_MORE,
  },
);
method(
  "P.676, line by line",
  lineByLine,
  { frequencyHz: 23e9, dryPressureHPa: 1003, vapourPressureHPa: 10, temperatureK: 288 },
  {
    frequencyHz: { outside: [0, -1, Number.NaN] },
    dryPressureHPa: { outside: [0, -1, Number.NaN] },
    vapourPressureHPa: ZERO_OR_MORE,
    temperatureK: { outside: [0, -1, Number.NaN] },
  },
);
method(
  "P.676, of a path",
  ({ d }) =>
    gasAttenuationDb(
      { frequencyHz: 23e9, pressureHPa: 1013, temperatureK: 288, waterVapourDensityGm3: 7.5 },
      d,
    ),
  { d: 1000 },
  { d: ABOVE_ZERO },
);
method("P.835", ({ h }) => referenceAtmosphere(h), { h: 0 }, { h: between(-5000, 100_000, 0.001) });
method(
  "P.838",
  rainCoefficients,
  { frequencyHz: 18e9, polarizationTiltDeg: 45, elevationDeg: 0 },
  {
    frequencyHz: { outside: [0, -1, Number.NaN] },
    polarizationTiltDeg: ANY_NUMBER,
    elevationDeg: ANY_NUMBER,
  },
);
method(
  "P.840",
  liquidWaterCoefficient,
  { frequencyHz: 80e9, temperatureK: 280 },
  {
    frequencyHz: { outside: [0, -1, Number.NaN] },
    temperatureK: { outside: [0, -1, Number.NaN] },
  },
);
method(
  "P.840, fog",
  ({ w }) => specificFogAttenuationDbPerKm({ frequencyHz: 80e9, temperatureK: 280 }, w),
  { w: 0.05 },
  { w: ZERO_OR_MORE },
);

method(
  "P.530, average terrain",
  averageTerrainLoss,
  { distanceM: 20_000, obstacleDistanceM: 8000, frequencyHz: 8e9, k: 4 / 3, rayHeightM: 3 },
  {
    distanceM: { inside: [8001], outside: [8000, 0, Number.NaN] },
    obstacleDistanceM: { inside: [1, 19_999], outside: [0, 20_000, Number.NaN] },
    frequencyHz: { outside: [0, -1] },
    k: { outside: [0, -1] },
    rayHeightM: ANY_NUMBER,
  },
);
method(
  "P.530-17, multipath",
  multipathOccurrence17,
  {
    dN1: -200,
    terrainRoughnessM: 10,
    antenna1AslM: 120,
    antenna2AslM: 140,
    frequencyHz: 7.5e9,
    distanceM: 40_000,
  },
  {
    dN1: ANY_NUMBER,
    terrainRoughnessM: ZERO_OR_MORE,
    antenna1AslM: ANY_NUMBER,
    antenna2AslM: ANY_NUMBER,
    frequencyHz: ABOVE_ZERO,
    distanceM: { inside: [1], outside: [0, -1, Number.NaN] },
  },
);
method(
  "P.530, rain",
  rainLaw,
  { rainRate001MmH: 30, kCoefficient: 0.07, alpha: 1.1, distanceM: 10_000, frequencyHz: 18e9 },
  {
    rainRate001MmH: ZERO_OR_MORE,
    kCoefficient: ZERO_OR_MORE,
    alpha: { outside: [0, -1, Number.NaN] },
    distanceM: { outside: [-1, Number.NaN] },
    frequencyHz: { outside: [0, -1, Number.NaN] },
  },
);
method(
  "P.530, wet snow",
  (inputs) => precipitationDistribution({ ...inputs, law: rainDistribution(20, 18e9) }),
  { antenna1AslM: 500, antenna2AslM: 520, meanRainHeightM: 2500, rainProbabilityPercent: 5 },
  {
    antenna1AslM: ANY_NUMBER,
    antenna2AslM: ANY_NUMBER,
    meanRainHeightM: ANY_NUMBER,
    rainProbabilityPercent: { inside: [100], outside: [0, 100.001, Number.NaN] },
  },
);
method(
  "P.530, another frequency",
  scaleRainFrequency,
  { fromHz: 10e9, attenuationDb: 10, toHz: 20e9 },
  {
    fromHz: between(1e9, 1000e9, 1),
    toHz: between(1e9, 1000e9, 1),
    attenuationDb: ZERO_OR_MORE,
  },
);
method("P.530, vertical", verticalFromHorizontal, { attenuationDb: 10 }, { attenuationDb: ZERO_OR_MORE });
method(
  "P.530, horizontal",
  horizontalFromVertical,
  { attenuationDb: 10 },
  {
    attenuationDb: { inside: [0, 299], outside: [-1e-9, 300] },
  },
);
method(
  "P.530, events",
  rainEvents,
  { timePercent: 0.01 },
  { timePercent: { inside: [100], outside: [-0.001, 100.001] } },
);
method(
  "P.530, enhancement",
  enhancementExceeded,
  { occurrencePercent: 10, enhancementDb: 5, conversionDb: 3 },
  {
    occurrencePercent: { inside: [0, 2000], outside: [-1, 2000.1, Number.NaN] },
    enhancementDb: ZERO_OR_MORE,
    conversionDb: ANY_NUMBER,
  },
);
method(
  "P.530, shorter periods",
  (inputs) => shorterPeriod({ ...inputs, terrain: "flat" }),
  { worstMonthPercent: 0.01, periodHours: 24 },
  {
    worstMonthPercent: { inside: [0], outside: [-0.001, 100.001] },
    periodHours: { inside: [1, 719], outside: [0.9, 720, 721] },
  },
);
method(
  "P.530, year",
  annualConversion,
  { latitudeDeg: 45, distanceM: 40_000, inclinationMrad: 2 },
  {
    latitudeDeg: between(-90, 90, 0.001),
    distanceM: { outside: [0, -1, Number.NaN] },
    inclinationMrad: ZERO_OR_MORE,
  },
);
const SIGNATURE = { widthHz: 30e6, depthDb: 20, referenceDelayNs: 6.3 };
method(
  "P.530, selective",
  ({ occurrencePercent, distanceM, ...minimumPhase }) =>
    selectiveOutage({ occurrencePercent, distanceM, minimumPhase }),
  { occurrencePercent: 10, distanceM: 40_000, ...SIGNATURE },
  {
    occurrencePercent: { inside: [0], outside: [-1, 2000.1] },
    distanceM: { outside: [0, -1] },
    widthHz: ZERO_OR_MORE,
    depthDb: ANY_NUMBER,
    referenceDelayNs: { outside: [0, -1] },
  },
);
const SURFACE = {
  distanceM: 30_000,
  frequencyHz: 8e9,
  k: 4 / 3,
  antenna1AboveSurfaceM: 60,
  antenna2AboveSurfaceM: 40,
};
const ABOVE_SURFACE: Limits = { outside: [0, -1, Number.NaN] };
for (const [name, run] of [
  ["P.530, reflection", reflectionGeometry],
  ["P.530, lobes", lobeSpacing],
] as const)
  method(name, run, SURFACE, {
    distanceM: ABOVE_SURFACE,
    frequencyHz: ABOVE_SURFACE,
    k: ABOVE_SURFACE,
    antenna1AboveSurfaceM: ABOVE_SURFACE,
    antenna2AboveSurfaceM: ABOVE_SURFACE,
  });
method(
  "P.530, reflection coefficient",
  (inputs) => effectiveReflection({ ...inputs, polarization: "vertical" }),
  {
    frequencyHz: 8e9,
    grazingMrad: 5,
    relativePermittivity: 20,
    conductivitySPerM: 0.1,
    roughnessM: 0.1,
    divergence: 0.9,
  },
  {
    frequencyHz: { outside: [0, -1] },
    grazingMrad: { inside: [1570], outside: [0, 1571] },
    relativePermittivity: between(1, 1000, 0.001),
    conductivitySPerM: ZERO_OR_MORE,
    roughnessM: ZERO_OR_MORE,
    divergence: between(0, 1, 0.001),
  },
);
method(
  "P.530, two antennas",
  spaceDiversityImprovement,
  { spacingM: 8, frequencyHz: 7e9, distanceM: 40_000, gainDifferenceDb: 2, occurrencePercent: 10 },
  {
    spacingM: { outside: [0, -1] },
    frequencyHz: { outside: [0, -1] },
    distanceM: { outside: [0, -1] },
    occurrencePercent: { outside: [0, -1, 2000.1] },
    gainDifferenceDb: ANY_NUMBER,
  },
);
method(
  "P.530, two frequencies",
  frequencyDiversityImprovement,
  { frequencyHz: 7e9, separationHz: 60e6, distanceM: 40_000 },
  {
    frequencyHz: { outside: [0, -1] },
    separationHz: { outside: [0, -1] },
    distanceM: { outside: [0, -1] },
  },
);
const UNPROTECTED = { eta: 0.1, nonSelectiveFraction: 1e-4, selectiveFraction: 1e-5 };
const SHARES = {
  eta: between(0, 1, 0.001),
  nonSelectiveFraction: { inside: [1e-9], outside: [-1e-9, 1.001] },
  selectiveFraction: { inside: [0], outside: [-1e-9, 1.001] },
};
method(
  "P.530, two branches",
  twoBranchOutage,
  { ...UNPROTECTED, improvement: 100 },
  { ...SHARES, improvement: { outside: [0, -1] } },
);
for (const receivers of [2, 4] as const)
  method(
    `P.530, space and frequency, ${receivers} receivers`,
    (inputs) => spaceAndFrequencyOutage({ ...inputs, receivers }),
    { ...UNPROTECTED, spaceImprovement: 100, frequencyImprovement: 20 },
    { ...SHARES, spaceImprovement: { outside: [0, -1] }, frequencyImprovement: { outside: [0, -1] } },
  );
method(
  "P.530, polarization in clear air",
  clearAirXpdOutage,
  {
    occurrencePercent: 10,
    antennaXpdDb: 30,
    carrierToInterferenceDb: 20,
    frequencyHz: 7e9,
    improvementDb: 15,
    transmitSeparationM: 5,
  },
  {
    occurrencePercent: { inside: [0], outside: [-1, 2000.1] },
    antennaXpdDb: { inside: [25], outside: [-1, Number.NaN] },
    carrierToInterferenceDb: { outside: [Number.NaN] },
    frequencyHz: { outside: [0, -1] },
    improvementDb: ZERO_OR_MORE,
    transmitSeparationM: { inside: [0], outside: [-1] },
  },
);
method(
  "P.530, polarization in rain",
  precipitationXpdOutage,
  { attenuation001Db: 30, frequencyHz: 18e9, carrierToInterferenceDb: 20, improvementDb: 15, u0Db: 15 },
  {
    attenuation001Db: ZERO_OR_MORE,
    frequencyHz: { outside: [0, -1] },
    carrierToInterferenceDb: { outside: [Number.NaN] },
    improvementDb: ZERO_OR_MORE,
    u0Db: { outside: [Number.NaN] },
  },
);
method(
  "P.530, hops in series",
  (hop) => seriesMultipathOutage([hop, { outageFraction: 1e-5, fadeMarginDb: 40 }]),
  { outageFraction: 1e-5, fadeMarginDb: 40 },
  { outageFraction: { inside: [0], outside: [-1e-9, 1.001] }, fadeMarginDb: ZERO_OR_MORE },
);
