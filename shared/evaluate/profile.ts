import type { Hop, Obstacle } from "../design/design.js";
import { heightAt, type TerrainProfile } from "../terrain/profile.js";
import type { Top } from "./clearance.js";
import type { ProfileSummary } from "./result.js";
import { missing, note, type Trace } from "./trace.js";

/** What a result tells of the profile it was computed over. */
export function profileSummary(
  profile: TerrainProfile,
  kind: ProfileSummary["kind"],
  bridges: ProfileSummary["bridges"],
): ProfileSummary {
  const { heightM, stepM, gaps, sources } = profile;
  let highest = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < heightM.length; i++) if (heightM[i]! > highest) highest = heightM[i]!;
  return {
    stepM,
    points: heightM.length,
    gaps,
    bridges: bridges && bridges.length > 0 ? bridges : undefined,
    sources,
    highestM: highest > Number.NEGATIVE_INFINITY ? highest : undefined,
    meanM: meanHeight(profile, Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY),
    kind,
  };
}

/**
 * Mean of the known ground between two distances, by length: of samples at equal spacing each stands for as much of the
 * path, of straight lines each counts as far as it reaches.
 * @returns undefined when none is known
 */
export function meanHeight(
  { distanceM, heightM, straight }: TerrainProfile,
  fromM: number,
  toM: number,
): number | undefined {
  let area = 0;
  let length = 0;
  let sum = 0;
  let known = 0;
  for (let i = 0; i < heightM.length; i++) {
    const height = heightM[i]!;
    if (Number.isNaN(height)) continue;
    const at = distanceM[i]!;
    if (at >= fromM && at <= toM) {
      sum += height;
      known++;
    }
    const before = i === 0 ? Number.NaN : heightM[i - 1]!;
    if (Number.isNaN(before)) continue;
    const start = distanceM[i - 1]!;
    const [a, b] = [Math.max(start, fromM), Math.min(at, toM)];
    if (!(a < b)) continue;
    const slope = (height - before) / (at - start);
    area += (b - a) * (before + slope * ((a + b) / 2 - start));
    length += b - a;
  }
  if (known > 0 && !(straight && length > 0)) return sum / known;
  return length > 0 ? area / length : undefined;
}

/** Tops of the design's obstacles above sea level; those off the path or over unknown ground are left out. */
export function topsOf(hop: Hop, profile: TerrainProfile, distanceM: number, trace: Trace): Top[] {
  const tops: Top[] = [];
  for (const obstacle of hop.obstacles) {
    if (!(obstacle.distanceM > 0 && obstacle.distanceM < distanceM)) continue;
    const groundM = heightAt(profile, obstacle.distanceM);
    const title = obstacleTitle(obstacle);
    if (groundM === undefined)
      missing(trace, {
        code: "terrain",
        of: ["profile"],
        said: `the ground under ${title} is not known`,
      });
    else tops.push({ distanceM: obstacle.distanceM, topM: groundM + obstacle.heightM, title });
  }
  if (hop.obstacles.length > tops.length) note(trace, "Not every obstacle could be counted.");
  return tops;
}

export function obstacleTitle(obstacle: Obstacle): string {
  return obstacle.title ?? "obstacle";
}
