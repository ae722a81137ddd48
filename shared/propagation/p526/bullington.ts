/**
 * The Bullington construction: the terrain replaced by one equivalent knife edge.
 * Rec. ITU-R P.526-15 (10/2019) section 4.5.1; P.1812-6 eq (13) to (21).
 *
 * All lengths here in m. The Recommendations take d_i and d in km, and so have 500 Ce for 1/(2 ae), 0.002 for the 2
 * under the root and 0.02 d for 2e-5 d. The maxima run over the inner points i = 1..n-1:
 *
 *     Stim = max[(g_i + d_i (d - d_i)/(2 ae) - hts)/d_i],   Str = (hrs - hts)/d
 *
 * Stim < Str, line of sight:
 *
 *     vmax = max[(g_i + d_i (d - d_i)/(2 ae) - (hts (d - d_i) + hrs d_i)/d) sqrt(2 d/(lambda d_i (d - d_i)))]
 *     Luc = J(vmax)
 *
 * Stim >= Str, beyond the horizon:
 *
 *     Srim = max[(g_i + d_i (d - d_i)/(2 ae) - hrs)/(d - d_i)]
 *     db = (hrs - hts + Srim d)/(Stim + Srim)
 *     vb = (hts + Stim db - (hts (d - db) + hrs db)/d) sqrt(2 d/(lambda db (d - db))),   Luc = J(vb)
 *
 * Both:
 *
 *     L = Luc + (1 - exp(-Luc/6)) (10 + 2e-5 d)
 *
 * The last term was fitted to real terrain: L is well above Luc for one isolated edge, where J alone fits better.
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
  /** Luc, the loss of the equivalent edge alone. */
  readonly edgeLossDb: number;
  readonly v: number;
  readonly lineOfSight: boolean;
  /** Stim, the steepest slope from end 1 to a point, and Str, that of the direct line. */
  readonly slopeFromEnd1: number;
  readonly directSlope: number;
  /** Beyond the horizon only: Srim, the steepest slope from end 2, and db, where the two slopes meet. */
  readonly slopeFromEnd2?: number;
  readonly edgeDistanceM?: number;
}

/**
 * Bullington loss of a profile.
 *
 * Only inner points count. Points whose height is NaN (unknown) are left out.
 * @param heightM heights of the points, or undefined for a smooth surface of height 0
 * @returns undefined when no inner point has a height: the construction then says nothing
 * @see Rec. ITU-R P.526-15 section 4.5.1; P.1812-6 eq (13) to (21)
 */
export function bullington(
  path: BullingtonPath,
  heightM: Float64Array | undefined,
): BullingtonResult | undefined {
  const { distanceM, antenna1HeightM: hts, antenna2HeightM: hrs, wavelengthM: lambda } = path;
  const last = distanceM.length - 1;
  const d = distanceM[last]!;
  const halfCurvature = 1 / (2 * path.effectiveRadiusM);
  const Str = (hrs - hts) / d;

  let Stim = Number.NEGATIVE_INFINITY;
  for (let i = 1; i < last; i++) {
    const d1 = distanceM[i]!;
    const g = heightM === undefined ? 0 : heightM[i]!;
    const slope = (g + halfCurvature * d1 * (d - d1) - hts) / d1;
    if (slope > Stim) Stim = slope; // false for NaN
  }
  if (Stim === Number.NEGATIVE_INFINITY) return undefined;
  const slopes = { slopeFromEnd1: Stim, directSlope: Str };

  if (Stim < Str) {
    const v = greatestParameter(path, heightM, d, halfCurvature);
    const Luc = knifeEdgeLossDb(v);
    return { lossDb: corrected(Luc, d), edgeLossDb: Luc, v, lineOfSight: true, ...slopes };
  }

  let Srim = Number.NEGATIVE_INFINITY;
  for (let i = 1; i < last; i++) {
    const d1 = distanceM[i]!;
    const g = heightM === undefined ? 0 : heightM[i]!;
    const slope = (g + halfCurvature * d1 * (d - d1) - hrs) / (d - d1);
    if (slope > Srim) Srim = slope;
  }
  const db = (hrs - hts + Srim * d) / (Stim + Srim);
  // A point exactly on the direct line makes the two slopes one line, which meet nowhere: grazing, v = 0.
  const inside = db > 0 && db < d;
  // The height of the edge above the direct line is (Stim - Str) db: hts cancels.
  const v = inside ? (Stim - Str) * db * Math.sqrt((2 * d) / (lambda * db * (d - db))) : 0;
  const Luc = knifeEdgeLossDb(v);
  return {
    lossDb: corrected(Luc, d),
    edgeLossDb: Luc,
    v,
    lineOfSight: false,
    ...slopes,
    slopeFromEnd2: Srim,
    edgeDistanceM: inside ? db : undefined,
  };
}

/** vmax, for a path with line of sight. */
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

function corrected(Luc: number, d: number): number {
  return Luc + (1 - Math.exp(-Luc / 6)) * (10 + 2e-5 * d);
}
