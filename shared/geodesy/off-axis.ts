/** Angle between two directions at one place. Source: geometry. Lean: no checks. */
import type { MethodReference } from "../propagation/method.js";

export const METHOD: MethodReference = {
  recommendation: "Geometry",
  section: "",
  title: "Angle off the axis of an antenna",
  status: "verified",
  note: "Unit vectors at one place; the elevations are the caller's, over the effective Earth or over the horizon.",
  checked: {
    by: "two angle formulas",
    vectors: ["interference-geometry"],
    tolerance: "1e-6 degrees",
  },
};

/** A direction seen from a place: azimuth clockwise from north, elevation above the local horizontal, degrees. */
export interface Direction {
  readonly azimuthDeg: number;
  readonly elevationDeg: number;
}

const RADIANS = Math.PI / 180;

/**
 * Angle between two directions, degrees, 0 to 180.
 *
 *     phi = atan2(|a x b|, a . b)
 *
 * a, b the unit vectors (cos el sin az, cos el cos az, sin el). Never by acos, which loses small angles.
 */
export function offAxisAngleDeg(boresight: Direction, direction: Direction): number {
  // Turned so that the boresight has azimuth 0: one sine and cosine fewer, and equal azimuths cancel exactly.
  const azimuth = (direction.azimuthDeg - boresight.azimuthDeg) * RADIANS;
  const el1 = boresight.elevationDeg * RADIANS;
  const el2 = direction.elevationDeg * RADIANS;
  const n1 = Math.cos(el1);
  const u1 = Math.sin(el1);
  const across = Math.cos(el2);
  const e2 = across * Math.sin(azimuth);
  const n2 = across * Math.cos(azimuth);
  const u2 = Math.sin(el2);
  const cross = Math.hypot(n1 * u2 - u1 * n2, u1 * e2, n1 * e2);
  return Math.atan2(cross, n1 * n2 + u1 * u2) / RADIANS;
}

/**
 * Least angle off the axis of any direction with an azimuth, whatever its elevation, degrees: what is known before a
 * profile is read.
 *
 *     |dAz| < 90:   asin(cos el0 |sin dAz|)
 *     behind:       90 - |el0|
 *
 * @param azimuthDeg of the direction
 */
export function leastOffAxisAngleDeg(boresight: Direction, azimuthDeg: number): number {
  const azimuth = (azimuthDeg - boresight.azimuthDeg) * RADIANS;
  if (Math.cos(azimuth) <= 0) return 90 - Math.abs(boresight.elevationDeg);
  const sine = Math.cos(boresight.elevationDeg * RADIANS) * Math.abs(Math.sin(azimuth));
  return Math.asin(Math.min(1, sine)) / RADIANS;
}
