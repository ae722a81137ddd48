import type { MethodReference } from "../method.js";

export const METHOD: MethodReference = {
  recommendation: "ITU-R P.530-18",
  section: "4.1",
  title: "Multipath activity parameter",
  status: "read in implementations",
  note: "Read in two implementations; sections 5.1 and 6.2.6 use the same. P0 as a fraction is from memory.",
  checked: {
    by: "two independent computations of each step",
    vectors: ["xpd"],
    tolerance: "1e-6 of each value (ten digits given)",
  },
};

/**
 * Multipath activity parameter of an occurrence factor given as a fraction, P0 = p0/100 of the average worst month.
 *
 *     eta = 1 - exp(-0.2 P0^0.75)
 *
 * @see Rec. ITU-R P.530-18 section 4.1. Read in two implementations, see METHOD.
 */
export function multipathActivity(P0: number): number {
  return -Math.expm1(-0.2 * P0 ** 0.75);
}
