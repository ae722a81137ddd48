/** Fresnel ellipsoids. Rec. ITU-R P.526-15 (10/2019) section 2.1. */

import { wavelengthM } from "../constants.js";
import type { MethodReference } from "../method.js";

export const METHOD_FRESNEL: MethodReference = {
  recommendation: "ITU-R P.526-15",
  section: "2.1",
  title: "Fresnel ellipsoids",
  status: "verified",
  note: "Exact speed of light; the printed constant 550 is 0.45 % higher.",
  checked: {
    by: "geometry",
    vectors: ["p526-knife-edge"],
    tolerance: "1e-12",
  },
};

/**
 * Radius of the first Fresnel ellipsoid at a point of the path. Lean: no checks.
 *
 *     Rn = sqrt(n lambda d1 d2/(d1 + d2)),   n = 1    all in the same unit
 *
 * The printed practical form is 550 sqrt(d1 d2/((d1 + d2) f)) with f in MHz, d1 and d2 in km; exactly 550 is 547.5.
 * Near the ends, where the radius is not small against d1 or d2, the formula does not hold.
 * @param d1M distance to one end, >= 0
 * @param d2M distance to the other end, >= 0, not both 0
 * @param frequencyHz > 0
 * @returns m, 0 at the ends
 * @see Rec. ITU-R P.526-15 section 2.1
 * @example fresnelRadiusM(10_000, 20_000, 7e9) // 16.9 m
 */
export function fresnelRadiusM(d1M: number, d2M: number, frequencyHz: number): number {
  return Math.sqrt((wavelengthM(frequencyHz) * d1M * d2M) / (d1M + d2M));
}
