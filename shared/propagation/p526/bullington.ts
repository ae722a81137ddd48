/**
 * The Bullington construction: the terrain replaced by one equivalent knife edge.
 * Rec. ITU-R P.526-15 (10/2019) section 4.5.1; P.1812-6 eq (13) to (21).
 */
import { knifeEdgeLossDb } from "./knife-edge.js";

/** Everything the construction needs besides the heights. Lengths in m. */
export interface BullingtonPath {
  /** Distances of the profile points from end 1, rising, first 0, last the path length. */
  readonly distanceM: Float64Array;
  /** Antenna heights above sea level (or above the surface that the heights refer to). */
  readonly antenna1HeightM: number;
  readonly antenna2HeightM: number;
  /** Effective Earth radius, > 0; Infinity for a flat Earth. */
  readonly effectiveRadiusM: number;
  readonly wavelengthM: number;
}

/** Result of the construction, slopes in m per m. */
export interface BullingtonResult {
  readonly lossDb: number;
  /** Loss of the equivalent edge before the correction of the last step. */
  readonly edgeLossDb: number;
  readonly v: number;
  readonly lineOfSight: boolean;
  /** Steepest slope from end 1 to a point, and the slope of the direct line. */
  readonly slopeFromEnd1: number;
  readonly directSlope: number;
  /** Beyond the horizon only: steepest slope from end 2, and where the two slopes meet. */
  readonly slopeFromEnd2?: number;
  readonly edgeDistanceM?: number;
}

/**
 * Bullington loss of a profile.
 *
 * Only inner points count. Points whose height is NaN (unknown) are left out.
 * @param heightM heights of the points, or undefined for a smooth surface of height 0
 * @returns undefined when no inner point has a height: the construction then says nothing
 */
export function bullington(
  path: BullingtonPath,
  heightM: Float64Array | undefined,
): BullingtonResult | undefined {
  const { distanceM, antenna1HeightM: hts, antenna2HeightM: hrs, wavelengthM: lambda } = path;
  const last = distanceM.length - 1;
  const d = distanceM[last]!;
  const halfCurvature = 1 / (2 * path.effectiveRadiusM);
  const directSlope = (hrs - hts) / d;

  let slopeFromEnd1 = Number.NEGATIVE_INFINITY;
  for (let i = 1; i < last; i++) {
    const d1 = distanceM[i]!;
    const g = heightM === undefined ? 0 : heightM[i]!;
    const slope = (g + halfCurvature * d1 * (d - d1) - hts) / d1;
    if (slope > slopeFromEnd1) slopeFromEnd1 = slope; // false for NaN
  }
  if (slopeFromEnd1 === Number.NEGATIVE_INFINITY) return undefined;

  if (slopeFromEnd1 < directSlope) {
    const v = greatestParameter(path, heightM, d, halfCurvature);
    const edgeLossDb = knifeEdgeLossDb(v);
    return { lossDb: corrected(edgeLossDb, d), edgeLossDb, v, lineOfSight: true, slopeFromEnd1, directSlope };
  }

  let slopeFromEnd2 = Number.NEGATIVE_INFINITY;
  for (let i = 1; i < last; i++) {
    const d1 = distanceM[i]!;
    const g = heightM === undefined ? 0 : heightM[i]!;
    const slope = (g + halfCurvature * d1 * (d - d1) - hrs) / (d - d1);
    if (slope > slopeFromEnd2) slopeFromEnd2 = slope;
  }
  const edgeDistanceM = (hrs - hts + slopeFromEnd2 * d) / (slopeFromEnd1 + slopeFromEnd2);
  // A point exactly on the direct line makes the two slopes one line, which meet nowhere: grazing, v = 0.
  const inside = edgeDistanceM > 0 && edgeDistanceM < d;
  const v = inside
    ? (slopeFromEnd1 - directSlope) *
      edgeDistanceM *
      Math.sqrt((2 * d) / (lambda * edgeDistanceM * (d - edgeDistanceM)))
    : 0;
  const edgeLossDb = knifeEdgeLossDb(v);
  return {
    lossDb: corrected(edgeLossDb, d),
    edgeLossDb,
    v,
    lineOfSight: false,
    slopeFromEnd1,
    directSlope,
    slopeFromEnd2,
    edgeDistanceM: inside ? edgeDistanceM : undefined,
  };
}

/** Greatest v over the inner points, for a path with line of sight. */
function greatestParameter(
  path: BullingtonPath,
  heightM: Float64Array | undefined,
  d: number,
  halfCurvature: number,
): number {
  const { distanceM, antenna1HeightM: hts, antenna2HeightM: hrs } = path;
  const last = distanceM.length - 1;
  const scale = (2 * d) / path.wavelengthM;
  let greatest = Number.NEGATIVE_INFINITY;
  for (let i = 1; i < last; i++) {
    const d1 = distanceM[i]!;
    const product = d1 * (d - d1);
    const g = heightM === undefined ? 0 : heightM[i]!;
    const above = g + halfCurvature * product - (hts * (d - d1) + hrs * d1) / d;
    const v = above * Math.sqrt(scale / product);
    if (v > greatest) greatest = v;
  }
  return greatest;
}

/** Last step: the loss fitted to real terrain, well above that of one isolated edge. */
function corrected(edgeLossDb: number, d: number): number {
  return edgeLossDb + (1 - Math.exp(-edgeLossDb / 6)) * (10 + 2e-5 * d);
}
