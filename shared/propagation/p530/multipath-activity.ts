/**
 * Multipath activity parameter eta of an occurrence factor given as a fraction, P0 = p0/100 of the average worst month.
 *
 * @see Rec. ITU-R P.530-18 section 4.1 step 2; sections 5.1 and 6.2.6 use the same. Read in two implementations.
 */
export function multipathActivity(P0: number): number {
  return -Math.expm1(-0.2 * P0 ** 0.75);
}
