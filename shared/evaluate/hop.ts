import type { Hop } from "../design/design.js";
import { LEVEL_STEPS, RAY_STEPS } from "./account/lack.js";
import type { EquipmentOutage } from "./account/outage-result.js";
import type { ClearanceResult } from "./account/path-result.js";
import type { HopResult } from "./account/result.js";
import { missing, newTrace, note, type Trace } from "./account/trace.js";
import { type BothDirections, evaluateDirections, type InterferenceAtEnds, NOTHING } from "./directions.js";
import { boundedRain } from "./fading/bounded-rain.js";
import { carriersOf } from "./level/carriers.js";
import { noteChannels } from "./level/channels.js";
import { inJudgedPolarization } from "./level/polarization.js";
import { standbyResult } from "./level/standby.js";
import { missInputs } from "./missing.js";
import { onBestChannel, openWhereBetter } from "./open-channel.js";
import { twoWayAvailability } from "./outage/availability.js";
import { equipmentOutage } from "./outage/equipment.js";
import { objectiveResults } from "./outage/objectives.js";
import { climateInUse, medianKFactor } from "./path/climate.js";
import { clearances, obstructionOf } from "./path/criteria.js";
import { furtherGround, furtherPaths } from "./path/further-antennas.js";
import { courseOf, heightsOf } from "./path/geometry.js";
import type { GroundInput } from "./path/ground.js";
import { isWhole, judgedOver, profileOver, unknownOf } from "./path/known-ground.js";
import type { PathLosses } from "./path/path-loss.js";
import { profileSummary, topsOf } from "./path/profile.js";
import { reflectionsOf } from "./path/reflection.js";
import { missUncounted } from "./path/uncounted.js";
import { withinReason } from "./reason.js";

/**
 * Everything the engine computes for one hop: geometry, clearance, level diagram and availability. Pure; the host
 * hands in the ground, and what others' transmissions cost, where that is known. What a step lacks is told in `missing`, and the other steps go on without it.
 */
export function evaluateHop(design: Hop, ground: GroundInput, interference?: InterferenceAtEnds): HopResult {
  const result = evaluated(design, ground, interference);
  const best = onBestChannel(design);
  return best === undefined ? result : openWhereBetter(result, evaluated(best, ground, interference));
}

/**
 * Where the antennas of a hop stand and look, as `evaluateHop` tells it, without anything else: the hop by itself, on the
 * channel that is stated. The ends of the ground suffice.
 */
export function geometryOf(design: Hop, ground: GroundInput): HopResult["geometry"] {
  const trace = newTrace();
  const hop = inJudgedPolarization(withinReason(design).hop, trace);
  const course = courseOf(hop, trace);
  const kFactor = medianKFactor(climateInUse(hop, ground.climate), trace);
  return course && heightsOf(hop, ground, course, kFactor, trace)?.ends;
}

function evaluated(design: Hop, ground: GroundInput, interference?: InterferenceAtEnds): HopResult {
  const trace = newTrace();
  const { hop: stated, beyond } = withinReason(design);
  const hop = inJudgedPolarization(stated, trace);
  missInputs(hop, beyond, trace);
  noteChannels(hop, trace);
  const climate = climateInUse(hop, ground.climate);
  const kFactor = medianKFactor(climate, trace);
  const course = courseOf(hop, trace);
  missUncounted(hop, course, trace);
  const heights = course && heightsOf(hop, ground, course, kFactor, trace);
  const { profile, bridges } = profileOver(hop, ground, course, trace);
  const unknownGround = unknownOf(course, profile);
  const told = { unknownGround, missing: trace.missing };
  const whole = isWhole(told, [...LEVEL_STEPS, "standby"]);
  const summary = profile && profileSummary(profile, ground.profileKind, bridges);
  const tops = profile && course ? topsOf(hop, profile, course.distanceM, trace) : [];

  const known = profile && course && heights && { course, heights, profile, tops, kFactor };
  const ofRay = (one: ClearanceResult) => judgedOver(isWhole(told, RAY_STEPS), one)!;
  const clearance = (known ? clearances(hop, known, trace) : []).map(ofRay);
  const rays = known && furtherGround(hop, known, trace);
  const obstruction = known && obstructionOf(hop, known);
  const both =
    course && heights
      ? evaluateDirections(
          hop,
          climate,
          { course, heights, terrain: summary, rays },
          obstruction,
          trace,
          interference,
        )
      : NOTHING;

  const directions = both.directions.map(({ direction }) => direction);
  const bothWays = twoWayAvailability(hop, both.directions, trace);
  if (bothWays?.verdict === "open") missing(trace, boundedRain(bothWays.rainBound ?? "at most"));
  const availability = withEquipment(committedOver(whole, bothWays), equipmentOutage(hop, trace), trace);
  const further = known && furtherPaths(hop, known, rays, trace);
  const distanceM = course?.distanceM;
  const objectives = objectiveResults(hop, { directions, distanceM, availability }, trace);
  return {
    hop: hop.name,
    ends: [hop.ends[0].site.name, hop.ends[1].site.name],
    distanceM,
    slantDistanceM: heights?.slantDistanceM,
    geometry: heights?.ends,
    polarization: hop.polarization,
    profile: summary,
    survey: surveyUse(hop, ground),
    unknownGround,
    clearance,
    furtherPaths: further?.map((path) => ({ ...path, clearance: path.clearance.map(ofRay) })),
    ...worseLosses(both),
    directions,
    carriers: carriersOf(stated, both.ways),
    standby: judgedOver(whole, standbyResult(hop, directions)),
    availability,
    objectives: objectives?.map((one) => judgedOver(whole, one)!),
    reflections:
      course && heights && hop.surfaces
        ? reflectionsOf(hop, { course, heights, profile, kFactor }, trace)
        : undefined,
    climate: climate.climate,
    inputs: trace.inputs,
    methods: trace.methods,
    missing: trace.missing,
    notes: trace.notes,
  };
}

/** Where not all is known no mode is committed to. */
function committedOver(whole: boolean, found: HopResult["availability"]): HopResult["availability"] {
  const judged = judgedOver(whole, found);
  return !whole && judged !== undefined ? { ...judged, committed: undefined } : judged;
}

/** Equipment beside propagation, and both together. */
function withEquipment(
  availability: HopResult["availability"],
  equipment: EquipmentOutage | undefined,
  trace: Trace,
): HopResult["availability"] {
  if (availability === undefined) return undefined;
  if (equipment === undefined) {
    note(trace, { code: "availability-without-equipment" });
    return availability;
  }
  note(trace, { code: "availability-beside-equipment" });
  const without = (percent: number) => Math.max(0, percent - equipment.unavailabilityPercent);
  const { availabilityPercent, atLeastPercent } = availability;
  return {
    ...availability,
    equipment,
    totalPercent: without(availabilityPercent),
    totalAtLeastPercent: atLeastPercent === undefined ? undefined : without(atLeastPercent),
  };
}

function surveyUse(hop: Hop, { profileKind, problem, survey }: GroundInput): HopResult["survey"] {
  if (profileKind !== "survey") return undefined;
  const { surveySource } = hop;
  return { problem, source: surveySource ?? "map", sourceStated: surveySource !== undefined, fit: survey };
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
