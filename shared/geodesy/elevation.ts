/**
 * Directions and lengths of a hop in the vertical plane. Source: geometry, on a sphere of the effective Earth
 * radius, where rays are straight.
 */
import { MEAN_EARTH_RADIUS_M } from "../propagation/constants.js";
import { requireFinite, requireNotNegative, requirePositive } from "../propagation/required.js";

/** A hop seen from the side. */
export interface HopSide {
  /** Distance along the Earth's surface, m, > 0. */
  readonly distanceM: number;
  /** Antenna heights above sea level, m. */
  readonly height1M: number;
  readonly height2M: number;
  /** Effective Earth radius factor, not 0; Infinity for a flat Earth. */
  readonly k: number;
}

/**
 * Elevation of the ray at each end above the local horizontal, degrees; negative looks down.
 *
 *     tan e1 = (r2 cos phi - r1)/(r2 sin phi),   phi = d/(k a),   r = k a + h
 *            = (h2 - h1 - 2 r2 sin^2(phi/2))/(r2 sin phi)
 *
 * The second form is used: in the first most digits of the two radii cancel. The two elevations add up to -phi.
 * @throws RangeError for a distance that is not positive, heights that are not finite, k = 0
 * @example elevationAngles({ distanceM: 30_000, height1M: 100, height2M: 100, k: 4 / 3 }) // -0.101 at both ends
 */
export function elevationAngles(hop: HopSide): { elevation1Deg: number; elevation2Deg: number } {
  const { distanceM, height1M, height2M, k } = hop;
  requirePositive("distanceM", distanceM);
  requireFinite("height1M", height1M);
  requireFinite("height2M", height2M);
  if (Number.isNaN(k) || k === 0) throw new RangeError(`k must not be ${k}`);
  return {
    elevation1Deg: elevationDeg(distanceM, height1M, height2M, k),
    elevation2Deg: elevationDeg(distanceM, height2M, height1M, k),
  };
}

function elevationDeg(distanceM: number, fromM: number, toM: number, k: number): number {
  if (!Number.isFinite(k)) return degrees(Math.atan2(toM - fromM, distanceM));
  const radiusM = k * MEAN_EARTH_RADIUS_M;
  const phi = distanceM / radiusM;
  const rise = toM - fromM - 2 * (radiusM + toM) * Math.sin(phi / 2) ** 2;
  return degrees(Math.atan2(rise, (radiusM + toM) * Math.sin(phi)));
}

function degrees(radians: number): number {
  return (radians * 180) / Math.PI;
}

/**
 * Straight distance between the antennas, `sqrt(d^2 + (h2 - h1)^2)`, m. The curvature of the Earth is left out: it
 * changes the length of a 100 km hop by less than 0.1 %.
 * @see Rec. ITU-R P.1812-6 eq (8a)
 */
export function slantDistanceM(distanceM: number, height1M: number, height2M: number): number {
  requireNotNegative("distanceM", distanceM);
  return Math.hypot(distanceM, height2M - height1M);
}
