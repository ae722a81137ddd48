/** Fresnel ellipsoids and integrals. Rec. ITU-R P.526-15 (10/2019) sections 2.1 and 2.7. */

import { erfcComplex } from "../../math/erfc.js";
import { SPEED_OF_LIGHT_M_PER_S } from "../constants.js";
import type { MethodReference } from "../method.js";
import { requireNotNegative, requirePositive } from "../validity.js";

export const METHOD_FRESNEL: MethodReference = {
  recommendation: "ITU-R P.526-15",
  section: "2.1, 2.7",
  title: "Fresnel ellipsoids and integrals",
  status: "verified",
  note: "Exact speed of light; the printed constant 550 is 0.45 % higher.",
};

/**
 * Radius of the n-th Fresnel ellipsoid at a point of the path: sqrt(n lambda d1 d2/(d1 + d2)).
 *
 * Exact speed of light; the printed practical form (550, or 17.39 with GHz and km) is 0.45 % higher.
 * Near the ends, where the radius is not small against d1 or d2, the formula does not hold.
 * @param d1M distance to one end, >= 0
 * @param d2M distance to the other end, >= 0, not both 0
 * @param frequencyHz > 0
 * @param n number of the ellipsoid, > 0
 * @returns m, 0 at the ends
 * @see Rec. ITU-R P.526-15 section 2.1
 * @example fresnelRadiusM(10_000, 20_000, 7e9) // 16.9 m
 */
export function fresnelRadiusM(d1M: number, d2M: number, frequencyHz: number, n = 1): number {
  requireNotNegative("d1M", d1M);
  requireNotNegative("d2M", d2M);
  requirePositive("d1M + d2M", d1M + d2M);
  requirePositive("frequencyHz", frequencyHz);
  requirePositive("n", n);
  return Math.sqrt((n * SPEED_OF_LIGHT_M_PER_S * d1M * d2M) / (frequencyHz * (d1M + d2M)));
}

/**
 * Fresnel cosine and sine integrals C(v), S(v) of cos and sin(pi s^2/2) from 0 to v; absolute error below 1e-12
 * for |v| up to 1000.
 *
 * Computed as C + iS = (1 + i)/2 erf(sqrt(pi) (1 - i) v/2).
 * @see Rec. ITU-R P.526-15 section 2.7; Abramowitz and Stegun 7.3.22 for the relation to erf
 */
export function fresnelIntegrals(v: number): { cosine: number; sine: number } {
  const z = (Math.sqrt(Math.PI) / 2) * Math.abs(v);
  const complement = erfcComplex(z, -z);
  const re = 1 - complement.re;
  const im = -complement.im;
  const sign = v < 0 ? -0.5 : 0.5;
  return { cosine: sign * (re - im), sine: sign * (re + im) };
}
