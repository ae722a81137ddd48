/** Directions between places as vectors from the middle of the Earth: for what is bounded before anything is computed. */
import type { LatLon } from "../geodesy/coordinates.js";
import type { Direction } from "../geodesy/off-axis.js";

const RADIANS = Math.PI / 180;
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

  constructor(places: readonly { readonly position: LatLon; readonly boresight?: Direction }[]) {
    const count = places.length;
    this.at = new Float64Array(3 * count);
    this.up = new Float64Array(3 * count);
    this.look = new Float64Array(3 * count);
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
    for (let i = 0; i < 3; i++) this.look[k + i] = north * northOf[i]! + east * eastOf[i]! + rise * up[i]!;
  }
}

/** Straight distance of two places on the ellipsoid, m: no longer than over the ground. */
export function chordM(from: Vectors, i: number, to: Vectors, j: number): number {
  const [a, b] = [3 * i, 3 * j];
  return lengthOf(to.at[b]! - from.at[a]!, to.at[b + 1]! - from.at[a + 1]!, to.at[b + 2]! - from.at[a + 2]!);
}

/** Azimuths of normal sections, here, and of geodesics, in the full calculation, differ by less than this at 500 km. */
const AZIMUTH_SLACK_DEG = 0.05;

/**
 * Least angle off the boresight of any direction towards a place, whatever its elevation, degrees: as
 * `leastOffAxisAngleDeg`, from vectors. 0 where the boresight is not known.
 */
export function leastAngleDeg(from: Vectors, i: number, to: Vectors, j: number): number {
  const [a, b] = [3 * i, 3 * j];
  const { at, up, look } = from;
  const [lx, ly, lz] = [look[a]!, look[a + 1]!, look[a + 2]!];
  if (lx === 0 && ly === 0 && lz === 0) return 0;
  const [ux, uy, uz] = [up[a]!, up[a + 1]!, up[a + 2]!];
  const [dx, dy, dz] = [to.at[b]! - at[a]!, to.at[b + 1]! - at[a + 1]!, to.at[b + 2]! - at[a + 2]!];
  // n = u x d is square to the vertical plane of the direction; h = n x u is level and in it.
  const [nx, ny, nz] = [uy * dz - uz * dy, uz * dx - ux * dz, ux * dy - uy * dx];
  const length = lengthOf(nx, ny, nz);
  if (!(length > 0)) return 0;
  const [hx, hy, hz] = [ny * uz - nz * uy, nz * ux - nx * uz, nx * uy - ny * ux];
  const ahead = lx * hx + ly * hy + lz * hz;
  if (ahead <= 0) {
    const rise = lx * ux + ly * uy + lz * uz;
    return Math.max(
      0,
      90 - Math.abs(Math.asin(Math.max(-1, Math.min(1, rise)))) / RADIANS - AZIMUTH_SLACK_DEG,
    );
  }
  const off = Math.abs(lx * nx + ly * ny + lz * nz) / length;
  return Math.max(0, Math.asin(Math.min(1, off)) / RADIANS - AZIMUTH_SLACK_DEG);
}

/** As `Math.hypot`, which guards against squares that no place on the Earth has, at a tenth of its time. */
function lengthOf(x: number, y: number, z: number): number {
  return Math.sqrt(x * x + y * y + z * z);
}
