import type { Antenna } from "../../design/catalogue.js";
import type { Hop } from "../../design/design.js";
import type { ClearanceResult } from "../account/path-result.js";
import { cite, missing, note, type Trace, use } from "../account/trace.js";
import { clearanceFor, type RayPath } from "./clearance.js";
import { STANDARD_K_FACTOR } from "./climate.js";
import type { Course, Heights } from "./geometry.js";
import type { GroundPath } from "./ground-path.js";
import { FREE_OF_DIFFRACTION_FRACTION } from "./path-loss.js";

/** One result for each criterion of the objective, and k = 4/3 for information when it is not among them. */
export function clearances(hop: Hop, ground: GroundPath, trace: Trace): ClearanceResult[] {
  const { course, heights, profile, tops } = ground;
  const path = rayPath(hop, course, heights);
  if (path === undefined) return [];
  cite(trace, "fresnel-zone");
  use(trace, { code: "zone-frequency", frequencyHz: path.frequencyHz }, "design");
  const results: ClearanceResult[] = [];
  const antennas = [hop.ends[0].antenna, hop.ends[1].antenna] as const;
  const add = (result: ClearanceResult | undefined, more?: Partial<ClearanceResult>) => {
    if (result !== undefined) results.push({ ...hangable(result, antennas), ...more });
  };
  for (const criterion of hop.objective?.clearance ?? []) add(clearanceFor(criterion, path, profile, tops));
  if (!results.some((result) => Math.abs(result.kFactor - STANDARD_K_FACTOR) < 0.01)) {
    const standard = { kFactor: STANDARD_K_FACTOR, fresnelFraction: FREE_OF_DIFFRACTION_FRACTION };
    add(clearanceFor(standard, path, profile, tops), { forInformation: true });
  }
  if (results.length === 0 && profile.gaps.length === 0)
    missing(trace, { code: "terrain", of: ["profile"], reason: { code: "no-height-known" } });
  if (results.length > 0 && profile.gaps.length > 0) note(trace, { code: "known-ground-only" });
  return results;
}

/** With heights at which these antennas can hang: none hangs lower than half its diameter. */
export function hangable(
  result: ClearanceResult,
  [first, second]: readonly [Antenna | undefined, Antenna | undefined],
): ClearanceResult {
  const [a, b] = result.heightNeededM;
  return { ...result, heightNeededM: [aboveGround(first, a), aboveGround(second, b)] };
}

function aboveGround(antenna: Antenna | undefined, neededM: number | undefined): number | undefined {
  return neededM === undefined ? undefined : Math.max(neededM, (antenna?.diameterM ?? 0) / 2);
}

/** The lower frequency has the wider Fresnel zone. Without any, the middle of the radio's tuning range serves. */
export function zoneFrequencyHz(hop: Hop): number | undefined {
  // Of a channel that is still to be chosen, the one with the widest zone.
  if (hop.openChannel !== undefined) return hop.openChannel.lowestHz;
  const stated = hop.ends.map((end) => end.transmitFrequencyHz).filter((hz) => hz !== undefined);
  const tuning = hop.radio?.tuning;
  const frequencyHz = stated.length > 0 ? Math.min(...stated) : tuning && (tuning.fromHz + tuning.toHz) / 2;
  return frequencyHz !== undefined && frequencyHz > 0 ? frequencyHz : undefined;
}

export function rayPath(hop: Hop, course: Course, heights: Heights): RayPath | undefined {
  const frequencyHz = zoneFrequencyHz(hop);
  if (frequencyHz === undefined) return undefined;
  return {
    distanceM: course.distanceM,
    antennaAslM: heights.antennaAslM,
    groundM: heights.groundM,
    frequencyHz,
  };
}

/** The ground where the path is not free of diffraction at median k; undefined: it is. */
export function obstructionOf(hop: Hop, ground: GroundPath): GroundPath | undefined {
  const { course, heights, profile, tops, kFactor } = ground;
  const path = rayPath(hop, course, heights);
  if (path === undefined) return undefined;
  const median = clearanceFor({ kFactor, fresnelFraction: 0 }, path, profile, tops);
  if (median === undefined || median.fraction >= FREE_OF_DIFFRACTION_FRACTION) return undefined;
  return ground;
}
