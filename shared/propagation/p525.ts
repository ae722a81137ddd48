/**
 * Free-space attenuation. Rec. ITU-R P.525-4 (08/2019).
 *
 * The exact speed of light is used throughout. The printed constants (92.4, 74.8, 145.8, 167.2) are rounded:
 * the printed 92.4 gives a loss 0.048 dB below the exact one.
 */

import { SPEED_OF_LIGHT_M_PER_S } from "./constants.js";
import type { MethodReference } from "./method.js";
import { outsideOf, requirePositive, type ValidityNotes } from "./validity.js";

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

/**
 * Notes on a free-space figure: the formula assumes the far field of both antennas.
 * @param antennaDiameterM the greater of the two, 0 for isotropic
 * @see common practice: far field from 2 D^2/lambda on
 */
export function freeSpaceValidity(
  distanceM: number,
  frequencyHz: number,
  antennaDiameterM: number,
): ValidityNotes {
  const farFieldM = (2 * antennaDiameterM ** 2 * frequencyHz) / SPEED_OF_LIGHT_M_PER_S;
  return outsideOf({
    quantity: "distance",
    value: distanceM,
    min: farFieldM,
    max: Number.POSITIVE_INFINITY,
    unit: "m",
    source: "far field of the greater antenna, 2 D^2/lambda, common practice",
  });
}

/**
 * Field strength at a distance from an isotropic radiator: sqrt(30 p)/r.
 * @param eirpDbW e.i.r.p. in dBW
 * @param distanceM > 0
 * @returns dB above 1 uV/m
 * @see Rec. ITU-R P.525-4 (08/2019) section 4 (section number from memory, formula checked)
 */
export function fieldStrengthDbuVPerM(eirpDbW: number, distanceM: number): number {
  requirePositive("distanceM", distanceM);
  return eirpDbW + 10 * Math.log10(30) - 20 * Math.log10(distanceM) + 120;
}

/**
 * Power flux density at a distance from an isotropic radiator: p/(4 pi r^2).
 * @param eirpDbW e.i.r.p. in dBW
 * @param distanceM > 0
 * @returns dB above 1 W/m2
 * @see Rec. ITU-R P.525-4 (08/2019) section 4 (section number from memory, formula checked)
 */
export function powerFluxDensityDbWPerM2(eirpDbW: number, distanceM: number): number {
  requirePositive("distanceM", distanceM);
  return eirpDbW - 10 * Math.log10(4 * Math.PI * distanceM ** 2);
}

/**
 * Power that an isotropic antenna receives in free space.
 * @param eirpDbW e.i.r.p. in dBW
 * @param distanceM > 0
 * @param frequencyHz > 0
 * @returns dBW
 * @see Rec. ITU-R P.525-4 (08/2019) section 4 (section number from memory, formula checked)
 */
export function isotropicReceivedPowerDbW(eirpDbW: number, distanceM: number, frequencyHz: number): number {
  return eirpDbW - freeSpaceLossDb(distanceM, frequencyHz);
}
