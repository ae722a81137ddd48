import type { Hop, HopEnd, RadioMode } from "../design/design.js";
import { frequency, kilometres } from "../format/numbers.js";
import { modeThreshold } from "../radio/threshold.js";
import type { TerrainProfile } from "../terrain/profile.js";
import { type Fading, outagesFor, twoWayAvailability } from "./availability.js";
import { clearanceFor, type RayPath, type Top } from "./clearance.js";
import { medianKFactor, STANDARD_K_FACTOR } from "./climate.js";
import { fadingOf } from "./fading.js";
import { type Course, courseOf, type Heights, heightsOf } from "./geometry.js";
import type { GroundInput } from "./ground.js";
import { type Chain, chainOf, levelDiagram, type PathLosses, transmitPowerDbm } from "./levels.js";
import { missingFacts } from "./missing.js";
import { FREE_OF_DIFFRACTION_FRACTION, type Obstruction, pathLosses } from "./path-loss.js";
import { profileSummary, topsOf } from "./profile.js";
import { withinReason } from "./reason.js";
import type { ClearanceResult, DirectionResult, HopResult, ModeResult, ProfileSummary } from "./result.js";
import { missing, newTrace, note, type Trace, use } from "./trace.js";

/**
 * Everything the engine computes for one hop: geometry, clearance, level diagram and availability. Pure; the host
 * hands in the ground. What a step lacks is told in `missing`, and the other steps go on without it.
 */
export function evaluateHop(design: Hop, ground: GroundInput): HopResult {
  const trace = newTrace();
  const { hop, beyond } = withinReason(design);
  for (const what of beyond) missing(trace, `Beyond reason: ${what} is left out.`);
  for (const { fact } of missingFacts(hop)) missing(trace, `The ${fact} is not stated.`);
  const kFactor = medianKFactor(hop.climate, trace);
  const course = courseOf(hop, trace);
  const heights = course && heightsOf(hop, ground, course, kFactor, trace);
  const profile = usableProfile(ground, course, trace);
  const summary = profile && profileSummary(profile, ground.profileKind);
  const tops = profile && course ? topsOf(hop, profile, course.distanceM, trace) : [];

  const clearance =
    course && heights && profile ? clearances(hop, course, heights, profile, tops, trace) : [];
  const obstruction = profile && obstructionOf(hop, course, heights, profile, tops, kFactor);
  const both =
    course && heights ? evaluateDirections(hop, course, heights, summary, obstruction, trace) : NOTHING;

  return {
    hop: hop.name,
    ends: [hop.ends[0].site.name, hop.ends[1].site.name],
    distanceM: course?.distanceM,
    slantDistanceM: heights?.slantDistanceM,
    geometry: heights?.ends,
    polarization: hop.polarization,
    profile: summary,
    clearance,
    ...worseLosses(both),
    directions: both.directions,
    availability: twoWayAvailability(hop, both.directions, both.fading, trace),
    inputs: trace.inputs,
    methods: trace.methods,
    missing: trace.missing,
    notes: trace.notes,
  };
}

/** A survey may be a little longer or shorter than the geodesic; more than that, it is of another path. */
const PROFILE_LENGTH_TOLERANCE = 0.02;

function usableProfile(
  ground: GroundInput,
  course: Course | undefined,
  trace: Trace,
): TerrainProfile | undefined {
  const { profile } = ground;
  if (profile === undefined || profile.heightM.length < 3) {
    missing(trace, `Clearance: ${ground.problem ?? "there is no terrain profile of the path."}`);
    return undefined;
  }
  const lengthM = profile.distanceM.at(-1)!;
  if (course !== undefined && Math.abs(lengthM / course.distanceM - 1) > PROFILE_LENGTH_TOLERANCE) {
    const lengths = `${kilometres(lengthM)} long, the path ${kilometres(course.distanceM)}`;
    missing(trace, `Clearance: the profile is ${lengths}.`);
    return undefined;
  }
  return profile;
}

/** One result for each criterion of the objective, and k = 4/3 for information when it is not among them. */
function clearances(
  hop: Hop,
  course: Course,
  heights: Heights,
  profile: TerrainProfile,
  tops: readonly Top[],
  trace: Trace,
): ClearanceResult[] {
  const path = rayPath(hop, course, heights);
  if (path === undefined) return [];
  use(
    trace,
    "frequency of the Fresnel zone",
    frequency(path.frequencyHz),
    "design",
    "the lower of both directions",
  );
  const results: ClearanceResult[] = [];
  for (const criterion of hop.objective?.clearance ?? []) {
    if (!(criterion.kFactor > 0)) {
      missing(trace, "Clearance: a criterion states a k that is not above 0.");
      continue;
    }
    const result = clearanceFor(criterion, path, profile, tops);
    if (result !== undefined) results.push(result);
  }
  if (!results.some((result) => Math.abs(result.kFactor - STANDARD_K_FACTOR) < 0.01)) {
    const standard = { kFactor: STANDARD_K_FACTOR, fresnelFraction: FREE_OF_DIFFRACTION_FRACTION };
    const result = clearanceFor(standard, path, profile, tops);
    if (result !== undefined) results.push({ ...result, forInformation: true });
  }
  if (profile.gaps.length > 0) note(trace, "Clearance is computed over the known part of the profile only.");
  return results;
}

/** The lower frequency has the wider Fresnel zone. Without any, the middle of the radio's tuning range serves. */
function rayPath(hop: Hop, course: Course, heights: Heights): RayPath | undefined {
  const stated = hop.ends.map((end) => end.transmitFrequencyHz).filter((hz) => hz !== undefined);
  const tuning = hop.radio?.tuning;
  const frequencyHz = stated.length > 0 ? Math.min(...stated) : tuning && (tuning.fromHz + tuning.toHz) / 2;
  if (frequencyHz === undefined || !(frequencyHz > 0)) return undefined;
  return {
    distanceM: course.distanceM,
    antennaAslM: heights.antennaAslM,
    groundM: heights.groundM,
    frequencyHz,
  };
}

