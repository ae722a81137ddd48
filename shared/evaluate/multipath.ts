import { metres, trimmed } from "../format/numbers.js";
import { METHOD as ANNUAL, annualConversion, annualFadeDistribution } from "../propagation/p530/annual.js";
import { METHOD as DISTRIBUTION, fadeDistribution } from "../propagation/p530/fade-distribution.js";
import { METHOD as MULTIPATH, multipathOccurrence, SHORTEST_PATH_M } from "../propagation/p530/multipath.js";
import { multipathActivity } from "../propagation/p530/multipath-activity.js";
import { METHOD as MULTIPATH17, multipathOccurrence17 } from "../propagation/p530/multipath17.js";
import type { ClimateInUse } from "./climate.js";
import type { FadingPath, MultipathFading } from "./fading-model.js";
import { cite, missing, note, record, refused, type Trace, use } from "./trace.js";

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
    cite(trace, MULTIPATH);
    note(trace, "Up to 5 km multipath is not reckoned with.");
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
  note(trace, ...year.validity);
  cite(trace, DISTRIBUTION);
  cite(trace, ANNUAL);
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
      note(
        trace,
        hasCurrent
          ? "Multipath: logK and dN75 serve with the mean height of the terrain only, which is not known without a profile; the quick method stands in."
          : "Multipath: the climate gives neither logK with dN75 nor dN1; the quick method stands in.",
      );
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
      said: "the current method needs logK and dN75 in the climate",
    });
    return undefined;
  }
  if (meanTerrainM === undefined) {
    missing(trace, {
      code: "terrain",
      of: ["multipath"],
      said: "the mean terrain height is not known without a profile",
    });
    return undefined;
  }
  const [ofLogK, ofDn75] = [origin("logK"), origin("dN75")];
  use(trace, "logK", () => trimmed(logK, 3), ofLogK.origin, ofLogK.note);
  use(trace, "dN75", () => `${trimmed(dN75, 2)} N-units`, ofDn75.origin, ofDn75.note);
  use(trace, "mean terrain", () => metres(meanTerrainM), path.terrain?.kind ?? "terrain");
  cite(trace, MULTIPATH);
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
      said: "the preceding method needs dN1 in the climate",
    });
    return undefined;
  }
  if (terrainRoughnessM === undefined) {
    note(
      trace,
      "Multipath by the initial-planning method of P.530-17 from dN1, since the terrain's roughness is not known; logK and dN75 would serve the present edition.",
    );
    return quickMethod(path, climateInUse, frequencyHz, trace);
  }
  useGradient(dN1, climateInUse, trace);
  const of = origin("terrainRoughnessM");
  use(trace, "terrain roughness", metres(terrainRoughnessM), of.origin, of.note);
  cite(trace, MULTIPATH17);
  note(trace, "Multipath by the detailed method of P.530-17; logK and dN75 would serve the present edition.");
  return answer(multipathOccurrence17({ ...common(path, frequencyHz), dN1, terrainRoughnessM }), trace);
}

function quickMethod(
  path: FadingPath,
  climateInUse: ClimateInUse,
  frequencyHz: number,
  trace: Trace,
): Occurrence | undefined {
  const { dN1 } = climateInUse.climate;
  cite(trace, MULTIPATH17);
  if (dN1 === undefined) {
    use(trace, "dN1", `${ASSUMED_DN1} N/km`, "default", "assumed for early planning, of no particular place");
    note(
      trace,
      `Multipath for early planning only: the quick method with an assumed gradient of ${ASSUMED_DN1} N/km; the outage of the place may differ several times.`,
    );
  } else {
    useGradient(dN1, climateInUse, trace);
    note(trace, "Multipath by the quick method for early planning of P.530-17.");
  }
  const found = answer(
    multipathOccurrence17({ ...common(path, frequencyHz), dN1: dN1 ?? ASSUMED_DN1 }),
    trace,
  );
  return found && (dN1 === undefined ? { ...found, planningOnly: true } : found);
}

function useGradient(dN1: number, { origin }: ClimateInUse, trace: Trace): void {
  const of = origin("dN1");
  use(trace, "dN1", `${trimmed(dN1, 1)} N/km`, of.origin, of.note);
  if (dN1 < DUCTING_GRADIENT)
    note(
      trace,
      `Multipath: dN1 lies below ${DUCTING_GRADIENT} N/km, so that in more than 1 % of the year ducts may form near the ground; a path that a duct leads astray is not in these methods.`,
    );
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
  outcome:
    | { ok: true; occurrencePercent: number; validity: readonly string[]; steps: object }
    | { ok: false; refusal: string; steps?: object },
  trace: Trace,
): Occurrence | undefined {
  record(trace, "2.3.1", outcome.steps);
  if (!outcome.ok) {
    refused(trace, "multipath", outcome.refusal);
    return undefined;
  }
  note(trace, ...outcome.validity);
  return { occurrencePercent: outcome.occurrencePercent };
}
