/** The Earth's curve under a path, over an Earth of radius k a; a parabola, as the Recommendations take it. Lean: no checks. */
import { MEAN_EARTH_RADIUS_M } from "./constants.js";

/**
 * 1/(2 k a), 1/m: the bulge at a point is this times d1 d2.
 * @param k effective Earth radius factor, not 0; Infinity means a flat Earth
 */
export function halfCurvature(k: number): number {
  return 1 / (2 * k * MEAN_EARTH_RADIUS_M);
}

/**
 * Height of the Earth's bulge above the chord, m: d1 d2/(2 k a), a = 6371 km.
 * @param d1M distance to one end, m
 * @param d2M distance to the other end, m
 * @see geometry (parabolic approximation), used in Rec. ITU-R P.526-15 section 4.5
 * @example earthBulgeM(10_000, 20_000, 4 / 3) // 11.77 m
 */
export function earthBulgeM(d1M: number, d2M: number, k: number): number {
  return d1M * d2M * halfCurvature(k);
}
