import type { LatLon } from "../geodesy/coordinates.js";
import { VOID } from "./sample.js";

export type { LatLon };

/** Heights along a path at equal spacing, both ends included. */
export interface TerrainProfile {
  /** Metres from end 1. */
  readonly distanceM: Float64Array;
  /** Metres above sea level as the raster has them; NaN where void or uncovered: never to be printed. */
  readonly heightM: Float64Array;
  readonly stepM: number;
  /** Runs of samples without a height, from the first such sample to the last. */
  readonly gaps: readonly ProfileGap[];
  /** Where the heights come from, in the order of their first use; shares of all samples, gaps included. */
  readonly sources: readonly { file: string; sharePercent: number }[];
}

export interface ProfileGap {
  fromM: number;
  toM: number;
  reason: "void" | "uncovered";
}

/** A profile has no more samples than this; a finer step is widened, and `stepM` tells to what. */
export const MOST_PROFILE_POINTS = 20_000;

/** The number of intervals for a step asked for: the step is a whole part of the length, never above it. */
export function intervalsFor(lengthM: number, stepM: number): number {
  // Paths that are a whole multiple of the step must not get one interval more by rounding.
  const wanted = Math.ceil(lengthM / stepM - 1e-9);
  // A path of no length, or a step beyond it, still has two ends.
  return wanted >= 1 ? Math.min(MOST_PROFILE_POINTS - 1, wanted) : 1;
}

/**
 * Puts a profile together from sampled heights.
 * @param origin per sample: index into `files`, or negative where there is no height (see sample.ts)
 */
export function assembleProfile(
  lengthM: number,
  heightM: Float64Array,
  origin: Int16Array,
  files: readonly string[],
): TerrainProfile {
  const count = heightM.length;
  const stepM = count > 1 ? lengthM / (count - 1) : 0;
  const distanceM = new Float64Array(count);
  for (let i = 0; i < count; i++) distanceM[i] = (lengthM * i) / Math.max(1, count - 1);

  const gaps: ProfileGap[] = [];
  const samplesOf = new Map<number, number>();
  let runFrom = 0;
  for (let i = 1; i <= count; i++) {
    if (i < count && origin[i] === origin[runFrom]) continue;
    const runOrigin = origin[runFrom]!;
    if (runOrigin >= 0) samplesOf.set(runOrigin, (samplesOf.get(runOrigin) ?? 0) + i - runFrom);
    else {
      const reason = runOrigin === VOID ? "void" : "uncovered";
      gaps.push({ fromM: distanceM[runFrom]!, toM: distanceM[i - 1]!, reason });
    }
    runFrom = i;
  }
  const sources = [...samplesOf].map(([index, samples]) => ({
    file: files[index]!,
    sharePercent: (100 * samples) / count,
  }));
  return { distanceM, heightM, stepM, gaps, sources };
}
