import type { Outcome } from "../../propagation/outcome.js";
import { annualConversion, annualFadeDistribution } from "../../propagation/p530/annual.js";
import { fadeDistribution } from "../../propagation/p530/fade-distribution.js";
import { multipathOccurrence, SHORTEST_PATH_M } from "../../propagation/p530/multipath.js";
import { multipathActivity } from "../../propagation/p530/multipath-activity.js";
import { multipathOccurrence17 } from "../../propagation/p530/multipath17.js";
import { cite, missing, note, record, refused, remarksOf, type Trace, use } from "../account/trace.js";
import type { ClimateInUse } from "../path/climate.js";
import type { FadingPath, MultipathFading } from "./fading-model.js";

/** Gradient assumed by the quick method where none is given, N/km: our own, in the middle of the usual -200 to -400. */
const ASSUMED_DN1 = -300;

/** Below this gradient of refractivity rays are trapped, N/km (k infinite at it). */
const DUCTING_GRADIENT = -157;

/** Clear-air fading of the average worst month and the average year; undefined, with the reason, when not known. */
export function multipathOf(
  path: FadingPath,
  climate: ClimateInUse,
  frequencyHz: number,
  trace: Trace,
): MultipathFading | undefined {
  const { course, heights } = path;
  if (course.distanceM <= SHORTEST_PATH_M) {
    cite(trace, "multipath");
    note(trace, { code: "multipath-not-on-short-paths" });
    const none = fadeDistribution(0);
    return { occurrencePercent: 0, eta: 0, month: none, year: none, yearFactor: 1 };
  }
  const occurrence = occurrenceOf(path, climate, frequencyHz, trace);
  if (occurrence === undefined) return undefined;
  const inclinationMrad =
    Math.abs(heights.antennaAslM[0] - heights.antennaAslM[1]) / (course.distanceM / 1000);
  const year = annualConversion({
    latitudeDeg: course.latitudeDeg,
    distanceM: course.distanceM,
    inclinationMrad,
  });
  if (!year.ok) {
    refused(trace, "multipath", year.refusal);
    return undefined;
  }
  note(trace, ...remarksOf("multipath", year.validity));
  cite(trace, "fade-distribution");
  cite(trace, "annual-conversion");
  record(trace, "2.3.4", year.steps);
  const { occurrencePercent } = occurrence;
  return {
    ...occurrence,
    eta: multipathActivity(occurrencePercent / 100),
    month: fadeDistribution(occurrencePercent),
    year: annualFadeDistribution(occurrencePercent, year.conversionDb),
    yearFactor: 10 ** (-year.conversionDb / 10),
  };
}

type Occurrence = Pick<MultipathFading, "occurrencePercent" | "planningOnly">;

/**
 * p0 of the average worst month by the method that the climate chooses, else by the newest whose inputs are there. With
 * no figure that can be used (logK and dN75 want the terrain's mean height) the quick method and its assumed gradient serve early planning, and the result says so.
 */
function occurrenceOf(
  path: FadingPath,
  use: ClimateInUse,
  frequencyHz: number,
  trace: Trace,
): Occurrence | undefined {
  const { logK, dN75, dN1, multipathMethod } = use.climate;
  const hasCurrent = logK !== undefined && dN75 !== undefined;
  const knowsTerrain = path.terrain?.meanM !== undefined;
  switch (multipathMethod) {
    case "current":
      return currentMethod(path, use, frequencyHz, trace);
    case "preceding":
      return precedingMethod(path, use, frequencyHz, trace);
    case "quick":
      return quickMethod(path, use, frequencyHz, trace);
    default:
      if (hasCurrent && knowsTerrain) return currentMethod(path, use, frequencyHz, trace);
      if (dN1 !== undefined) return precedingMethod(path, use, frequencyHz, trace);
      note(trace, { code: "quick-method-stands-in", lacks: hasCurrent ? "mean-terrain" : "gradients" });
      return quickMethod(path, use, frequencyHz, trace);
  }
}

