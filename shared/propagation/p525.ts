/**
 * Free-space attenuation. Rec. ITU-R P.525-4 (08/2019).
 *
 * The exact speed of light is used. The printed practical form, `L = 92.4 + 20 log f + 20 log d` with f in GHz and d in
 * km, has its constant rounded: exactly it is 92.4478.
 */

import { SPEED_OF_LIGHT_M_PER_S } from "./constants.js";
import type { MethodReference } from "./method.js";
import { requirePositive } from "./required.js";

export const METHOD: MethodReference = {
  recommendation: "ITU-R P.525-4",
  section: "2",
  title: "Free-space loss",
  status: "verified",
  note: "Exact speed of light; the printed constant 92.4 is 0.048 dB lower.",
  checked: {
    by: "exact formula and conversions",
    vectors: ["p525"],
    tolerance: "1e-12",
  },
};

/**
 * Free-space basic transmission loss between isotropic antennas.
 *
 *     L = 20 log(4 pi d/lambda)    dB, d and lambda in the same unit
 *
 * The far field is assumed: too near, that is up to about 2 D^2/lambda for an antenna of diameter D (common practice),
 * it does not hold.
 * @param distanceM straight distance between the antennas, > 0 (see `slantDistanceM`)
 * @param frequencyHz > 0
 * @returns loss in dB, exact form; negative when d is below lambda/(4 pi), where it has no meaning
 * @throws RangeError for a distance or frequency that is not positive
 * @see Rec. ITU-R P.525-4 (08/2019) section 2; checked against published results of a reference implementation
 * @example freeSpaceLossDb(10_000, 18e9) // 137.55 dB
 */
export function freeSpaceLossDb(distanceM: number, frequencyHz: number): number {
  requirePositive("distanceM", distanceM);
  requirePositive("frequencyHz", frequencyHz);
  return 20 * Math.log10((4 * Math.PI * distanceM * frequencyHz) / SPEED_OF_LIGHT_M_PER_S);
}
