/** Directions between places as vectors from the middle of the Earth: for what is bounded before anything is computed. */
import type { LatLon } from "../geodesy/coordinates.js";
import type { Direction } from "../geodesy/off-axis.js";

const RADIANS = Math.PI / 180;
/** Azimuths of normal sections, here, and of geodesics, in the full calculation, differ by less than 0.05 degrees at 500 km. */
const AZIMUTH_SLACK = 0.05 * RADIANS;
/** WGS 84. */
const SEMI_MAJOR_M = 6378137;
const ECCENTRICITY_SQUARED = 0.00669437999014;

/** Vectors of many places in one array each, three numbers a place. */
export class Vectors {
  /** On the ellipsoid, m. */
  readonly at: Float64Array;
  /** Upwards there. */
  readonly up: Float64Array;
  /** Along the boresight; zeros where it is not known. */
  readonly look: Float64Array;
  /** Level and square to the boresight. */
  readonly side: Float64Array;
  /** Of each place: sine of the boresight's elevation, and of the least angle off it of what lies behind. */
  readonly rise: Float64Array;
  readonly behind: Float64Array;

  constructor(places: readonly { readonly position: LatLon; readonly boresight?: Direction }[]) {
    const count = places.length;
    this.at = new Float64Array(3 * count);
    this.up = new Float64Array(3 * count);
    this.look = new Float64Array(3 * count);
    this.side = new Float64Array(3 * count);
    this.rise = new Float64Array(count);
    this.behind = new Float64Array(count);
    for (const [index, place] of places.entries()) this.set(index, place);
  }

  private set(
    index: number,
    { position, boresight }: { readonly position: LatLon; readonly boresight?: Direction },
  ): void {
    const [lat, lon] = [position.latitudeDeg * RADIANS, position.longitudeDeg * RADIANS];
    const [sinLat, cosLat, sinLon, cosLon] = [Math.sin(lat), Math.cos(lat), Math.sin(lon), Math.cos(lon)];
    const radius = SEMI_MAJOR_M / Math.sqrt(1 - ECCENTRICITY_SQUARED * sinLat * sinLat);
    const k = 3 * index;
    this.at.set(
      [radius * cosLat * cosLon, radius * cosLat * sinLon, radius * (1 - ECCENTRICITY_SQUARED) * sinLat],
      k,
    );
    const up = [cosLat * cosLon, cosLat * sinLon, sinLat];
    this.up.set(up, k);
    if (boresight === undefined) return;
    const [az, el] = [boresight.azimuthDeg * RADIANS, boresight.elevationDeg * RADIANS];
    const [north, east, rise] = [Math.cos(el) * Math.cos(az), Math.cos(el) * Math.sin(az), Math.sin(el)];
    const northOf = [-sinLat * cosLon, -sinLat * sinLon, cosLat];
    const eastOf = [-sinLon, cosLon, 0];
    for (let i = 0; i < 3; i++) {
      this.look[k + i] = north * northOf[i]! + east * eastOf[i]! + rise * up[i]!;
      this.side[k + i] = east * northOf[i]! - north * eastOf[i]!;
    }
    this.rise[index] = rise;
    this.behind[index] = Math.max(0, Math.sqrt(1 - rise * rise) - AZIMUTH_SLACK);
  }
}

/** Straight distance of two places on the ellipsoid, m: no longer than over the ground. */
export function chordM(from: Vectors, i: number, to: Vectors, j: number): number {
  const [a, b] = [3 * i, 3 * j];
  return lengthOf(to.at[b]! - from.at[a]!, to.at[b + 1]! - from.at[a + 1]!, to.at[b + 2]! - from.at[a + 2]!);
}

/**
 * Sine of the least angle off the boresight of any direction towards a place, whatever its elevation, up to 90 degrees:
 * as `leastOffAxisAngleDeg`, from vectors. What lies behind counts as at 90 degrees less the boresight's elevation; 0
 * where the boresight is not known.
 *
 * The angle is that to the vertical plane u, d of the direction d: sin = |side . d| / |u x d|, side = look x u.
 */
export function leastSine(from: Vectors, i: number, to: Vectors, j: number): number {
  const [a, b] = [3 * i, 3 * j];
  const { at, up, look, side } = from;
  const dx = to.at[b]! - at[a]!;
  const dy = to.at[b + 1]! - at[a + 1]!;
  const dz = to.at[b + 2]! - at[a + 2]!;
  const upwards = up[a]! * dx + up[a + 1]! * dy + up[a + 2]! * dz;
  const ahead = look[a]! * dx + look[a + 1]! * dy + look[a + 2]! * dz - from.rise[i]! * upwards;
  if (!(ahead > 0)) return from.behind[i]!;
  const level = dx * dx + dy * dy + dz * dz - upwards * upwards;
  const across = Math.abs(side[a]! * dx + side[a + 1]! * dy + side[a + 2]! * dz);
  // The sine falls no faster than the angle.
  return Math.min(1, Math.max(0, across / Math.sqrt(level) - AZIMUTH_SLACK));
}

/** As `Math.hypot`, which guards against squares that no place on the Earth has, at a tenth of its time. */
function lengthOf(x: number, y: number, z: number): number {
  return Math.sqrt(x * x + y * y + z * z);
}
