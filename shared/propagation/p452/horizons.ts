/** Class of the path, its horizons and slopes. Rec. ITU-R P.452-18 Attachment 2; eq (14), (15), (150) to (159). */
import type { ClearAirPath } from "./path.js";

/** Angles in mrad above the local horizontal, distances in km, slopes in m/km. */
export interface Horizons {
  readonly transHorizon: boolean;
  readonly thetaTMrad: number;
  readonly thetaRMrad: number;
  /** Angular distance, theta. */
  readonly thetaMrad: number;
  readonly dltKm: number;
  readonly dlrKm: number;
  /** Indexes of the horizon points in the profile; on a line-of-sight path both are its closest point. */
  readonly horizonT: number;
  readonly horizonR: number;
  /** Steepest slope from end t to a point, and that of the direct line. */
  readonly StimMPerKm: number;
  readonly StrMPerKm: number;
}

/**
 * Class and horizons over an Earth of radius ae; d in m here, so that 1/(2 ae) stands for 500/ae.
 *
 *     theta_i = 1000 atan[(h_i - hts)/d_i - d_i/(2 ae)]         inner points i = 1..n-1     (152)
 *     theta_td = 1000 atan[(hrs - hts)/d - d/(2 ae)]                                        (153)
 *     max theta_i > theta_td: trans-horizon                                                 (150)
 *         theta_t = max theta_i,   dlt its d_i, the nearest of equal ones                   (154), (155)
 *         theta_j = 1000 atan[(h_j - hrs)/(d - d_j) - (d - d_j)/(2 ae)]                     (157)
 *         theta_r = max theta_j,   dlr = d - d_j, the nearest to r of equal ones            (158)
 *     else line of sight
 *         theta_t = theta_td,   theta_r = 1000 atan[(hts - hrs)/d - d/(2 ae)]               (156a)
 *         dlt the d_i of the greatest nu_i, dlr = d - dlt                                   (155a), (158a)
 *         nu_i = [h_i + d_i (d - d_i)/(2 ae) - (hts (d - d_i) + hrs d_i)/d] sqrt(2 d/(lambda d_i (d - d_i)))
 *     theta = 1000 d/ae + theta_t + theta_r                                                 (159)
 *     Stim = max[(h_i + d_i (d - d_i)/(2 ae) - hts)/d_i],   Str = (hrs - hts)/d             (14), (15)
 *
 * The point of the greatest nu does not depend on lambda. Of equal nu the last is taken (sources differ). The angles are
 * compared by their tangents: theta_i by s_i = (h_i - hts)/d_i - d_i/(2 ae), whose maximum is also that of Stim, since
 * the bulge adds d/(2 ae) to every one.
 * @param htsM antennas above sea level, m
 * @see Rec. ITU-R P.452-18 section 4.5 (Stim, Str) and Attachment 2; eq (14), (15), (150) to (159)
 */
export function horizons(
  { distanceM, heightM }: Pick<ClearAirPath, "distanceM" | "heightM">,
  htsM: number,
  hrsM: number,
  aeM: number,
): Horizons {
  const last = distanceM.length - 1;
  const d = distanceM[last]!;
  const half = 1 / (2 * aeM);
  let tangentT = Number.NEGATIVE_INFINITY;
  let horizonT = 1;
  for (let i = 1; i < last; i++) {
    const di = distanceM[i]!;
    const tangent = (heightM[i]! - htsM) / di - di * half;
    if (tangent > tangentT) {
      tangentT = tangent;
      horizonT = i;
    }
  }
  const direct = (hrsM - htsM) / d - d * half;
  const slopes = { StimMPerKm: 1000 * (tangentT + d * half), StrMPerKm: (1000 * (hrsM - htsM)) / d };
  if (tangentT > direct) {
    let tangentR = Number.NEGATIVE_INFINITY;
    let horizonR = last - 1;
    for (let i = last - 1; i >= 1; i--) {
      const dj = d - distanceM[i]!;
      const tangent = (heightM[i]! - hrsM) / dj - dj * half;
      if (tangent > tangentR) {
        tangentR = tangent;
        horizonR = i;
      }
    }
    const dltKm = distanceM[horizonT]! / 1000;
    const dlrKm = (d - distanceM[horizonR]!) / 1000;
    const angles = angularDistance(tangentT, tangentR, d, aeM);
    return { transHorizon: true, ...angles, dltKm, dlrKm, horizonT, horizonR, ...slopes };
  }
  const closest = closestPoint(distanceM, heightM, htsM, hrsM, half);
  const dltKm = distanceM[closest]! / 1000;
  const angles = angularDistance(direct, (htsM - hrsM) / d - d * half, d, aeM);
  const ends = { dltKm, dlrKm: d / 1000 - dltKm, horizonT: closest, horizonR: closest };
  return { transHorizon: false, ...angles, ...ends, ...slopes };
}

function angularDistance(tangentT: number, tangentR: number, dM: number, aeM: number) {
  const thetaTMrad = 1000 * Math.atan(tangentT);
  const thetaRMrad = 1000 * Math.atan(tangentR);
  return { thetaTMrad, thetaRMrad, thetaMrad: (1000 * dM) / aeM + thetaTMrad + thetaRMrad };
}

/** The point of the greatest nu. */
function closestPoint(
  distanceM: Float64Array,
  heightM: Float64Array,
  htsM: number,
  hrsM: number,
  half: number,
): number {
  const last = distanceM.length - 1;
  const d = distanceM[last]!;
  const slope = (hrsM - htsM) / d;
  let greatest = Number.NEGATIVE_INFINITY;
  let closest = 1;
  for (let i = 1; i < last; i++) {
    const di = distanceM[i]!;
    const product = di * (d - di);
    const nu = (heightM[i]! + product * half - htsM - slope * di) / Math.sqrt(product);
    if (nu >= greatest) {
      greatest = nu;
      closest = i;
    }
  }
  return closest;
}
