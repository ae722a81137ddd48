/**
 * Free-space attenuation. Rec. ITU-R P.525-4 (08/2019).
 *
 * The exact speed of light is used throughout. The printed constants (92.4, 74.8, 145.8, 167.2) are rounded:
 * the printed 92.4 gives a loss 0.048 dB below the exact one.
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
};

/**
 * Free-space basic transmission loss between isotropic antennas: 20 log(4 pi d/lambda).
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
