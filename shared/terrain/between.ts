/** Points on the straight lines of a surveyed profile, which are the ground there as much as the surveyed ones. */
import type { TerrainProfile } from "./profile.js";

/**
 * The profile with a point more at each of these distances, on the line between its neighbours; not known where one of
 * them is not. Where a point stands already none is added.
 * @param atM rising, metres from end 1
 */
export function withPointsAt<P extends TerrainProfile>(profile: P, atM: ArrayLike<number>): P {
  const { distanceM, heightM, coverM } = profile;
  const most = distanceM.length + atM.length;
  const distances = new Float64Array(most);
  const heights = new Float64Array(most);
  const covers = coverM && new Float64Array(most);
  let count = 0;
  let next = 0;
  const add = (distance: number, height: number, cover: number) => {
    distances[count] = distance;
    heights[count] = height;
    if (covers) covers[count] = cover;
    count++;
  };
  for (let i = 0; i < distanceM.length; i++) {
    const [to, toM, toCoverM] = [distanceM[i]!, heightM[i]!, coverM?.[i] ?? 0];
    for (; next < atM.length && atM[next]! < to; next++) {
      const at = atM[next]!;
      if (i === 0) continue;
      const share = (at - distanceM[i - 1]!) / (to - distanceM[i - 1]!);
      const coverAtM = (coverM?.[i - 1] ?? 0) * (1 - share) + toCoverM * share;
      if (share > 0) add(at, heightM[i - 1]! * (1 - share) + toM * share, coverAtM);
    }
    while (next < atM.length && atM[next] === to) next++;
    add(to, toM, toCoverM);
  }
  return {
    ...profile,
    distanceM: distances.slice(0, count),
    heightM: heights.slice(0, count),
    coverM: covers?.slice(0, count),
  };
}

/** Distances that divide a length evenly, its ends left out. */
export function evenly(lengthM: number, intervals: number): Float64Array {
  return Float64Array.from({ length: intervals - 1 }, (_, i) => ((i + 1) * lengthM) / intervals);
}

/** The least distance to an end that a point is added at. */
const NEAREST_M = 1;
/**
 * Neighbours lie no further apart than this share of the way to the nearer end. Both the Earth's bulge and the Fresnel
 * zone change with that way: over a straight slope as over the bulge alone the diffraction of finer steps differs by
 * less than 0.02 dB.
 */
const STEP_SHARE = 0.03;

/** Distances as close as the Earth's bulge and the Fresnel zone need them, from 1 m behind either end on. */
export function closeToEnds(lengthM: number): Float64Array {
  const near: number[] = [];
  for (let atM = NEAREST_M; atM < lengthM / 2; atM *= 1 + STEP_SHARE) near.push(atM);
  const far = near.map((atM) => lengthM - atM).reverse();
  return Float64Array.from([...near, lengthM / 2, ...far]);
}
