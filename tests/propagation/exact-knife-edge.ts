/** The exact loss of a knife edge, to hold the approximate one against. */
import { erfcComplex } from "../../shared/math/erfc.js";

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

/**
 * J(v), exact form from the Fresnel integrals.
 * @returns loss in dB; below v = -0.78 it oscillates about 0 and may be negative (a gain)
 * @see Rec. ITU-R P.526-15 section 4.1; checked against an independent library's Fresnel integrals
 */
export function knifeEdgeLossExactDb(v: number): number {
  const { cosine: C, sine: S } = fresnelIntegrals(v);
  return -20 * Math.log10(Math.sqrt((1 - C - S) ** 2 + (C - S) ** 2) / 2);
}
