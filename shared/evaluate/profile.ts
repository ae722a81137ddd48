import type { Hop, Obstacle } from "../design/design.js";
import type { TerrainProfile } from "../terrain/profile.js";
import type { Top } from "./clearance.js";
import type { ProfileSummary } from "./result.js";
import { missing, note, type Trace } from "./trace.js";

/** What a result tells of the profile it was computed over. */
export function profileSummary(profile: TerrainProfile, kind: ProfileSummary["kind"]): ProfileSummary {
  const { heightM, stepM, gaps, sources } = profile;
  let known = 0;
  let sum = 0;
  let highest = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < heightM.length; i++) {
    const height = heightM[i]!;
    if (Number.isNaN(height)) continue; // unknown
    known++;
    sum += height;
    if (height > highest) highest = height;
  }
  return {
    stepM,
    points: heightM.length,
    gaps,
    sources,
    highestM: known > 0 ? highest : undefined,
    meanM: known > 0 ? sum / known : undefined,
    kind,
  };
}

/** Tops of the design's obstacles above sea level; those off the path or over unknown ground are left out. */
export function topsOf(hop: Hop, profile: TerrainProfile, distanceM: number, trace: Trace): Top[] {
  const tops: Top[] = [];
  for (const obstacle of hop.obstacles) {
    if (!(obstacle.distanceM > 0 && obstacle.distanceM < distanceM)) continue;
    const groundM = heightBetween(profile, obstacle.distanceM);
    const title = obstacleTitle(obstacle);
    if (groundM === undefined) missing(trace, `Clearance: the ground under ${title} is not known.`);
    else tops.push({ distanceM: obstacle.distanceM, topM: groundM + obstacle.heightM, title });
  }
  if (hop.obstacles.length > tops.length) note(trace, "Not every obstacle could be counted.");
  return tops;
}

export function obstacleTitle(obstacle: Obstacle): string {
  return obstacle.title ?? "obstacle";
}

/** Linear between two samples. @returns undefined where a sample that carries weight is unknown */
function heightBetween(profile: TerrainProfile, atM: number): number | undefined {
  const { heightM, stepM } = profile;
  if (!(stepM > 0)) return undefined;
  const position = Math.min(atM / stepM, heightM.length - 1);
  const i = Math.min(Math.floor(position), heightM.length - 2);
  const share = position - i;
  const below = share < 1 ? heightM[i]! : 0;
  const above = share > 0 ? heightM[i + 1]! : 0;
  const height = below * (1 - share) + above * share;
  return Number.isFinite(height) ? height : undefined;
}
