import type { ClearanceCriterion } from "../../design/objective.js";
import { wavelengthM } from "../../propagation/constants.js";
import { halfCurvature } from "../../propagation/earth.js";
import type { TerrainProfile } from "../../terrain/profile.js";
import type { ClearanceResult } from "../account/path-result.js";
import { criticalDistances } from "./straight-ground.js";

/** The straight line between the antennas, over a profile that starts at the first of them. */
export interface RayPath {
  readonly distanceM: number;
  /** Antenna centres above sea level. */
  readonly antennaAslM: readonly [number, number];
  /** Ground at the two sites, m above sea level. */
  readonly groundM: readonly [number, number];
  readonly frequencyHz: number;
}

/** Top of something on the path, m above sea level. */
export interface Top {
  readonly distanceM: number;
  readonly topM: number;
  readonly title: string;
}

/**
 * The Fresnel radius is never taken smaller than this. It is reached a few metres from an antenna, where the
 * ellipsoid is narrower than the antenna itself and a ratio would say nothing; whether such a point blocks
 * the ray is still told by the sign.
 */
const LEAST_FRESNEL_RADIUS_M = 0.1;

/** No structure that an antenna could be raised on is taken to be higher than this above ground. */
const HIGHEST_ANTENNA_M = 300;

/**
 * Clearance of the path for one criterion: the point with the smallest clearance in first Fresnel radii, and
 * the height that each antenna alone would need.
 *
 * Height of the ray above terrain plus Earth bulge, c = y1 + (y2 - y1) d1/d - top - d1 d2/(2 k a), against
 * F1 = sqrt(lambda d1 d2/d): over the inner samples of a raster; over every point of the straight lines of a survey,
 * the foot of the antennas included. Ground that is not known is left out, and leaves the verdict open unless the rest
 * misses already.
 * @returns undefined when nothing between the ends is known
 * @see Rec. ITU-R P.530-18 section 2.2 for the use of k and F1; geometry, a = 6371 km
 */
export function clearanceFor(
  criterion: ClearanceCriterion,
  path: RayPath,
  profile: TerrainProfile,
  tops: readonly Top[],
): ClearanceResult | undefined {
  const scan = newScan(criterion, path);
  if (profile.straight) visitLines(scan, path, profile);
  else visitSamples(scan, path, profile);
  for (let i = 0; i < tops.length; i++) visit(scan, path, tops[i]!.distanceM, tops[i]!.topM, -1 - i);
  if (scan.fraction === Number.POSITIVE_INFINITY) return undefined;

  const { kFactor, fresnelFraction: requiredFraction } = criterion;
  const { fraction, clearanceM, fresnelRadiusM, distanceM: at, topM: obstacleM, index } = scan;
  return {
    kFactor,
    requiredFraction,
    fraction,
    clearanceM,
    fresnelRadiusM,
    distanceM: at,
    obstacleM,
    obstacle: index < 0 ? tops[-1 - index]!.title : undefined,
    verdict: fraction < requiredFraction ? "missed" : profile.gaps.length > 0 ? "open" : "met",
    heightNeededM: [
      antennaHeight(scan.needed1M - path.groundM[0]),
      antennaHeight(scan.needed2M - path.groundM[1]),
    ],
  };
}

interface Scan {
  readonly requiredFraction: number;
  readonly halfCurvature: number;
  readonly fresnelScale: number;
  fraction: number;
  clearanceM: number;
  fresnelRadiusM: number;
  distanceM: number;
  topM: number;
  /** Below zero: -1 - index of a top. */
  index: number;
  /** Antenna centres above sea level that would do, each with the other end as it is. */
  needed1M: number;
  needed2M: number;
}