function currentMethod(
  path: FadingPath,
  { climate, origin }: ClimateInUse,
  frequencyHz: number,
  trace: Trace,
): Occurrence | undefined {
  const { logK, dN75 } = climate;
  const meanTerrainM = path.terrain?.meanM;
  if (logK === undefined || dN75 === undefined) {
    missing(trace, {
      code: "climate",
      of: ["multipath"],
      reason: { code: "no-gradients", needs: "logK-and-dN75" },
    });
    return undefined;
  }
  if (meanTerrainM === undefined) {
    missing(trace, {
      code: "terrain",
      of: ["multipath"],
      reason: { code: "mean-terrain-unknown" },
    });
    return undefined;
  }
  use(trace, { code: "log-k", logK }, origin("logK"));
  use(trace, { code: "dn75", dN75 }, origin("dN75"));
  use(trace, { code: "mean-terrain", heightM: meanTerrainM }, path.terrain?.kind ?? "terrain");
  cite(trace, "multipath");
  const found = multipathOccurrence({
    ...common(path, frequencyHz),
    logK,
    dN75,
    meanTerrainAslM: meanTerrainM,
  });
  return answer(found, trace);
}

function precedingMethod(
  path: FadingPath,
  climateInUse: ClimateInUse,
  frequencyHz: number,
  trace: Trace,
): Occurrence | undefined {
  const { climate, origin } = climateInUse;
  const { dN1, terrainRoughnessM } = climate;
  if (dN1 === undefined) {
    missing(trace, {
      code: "climate",
      of: ["multipath"],
      reason: { code: "no-gradients", needs: "dN1" },
    });
    return undefined;
  }
  if (terrainRoughnessM === undefined) {
    note(trace, { code: "multipath-initial-planning" });
    return quickMethod(path, climateInUse, frequencyHz, trace);
  }
  useGradient(dN1, climateInUse, trace);
  use(trace, { code: "terrain-roughness", roughnessM: terrainRoughnessM }, origin("terrainRoughnessM"));
  cite(trace, "multipath-preceding");
  note(trace, { code: "multipath-detailed-preceding" });
  return answer(multipathOccurrence17({ ...common(path, frequencyHz), dN1, terrainRoughnessM }), trace);
}

function quickMethod(
  path: FadingPath,
  climateInUse: ClimateInUse,
  frequencyHz: number,
  trace: Trace,
): Occurrence | undefined {
  const { dN1 } = climateInUse.climate;
  cite(trace, "multipath-preceding");
  if (dN1 === undefined) {
    use(trace, { code: "dn1", dN1: ASSUMED_DN1 }, { origin: "default", standing: "assumed" });
    note(trace, { code: "multipath-early-planning", assumedDN1: ASSUMED_DN1 });
  } else {
    useGradient(dN1, climateInUse, trace);
    note(trace, { code: "multipath-quick" });
  }
  const found = answer(
    multipathOccurrence17({ ...common(path, frequencyHz), dN1: dN1 ?? ASSUMED_DN1 }),
    trace,
  );
  return found && (dN1 === undefined ? { ...found, planningOnly: true } : found);
}

function useGradient(dN1: number, { origin }: ClimateInUse, trace: Trace): void {
  use(trace, { code: "dn1", dN1 }, origin("dN1"));
  if (dN1 < DUCTING_GRADIENT) note(trace, { code: "ducts-likely", belowDN1: DUCTING_GRADIENT });
}

function common({ course, heights }: FadingPath, frequencyHz: number) {
  return {
    distanceM: course.distanceM,
    frequencyHz,
    antenna1AslM: heights.antennaAslM[0],
    antenna2AslM: heights.antennaAslM[1],
  };
}

function answer(
  outcome: Outcome<{ readonly occurrencePercent: number; readonly steps: object }, object>,
  trace: Trace,
): Occurrence | undefined {
  record(trace, "2.3.1", outcome.steps);
  if (!outcome.ok) {
    refused(trace, "multipath", outcome.refusal);
    return undefined;
  }
  note(trace, ...remarksOf("multipath", outcome.validity));
  return { occurrencePercent: outcome.occurrencePercent };
}
