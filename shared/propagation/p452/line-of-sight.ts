/** Line of sight with focusing. Rec. ITU-R P.452-18 section 4.1; eq (8) to (12). */
import type { ClearAirGeometry } from "./geometry.js";

/**
 * Least loss by focusing and multipath, not exceeded for a share of time, dB: never positive.
 *
 *     Es(q) = 2.6 (1 - exp(-0.1 (dlt + dlr))) log(q/50)     (10a), (10b)
 *
 * @param spanKm dlt + dlr
 * @param percent q, > 0 to 50
 * @see Rec. ITU-R P.452-18 section 4.1; eq (10a), (10b)
 */
export function focusingDb(spanKm: number, percent: number): number {
  return -2.6 * Math.expm1(-0.1 * spanKm) * Math.log10(percent / 50);
}

export interface LineOfSight {
  /** Gas over d3, dB. */
  readonly AgDb: number;
  readonly LbfsgDb: number;
  readonly EspDb: number;
  readonly EsBetaDb: number;
  readonly Lb0pDb: number;
  readonly Lb0BetaDb: number;
}

/**
 *     Ag = gamma(rho) d3,   rho = 7.5 + 2.5 omega          (9), (9a)
 *     Lbfsg = 92.4 + 20 log f + 20 log d3 + Ag             (8)
 *     Lb0p = Lbfsg + Es(p),   Lb0beta = Lbfsg + Es(beta0)  (11), (12)
 *
 * The constant is 92.4 as printed, 0.048 dB below the exact one that free-space figures have elsewhere.
 * @param fGHz f
 * @param gammaDbPerKm at rho
 * @see Rec. ITU-R P.452-18 section 4.1; eq (8) to (12)
 */
export function lineOfSight(
  geometry: ClearAirGeometry,
  fGHz: number,
  timePercent: number,
  gammaDbPerKm: number,
): LineOfSight {
  const { d3Km, dltKm, dlrKm, beta0Percent } = geometry;
  const AgDb = gammaDbPerKm * d3Km;
  const LbfsgDb = 92.4 + 20 * Math.log10(fGHz) + 20 * Math.log10(d3Km) + AgDb;
  const EspDb = focusingDb(dltKm + dlrKm, timePercent);
  const EsBetaDb = focusingDb(dltKm + dlrKm, beta0Percent);
  return { AgDb, LbfsgDb, EspDb, EsBetaDb, Lb0pDb: LbfsgDb + EspDb, Lb0BetaDb: LbfsgDb + EsBetaDb };
}