function newScan(criterion: ClearanceCriterion, path: RayPath): Scan {
  return {
    requiredFraction: criterion.fresnelFraction,
    halfCurvature: halfCurvature(criterion.kFactor),
    fresnelScale: wavelengthM(path.frequencyHz) / path.distanceM,
    fraction: Number.POSITIVE_INFINITY,
    clearanceM: 0,
    fresnelRadiusM: 0,
    distanceM: 0,
    topM: 0,
    index: 0,
    needed1M: Number.NEGATIVE_INFINITY,
    needed2M: Number.NEGATIVE_INFINITY,
  };
}

function visitSamples(scan: Scan, path: RayPath, { distanceM, heightM, coverM }: TerrainProfile): void {
  for (let i = 1; i < heightM.length - 1; i++) {
    const height = heightM[i]!;
    // NaN marks an unknown height.
    if (!Number.isNaN(height)) visit(scan, path, distanceM[i]!, coverM ? height + coverM[i]! : height, i);
  }
}

/** So near to an antenna, m, the ground at its foot is looked at; at the foot itself there is no path any more. */
const FOOT_M = 1e-3;

function visitLines(scan: Scan, path: RayPath, { distanceM, heightM, coverM }: TerrainProfile): void {
  const ray = {
    lengthM: path.distanceM,
    antennaAslM: path.antennaAslM,
    halfCurvature: scan.halfCurvature,
    fresnelScale: scan.fresnelScale,
    leastRadiusM: LEAST_FRESNEL_RADIUS_M,
    requiredFraction: scan.requiredFraction,
  };
  const last = heightM.length - 1;
  const lastM = path.distanceM - FOOT_M;
  for (let i = 0; i <= last; i++) {
    const toTopM = heightM[i]! + (coverM?.[i] ?? 0);
    const toM = distanceM[i]!;
    if (toM >= FOOT_M && toM <= lastM && !Number.isNaN(toTopM)) visit(scan, path, toM, toTopM, i);
    const fromTopM = i === 0 ? Number.NaN : heightM[i - 1]! + (coverM?.[i - 1] ?? 0);
    if (Number.isNaN(fromTopM) || Number.isNaN(toTopM)) continue;
    const fromM = distanceM[i - 1]!;
    const within = criticalDistances({ fromM, toM, fromTopM, toTopM }, ray);
    if (i === 1) within.push(FOOT_M);
    if (i === last) within.push(lastM);
    for (const atM of within) {
      const share = (atM - fromM) / (toM - fromM);
      visit(scan, path, atM, fromTopM * (1 - share) + toTopM * share, i);
    }
  }
}

/** Runs some hundred times a criterion: numbers only. */
function visit(scan: Scan, path: RayPath, d1: number, topM: number, index: number): void {
  const d2 = path.distanceM - d1;
  if (!(d1 > 0 && d2 > 0)) return;
  const [y1, y2] = path.antennaAslM;
  const product = d1 * d2;
  const share = d1 / path.distanceM;
  const blockedM = topM + scan.halfCurvature * product;
  const radiusM = Math.max(Math.sqrt(scan.fresnelScale * product), LEAST_FRESNEL_RADIUS_M);
  const clearanceM = y1 + (y2 - y1) * share - blockedM;
  const fraction = clearanceM / radiusM;
  if (fraction < scan.fraction) {
    scan.fraction = fraction;
    scan.clearanceM = clearanceM;
    scan.fresnelRadiusM = radiusM;
    scan.distanceM = d1;
    scan.topM = topM;
    scan.index = index;
  }
  const wantedM = blockedM + scan.requiredFraction * radiusM;
  const needed1M = (wantedM - y2 * share) / (1 - share);
  const needed2M = (wantedM - y1 * (1 - share)) / share;
  if (needed1M > scan.needed1M) scan.needed1M = needed1M;
  if (needed2M > scan.needed2M) scan.needed2M = needed2M;
}

/** Above ground; 0 when even an antenna on the ground would do, undefined beyond any usual structure. */
function antennaHeight(aboveGroundM: number): number | undefined {
  return aboveGroundM <= HIGHEST_ANTENNA_M ? Math.max(aboveGroundM, 0) : undefined;
}
