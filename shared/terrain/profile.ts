import type { LatLon } from "../geodesy/coordinates.js";
import { VOID } from "./sample.js";

export type { LatLon };

/** Heights along a path, both ends included: samples of a raster at equal spacing, or points where they were surveyed. */
export interface TerrainProfile {
  /** Metres from end 1, rising, first 0, last the length of the path. */
  readonly distanceM: Float64Array;
  /** Bare ground, metres above sea level as its source has it; NaN where it is not known: never to be printed. */
  readonly heightM: Float64Array;
  /** Trees and buildings on the ground at each point, metres; absent: none are known of. */
  readonly coverM?: Float64Array;
  /**
   * Set for a survey: between two neighbours that both have a height ground and top of the cover run straight. Samples
   * of a raster say nothing of what lies between them.
   */
  readonly straight?: true;
  /** Spacing of samples; of surveyed points the usual one. */
  readonly stepM: number;
  /**
   * Runs of samples without a height, from the first such sample to the last; of a survey the stretch between the two
   * points that have one, or between such a point and the end of the path.
   */
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
const MOST_PROFILE_POINTS = 20_000;

/** The number of intervals for a step asked for: the step is a whole part of the length, never above it. */
export function intervalsFor(lengthM: number, stepM: number): number {
  // Paths that are a whole multiple of the step must not get one interval more by rounding.
  const wanted = Math.ceil(lengthM / stepM - 1e-9);
  // A path of no length still has two ends; any other has ground between them, however wide the step.
  if (!(lengthM > 0)) return 1;
  return Math.min(MOST_PROFILE_POINTS - 1, Math.max(2, wanted));
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

/** The same ground counted from the other end. */
export function reversedProfile<P extends TerrainProfile>(profile: P): P {
  const lengthM = profile.distanceM.at(-1) ?? 0;
  return {
    ...profile,
    distanceM: profile.distanceM.map((distanceM) => lengthM - distanceM).reverse(),
    heightM: profile.heightM.toReversed(),
    coverM: profile.coverM?.toReversed(),
    gaps: profile.gaps
      .map(({ fromM, toM, reason }) => ({ fromM: lengthM - toM, toM: lengthM - fromM, reason }))
      .reverse(),
  };
}

/**
 * Ground at any distance, linear between two neighbours.
 * @returns undefined where a neighbour that carries weight is not known, and beyond the ends
 */
export function heightAt({ distanceM, heightM }: TerrainProfile, atM: number): number | undefined {
  return linearAt(distanceM, heightM, atM);
}

/** Linear between the two points around a distance; undefined beyond the ends and beside a value that is NaN. */
function linearAt(distanceM: Float64Array, values: Float64Array, atM: number): number | undefined {
  const last = distanceM.length - 1;
  if (last < 0 || !(atM >= distanceM[0]! && atM <= distanceM[last]!)) return undefined;
  const after = firstAtOrBeyond(distanceM, atM);
  if (distanceM[after] === atM) return finite(values[after]!);
  const [from, to] = [distanceM[after - 1]!, distanceM[after]!];
  const share = (atM - from) / (to - from);
  return finite(values[after - 1]! * (1 - share) + values[after]! * share);
}

/** Index of the first point that lies at a distance or beyond it; the number of points where none does. */
export function firstAtOrBeyond(distanceM: Float64Array, atM: number): number {
  let low = 0;
  let high = distanceM.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (distanceM[middle]! < atM) low = middle + 1;
    else high = middle;
  }
  return low;
}

function finite(value: number): number | undefined {
  return Number.isFinite(value) ? value : undefined;
}
