/**
 * Water vapour density moved to another height. Rec. ITU-R P.836-6 (12/2017) section 1, step 3.
 *
 * The maps themselves may not be redistributed; without them the density at sea level is 7.5 g/m3 with a scale
 * height of 2 km (Rec. ITU-R P.835-6).
 */
import type { MethodReference } from "./method.js";
import { requirePositive } from "./validity.js";

export const METHOD: MethodReference = {
  recommendation: "ITU-R P.836-6",
  section: "1",
  title: "Water vapour density at another height",
  status: "verified",
  note: "The scaling step alone; the maps are not included.",
};

/**
 * Density at another height: rho exp(-(to - from)/scale height).
 * @param densityGm3 at `fromHeightM`
 * @param scaleHeightM > 0, 2000 without local data
 * @see Rec. ITU-R P.836-6 section 1; the method as a whole was checked with the maps outside this project
 */
export function vapourDensityAtHeightGm3(
  densityGm3: number,
  fromHeightM: number,
  toHeightM: number,
  scaleHeightM = 2000,
): number {
  requirePositive("scaleHeightM", scaleHeightM);
  return densityGm3 * Math.exp(-(toHeightM - fromHeightM) / scaleHeightM);
}
