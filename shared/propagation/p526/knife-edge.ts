/** Diffraction over one obstacle. Rec. ITU-R P.526-15 (10/2019) section 4.1. */

import type { MethodReference } from "../method.js";

export const METHOD_KNIFE_EDGE: MethodReference = {
  recommendation: "ITU-R P.526-15",
  section: "4.1",
  title: "Single knife edge",
  status: "verified",
  note: "The approximate form for v > -0.78; the exact form is within 0.13 dB of it up to v = 5.",
  checked: {
    by: "two forms of the loss and Fresnel integrals",
    vectors: ["p526-knife-edge"],
    tolerance: "1e-11 dB",
  },
};

/**
 * Loss of a knife edge, approximate form, the one that the Bullington construction uses.
 *
 *     J(v) = 6.9 + 20 log(sqrt((v - 0.1)^2 + 1) + v - 0.1)    v > -0.78, else 0
 *     v = h sqrt((2/lambda) (1/d1 + 1/d2)) = sqrt(2) h/R1
 *
 * h is the height of the edge above the straight line between the ends, negative below it, d1 and d2 its distances to
 * them, R1 the Fresnel radius there. The exact form, of the Fresnel integrals C and S of v, is
 * -20 log(sqrt((1 - C - S)^2 + (C - S)^2)/2).
 *
 * Within 0.13 dB of the exact form for -0.78 < v <= 5 (largest difference of the checked values: 0.123 dB).
 * @returns loss in dB, never negative
 * @see Rec. ITU-R P.526-15 section 4.1; P.1812-6 eq (12), P.452-17 eq (13)
 */
export function knifeEdgeLossDb(v: number): number {
  if (v <= -0.78) return 0;
  const u = v - 0.1;
  return Math.max(0, 6.9 + 20 * Math.log10(Math.sqrt(u * u + 1) + u));
}
