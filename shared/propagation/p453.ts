/**
 * Radio refractive index, humidity and the effective Earth radius. Rec. ITU-R P.453-14 (08/2019).
 *
 * Gradients of refractivity are dN/dh in N-units per km: negative in ordinary air, -39.25 for k = 4/3.
 */

import type { MethodReference } from "./method.js";
import { requireFinite, requireNotNegative, requirePositive } from "./required.js";

export const METHOD: MethodReference = {
  recommendation: "ITU-R P.453-14",
  section: "eq (1) to (9)",
  title: "Refractivity, humidity and effective Earth radius",
  status: "verified",
  note: "Index, humidity over water and k checked against published values; the saturation pressure over ice was read in an implementation, the temperature ranges are from memory.",
  usedByNoFigure: true,
  checked: {
    by: "ITU-R Study Group 3 values",
    vectors: ["p453"],
    tolerance: "1e-13",
  },
};

/** State of the air. Total barometric pressure is `dryPressureHPa + vapourPressureHPa`. */
export interface AirState {
  readonly dryPressureHPa: number;
  readonly vapourPressureHPa: number;
  readonly temperatureK: number;
}

/**
 * Radio refractivity N = (n - 1) 1e6, in N-units, with its dry and wet terms.
 *
 *     N = 77.6 pd/T + 72 e/T + 3.75e5 e/T^2    (2)
 *     Nd = 77.6 pd/T                           (3)
 *     Nw = 72 e/T + 3.75e5 e/T^2               (4)
 *
 * pd is the pressure of dry air and e that of the vapour, hPa; T in K, in the wet term too.
 * @throws RangeError for a temperature that is not positive or a negative pressure
 * @see Rec. ITU-R P.453-14 eq (2) to (4); checked against ITU-R Study Group 3 examples.
 *   The stated accuracy, 0.5 % up to 100 GHz, is from memory, not checked against the Recommendation.
 */
export function refractivity(air: AirState): { total: number; dry: number; wet: number } {
  requireNotNegative("dryPressureHPa", air.dryPressureHPa);
  requireNotNegative("vapourPressureHPa", air.vapourPressureHPa);
  requirePositive("temperatureK", air.temperatureK);
  const { dryPressureHPa: pd, vapourPressureHPa: e, temperatureK: T } = air;
  const dry = (77.6 * pd) / T;
  const wet = (72 * e) / T + (3.75e5 * e) / T ** 2;
  return { total: dry + wet, dry, wet };
}

/**
 * Radio refractive index, `n = 1 + N 1e-6`.
 * @see Rec. ITU-R P.453-14 eq (1)
 * @nofigure
 */
export function refractiveIndex(air: AirState): number {
  return 1 + refractivity(air).total * 1e-6;
}

/**
 * Saturation pressure of water vapour, hPa.
 *
 *     es = EF a exp[(b - t/d) t/(t + c)]    (9)
 *
 *     over water  EF = 1 + 1e-4 [7.2 + P (0.0320 + 5.9e-6 t^2)]    a 6.1121  b 18.678  c 257.14  d 234.5
 *     over ice    EF = 1 + 1e-4 [2.2 + P (0.0383 + 6.4e-6 t^2)]    a 6.1115  b 23.036  c 279.82  d 333.7
 *
 * t in degrees C, P in hPa.
 * @param temperatureC over water -40 to 50, over ice -80 to 0 (both ranges from memory)
 * @param totalPressureHPa P, the TOTAL barometric pressure
 * @see Rec. ITU-R P.453-14 eq (9). Water: checked against ITU-R Study Group 3 examples.
 *   Ice: read in a public implementation, not checked against an ITU-R number.
 */
export function saturationPressureHPa(
  temperatureC: number,
  totalPressureHPa: number,
  over: "water" | "ice" = "water",
): number {
  requireFinite("temperatureC", temperatureC);
  requireNotNegative("totalPressureHPa", totalPressureHPa);
  const t = temperatureC;
  const P = totalPressureHPa;
  const water = over === "water";
  const EF = water
    ? 1 + 1e-4 * (7.2 + P * (0.032 + 5.9e-6 * t * t))
    : 1 + 1e-4 * (2.2 + P * (0.0383 + 6.4e-6 * t * t));
  const [a, b, c, d] = water ? [6.1121, 18.678, 257.14, 234.5] : [6.1115, 23.036, 279.82, 333.7];
  // The formula has a pole at t = -c, near absolute zero; no air is that cold.
  if (t <= -c) throw new RangeError(`temperatureC must be above ${-c}, not ${t}`);
  return EF * a * Math.exp(((b - t / d) * t) / (t + c));
}

/**
 * Vapour pressure from relative humidity, `e = H es/100`, hPa.
 * @param relativeHumidityPercent H, 0 to 100
 * @see Rec. ITU-R P.453-14 eq (8), checked against ITU-R Study Group 3 examples
 * @nofigure
 */
export function vapourPressureHPa(
  relativeHumidityPercent: number,
  temperatureC: number,
  totalPressureHPa: number,
  over: "water" | "ice" = "water",
): number {
  requireNotNegative("relativeHumidityPercent", relativeHumidityPercent);
  return (relativeHumidityPercent * saturationPressureHPa(temperatureC, totalPressureHPa, over)) / 100;
}

/** What a constant gradient of refractivity does to a ray, and the k that goes with it where there is one. */
export type EffectiveRadius =
  | { readonly branch: "sub-refraction" | "ordinary" | "super-refraction"; readonly k: number }
  /** Gradient exactly -157 N/km: the ray follows the Earth, which becomes flat: k is infinite, the bulge 0. */
  | { readonly branch: "flat"; readonly k: undefined }
  /** The ray bends more than the Earth: k is negative and no clearance figure is meaningful. */
  | { readonly branch: "ducting"; readonly k: number };

/**
 * Effective Earth radius factor of a constant gradient.
 *
 *     k = 157/(157 + G)
 *
 * 157 is 1e6/6371 N/km, the curvature of the Earth, rounded as the Recommendations have it.
 * Branches: above 0 N/km sub-refraction (k < 1); 0 down to -79 N/km ordinary; below that super-refraction
 * (k > 2); -157 N/km flat; below ducting. The bounds between ordinary and the others are common practice.
 * @param gradientNPerKm G = dN/dh, negative in ordinary air
 * @see Rec. ITU-R P.452-17 eq (5), P.1812-6 eq (6), which take the lapse DN = -G; three published values checked
 * @example effectiveEarthRadiusFactor(-39.25) // { branch: "ordinary", k: 1.3333 }
 * @nofigure
 */
export function effectiveEarthRadiusFactor(gradientNPerKm: number): EffectiveRadius {
  requireFinite("gradientNPerKm", gradientNPerKm);
  if (gradientNPerKm === -157) return { branch: "flat", k: undefined };
  const k = 157 / (157 + gradientNPerKm);
  if (gradientNPerKm < -157) return { branch: "ducting", k };
  if (gradientNPerKm < -79) return { branch: "super-refraction", k };
  return { branch: gradientNPerKm > 0 ? "sub-refraction" : "ordinary", k };
}
