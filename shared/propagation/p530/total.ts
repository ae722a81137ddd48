import type { MethodReference } from "../method.js";
import type { TimeShare } from "../outcome.js";

export const METHOD: MethodReference = {
  recommendation: "ITU-R P.530-18",
  section: "7",
  title: "Total outage",
  status: "from memory",
  note:
    "From memory, not checked against the Recommendation. Clear-air outage belongs mostly to error performance (worst month), " +
    "outage in precipitation mostly to availability (year).",
  checked: {
    by: "sums and limits",
    tolerance: "exact",
  },
};

/**
 * Outage in precipitation, share of the average year: the larger of co-polar attenuation and cross-polar
 * discrimination, `max(Prain, PXPR)`. The sums in clear air are formed where their parts are known (evaluate/outage):
 *
 *     without diversity:  Pt = Pns + Ps + PXP
 *     with diversity:     Pt = Pd + PXP
 *
 * A bound stays a bound, and an estimate an estimate, where it could still be the larger.
 *
 * @see Rec. ITU-R P.530-18 section 7. From memory, not checked against the Recommendation.
 */
export function precipitationOutage(attenuation: TimeShare, crossPolar?: TimeShare): TimeShare {
  if (crossPolar === undefined) return attenuation;
  return largerShare(attenuation, crossPolar);
}

/**
 * The larger of two shares of time (of equal ones the first). Those below 0.001 % that are no plain 0 have all the same
 * bound, so that the order of the figures also orders what bounds them; of equal figures the one that may be more.
 */
export function largerShare<T extends TimeShare>(a: T, b: T): T {
  if (a.timePercent !== b.timePercent) return a.timePercent > b.timePercent ? a : b;
  return rank(b) > rank(a) ? b : a;
}

function rank({ bound, timePercent, atMostPercent = timePercent }: TimeShare): number {
  if (bound !== undefined) return bound === "at least" ? 3 : 0;
  return atMostPercent > timePercent ? 2 : 1;
}