/** Defined when the path is not free of diffraction at median k. */
function obstructionOf(
  hop: Hop,
  course: Course | undefined,
  heights: Heights | undefined,
  profile: TerrainProfile,
  tops: readonly Top[],
  kFactor: number,
): Obstruction | undefined {
  const path = course && heights && rayPath(hop, course, heights);
  if (path === undefined) return undefined;
  const median = clearanceFor({ kFactor, fresnelFraction: 0 }, path, profile, tops);
  if (median === undefined || median.fraction >= FREE_OF_DIFFRACTION_FRACTION) return undefined;
  return { profile, tops, kFactor };
}

interface BothDirections {
  readonly directions: readonly DirectionResult[];
  readonly losses: readonly PathLosses[];
  readonly fading: readonly Fading[];
}

const NOTHING: BothDirections = { directions: [], losses: [], fading: [] };

function evaluateDirections(
  hop: Hop,
  course: Course,
  heights: Heights,
  summary: ProfileSummary | undefined,
  obstruction: Obstruction | undefined,
  trace: Trace,
): BothDirections {
  const directions: DirectionResult[] = [];
  const losses: PathLosses[] = [];
  const fading: Fading[] = [];
  for (const [from, to] of [hop.ends, [hop.ends[1], hop.ends[0]]] as const) {
    const frequencyHz = from.transmitFrequencyHz;
    if (frequencyHz === undefined || !(frequencyHz > 0)) continue;
    const loss = pathLosses(hop, heights, course.distanceM, frequencyHz, obstruction, trace);
    losses.push(loss);
    const fades = fadingOf(hop, { course, heights, meanTerrainM: summary?.meanM }, frequencyHz, trace);
    const chain = chainOf(from, to, frequencyHz, loss, trace);
    const direction = chain && directionOf(hop, from, to, frequencyHz, chain, fades, trace);
    if (direction === undefined) continue;
    directions.push(direction);
    fading.push(fades);
  }
  return { directions, losses, fading };
}

function directionOf(
  hop: Hop,
  from: HopEnd,
  to: HopEnd,
  frequencyHz: number,
  chain: Chain,
  fading: Fading,
  trace: Trace,
): DirectionResult | undefined {
  const powered = hop.modes.filter((mode) => {
    if (transmitPowerDbm(from, mode) !== undefined) return true;
    missing(
      trace,
      `Level: mode ${mode.modulation} has no transmit power, neither in the catalogue nor at ${from.site.name}.`,
    );
    return false;
  });
  const reference = powered.at(-1);
  if (reference === undefined) return undefined;
  const power = transmitPowerDbm(from, reference)!;
  const levels = levelDiagram(hop, from, to, reference, power, chain);
  const receivedLevelDbm = levels.at(-1)!.levelDbm;

  const strongestDbm = Math.max(...powered.map((mode) => transmitPowerDbm(from, mode)!)) + chain.totalDb;
  const overloadDbm = hop.radio?.overloadDbm;
  const standbyExtraDb = Math.max(...chain.standbyExtraDb);
  return {
    from: from.site.name,
    to: to.site.name,
    frequencyHz,
    eirpDbm: power + chain.eirpGainDb,
    levels,
    receivedLevelDbm,
    modes: powered.flatMap((mode) => modeResult(hop, from, mode, chain, fading, trace) ?? []),
    overload:
      overloadDbm === undefined
        ? undefined
        : { receivedLevelDbm: strongestDbm, overloadDbm, marginDb: overloadDbm - strongestDbm },
    standbyReceivedLevelDbm: standbyExtraDb > 0 ? receivedLevelDbm - standbyExtraDb : undefined,
  };
}

function modeResult(
  hop: Hop,
  from: HopEnd,
  mode: RadioMode,
  chain: Chain,
  fading: Fading,
  trace: Trace,
): ModeResult | undefined {
  const threshold = modeThreshold(mode, hop.radio?.noiseFigureDb);
  if (threshold === undefined) {
    missing(
      trace,
      `Margin: mode ${mode.modulation} has neither a threshold nor a required SNR with a noise figure.`,
    );
    return undefined;
  }
  const transmitPower = transmitPowerDbm(from, mode)!;
  const receivedLevelDbm = transmitPower + chain.totalDb;
  const fadeMarginDb = receivedLevelDbm - threshold.thresholdDbm;
  return {
    modulation: mode.modulation,
    bandwidthHz: mode.bandwidthHz,
    bitRateBps: mode.bitRateBps,
    transmitPowerDbm: transmitPower,
    receivedLevelDbm,
    thresholdDbm: threshold.thresholdDbm,
    thresholdFrom: threshold.from,
    fadeMarginDb,
    ...outagesFor(fading, fadeMarginDb),
  };
}

function worseLosses(both: BothDirections) {
  if (both.losses.length === 0) return {};
  const worst = (figure: (losses: PathLosses) => number) => Math.max(...both.losses.map(figure));
  const rain = both.fading.flatMap((fading) => fading.rain?.A001Db ?? []);
  return {
    freeSpaceLossDb: worst((losses) => losses.freeSpaceDb),
    gasLossDb: worst((losses) => losses.gasDb),
    diffractionLossDb: worst((losses) => losses.diffractionDb),
    rainAttenuation001Db: rain.length > 0 ? Math.max(...rain) : undefined,
  };
}
