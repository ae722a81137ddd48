import type { Hop, Obstacle } from "../../design/design.js";
import { heightAt, type TerrainProfile } from "../../terrain/profile.js";
import type { ProfileSummary } from "../account/path-result.js";
import { missing, note, type Trace } from "../account/trace.js";
import type { Top } from "./clearance.js";

/** What a result tells of the profile it was computed over. */
export function profileSummary(
  profile: TerrainProfile,
  kind: ProfileSummary["kind"],
  bridges: ProfileSummary["bridges"],
): ProfileSummary {
  const { heightM, stepM, gaps, sources } = profile;
  let highest = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < heightM.length; i++) if (heightM[i]! > highest) highest = heightM[i]!; // false for NaN
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
export function meanHeight(profile: TerrainProfile, fromM: number, toM: number): number | undefined {
  return profile.straight
    ? (meanOfLines(profile, fromM, toM) ?? meanOfPoints(profile, fromM, toM))
    : (meanOfPoints(profile, fromM, toM) ?? meanOfLines(profile, fromM, toM));
}

function meanOfPoints(
  { distanceM, heightM }: TerrainProfile,
  fromM: number,
  toM: number,
): number | undefined {
  let sum = 0;
  let known = 0;
  for (let i = 0; i < heightM.length; i++) {
    const height = heightM[i]!;
    if (Number.isNaN(height) || distanceM[i]! < fromM || distanceM[i]! > toM) continue;
    sum += height;
    known++;
  }
  return known > 0 ? sum / known : undefined;
}

function meanOfLines({ distanceM, heightM }: TerrainProfile, fromM: number, toM: number): number | undefined {
  let area = 0;
  let length = 0;
  for (let i = 1; i < heightM.length; i++) {
    const [start, end] = [distanceM[i - 1]!, distanceM[i]!];
    const [before, height] = [heightM[i - 1]!, heightM[i]!];
    const [a, b] = [Math.max(start, fromM), Math.min(end, toM)];
    if (!(a < b) || Number.isNaN(before) || Number.isNaN(height)) continue;
    const slope = (height - before) / (end - start);
    area += (b - a) * (before + slope * ((a + b) / 2 - start));
    length += b - a;
  }
  return length > 0 ? area / length : undefined;
}

/** Tops of the design's obstacles above sea level; those off the path or over unknown ground are left out. */
export function topsOf(hop: Hop, profile: TerrainProfile, distanceM: number, trace: Trace): Top[] {
  const tops: Top[] = [];
  for (const obstacle of hop.obstacles) {
    if (!standsOnPath(obstacle, distanceM)) continue;
    const groundM = heightAt(profile, obstacle.distanceM);
    const title = obstacleTitle(obstacle);
    if (groundM === undefined)
      missing(trace, {
        code: "terrain",
        of: ["profile"],
        reason: { code: "ground-under-obstacle-unknown", obstacle: title },
      });
    else tops.push({ distanceM: obstacle.distanceM, topM: groundM + obstacle.heightM, title });
  }
  if (hop.obstacles.length > tops.length) note(trace, { code: "obstacles-not-counted" });
  return tops;
}

export function standsOnPath({ distanceM: atM }: Obstacle, distanceM: number): boolean {
  return atM > 0 && atM < distanceM;
}

export function obstacleTitle(obstacle: Obstacle): string {
  return obstacle.title ?? "obstacle";
}
