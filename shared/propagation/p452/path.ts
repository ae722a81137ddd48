/** The path as P.452 takes it, and what makes it none. */
import { notPositive, outside } from "../outcome.js";
import type { RefusalReason } from "../remark.js";

/** Zones of points: coastal land A1, inland A2, sea B. */
const COASTAL = 1;
export const INLAND = 2;
export const SEA = 3;

/** Where there is no coast along the path; the custom of the published examples. */
const NO_COAST_M = 500_000;

/** The Recommendation's least number of profile points. */
const LEAST_POINTS = 4;

/** What no path on this Earth leaves: lengths and heights, m, and refractivities, N-units. */
const SHORTEST_M = 1;
const LONGEST_M = 20_100_000;
const HIGHEST_M = 20_000;
const GREATEST_N = 1000;

/** Everything that depends neither on frequency nor on time. End t transmits (the interferer), end r receives. */
export interface ClearAirPath {
  /** Distances from end t along the great circle, m: rising, first 0. At least 4 points, steps as they come. */
  readonly distanceM: Float64Array;
  /** Bare terrain, m above sea level; every one known. */
  readonly heightM: Float64Array;
  /** Heights of trees and buildings on the terrain, m; counted in diffraction only, and not within 50 m of an end. */
  readonly coverHeightM?: Float64Array;
  /** Zone of each point: 1 coastal land, 2 inland, 3 sea. Absent: inland throughout. */
  readonly zone?: Uint8Array;
  /** Antenna centres above the ground at the ends, m, > 0. */
  readonly antennaTM: number;
  readonly antennaRM: number;
  /** Latitude of the middle of the path, -90 to 90 degrees. */
  readonly latitudeDeg: number;
  /** DN: the median fall of refractivity over the lowest km, N-units/km, 0 to 156. */
  readonly lapseNPerKm: number;
  /** N0: refractivity of the surface, brought to sea level, N-units. */
  readonly seaLevelN: number;
  /**
   * Distances over land along the path from each end to the coast, m; 0 on a ship or platform. Absent: to the first
   * point that is sea, 500 km where none is.
   */
  readonly coastTM?: number;
  readonly coastRM?: number;
}

/** Why there is no path; undefined for a good one. O(n), no allocation. */
export function pathRefusal(path: ClearAirPath): RefusalReason | undefined {
  const { antennaTM, antennaRM, latitudeDeg, lapseNPerKm, seaLevelN } = path;
  return (
    profileRefusal(path) ??
    notPositive({ antennaTM, antennaRM }) ??
    outside({ antennaTM, antennaRM }, 0, HIGHEST_M) ??
    outside({ pathLengthM: path.distanceM.at(-1)! }, SHORTEST_M, LONGEST_M) ??
    outside({ latitudeDeg }, -90, 90) ??
    // At 157 the Earth is flat to the ray, beyond it there is no radius.
    outside({ lapseNPerKm }, 0, 156) ??
    outside({ seaLevelN }, 0, GREATEST_N) ??
    outside({ coastTM: path.coastTM ?? 0, coastRM: path.coastRM ?? 0 }, 0, LONGEST_M)
  );
}

function profileRefusal({ distanceM, heightM, coverHeightM, zone }: ClearAirPath): RefusalReason | undefined {
  const points = distanceM.length;
  if (points < LEAST_POINTS) return { code: "profile-too-short", points, least: LEAST_POINTS };
  const lengths = [heightM.length, coverHeightM?.length ?? points, zone?.length ?? points];
  if (lengths.some((length) => length !== points)) return { code: "profile-not-rising", point: points };
  let before = -1;
  for (let i = 0; i < points; i++) {
    const d = distanceM[i]!;
    if (!(d > before && d < Number.POSITIVE_INFINITY) || (i === 0 && d !== 0)) {
      return { code: "profile-not-rising", point: i };
    }
    before = d;
    const cover = coverHeightM === undefined ? 0 : coverHeightM[i]!;
    // Written so that NaN fails.
    if (!(Math.abs(heightM[i]!) + Math.abs(cover) <= HIGHEST_M))
      return { code: "profile-height-unknown", point: i };
    if (zone !== undefined && !(zone[i]! >= COASTAL && zone[i]! <= SEA)) {
      return { code: "profile-zone-unknown", point: i };
    }
  }
  return undefined;
}

/** dct and dcr, m: as stated, else to the first sea point from each end. */
export function coastDistances(path: ClearAirPath): { readonly dctM: number; readonly dcrM: number } {
  const { distanceM, zone } = path;
  const d = distanceM[distanceM.length - 1]!;
  const first = zone === undefined ? -1 : zone.indexOf(SEA);
  const last = zone === undefined ? -1 : zone.lastIndexOf(SEA);
  return {
    dctM: path.coastTM ?? (first < 0 ? NO_COAST_M : distanceM[first]!),
    dcrM: path.coastRM ?? (last < 0 ? NO_COAST_M : d - distanceM[last]!),
  };
}
