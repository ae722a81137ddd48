/** Tropospheric scatter. Rec. ITU-R P.452-18 section 4.3; eq (45) to (45b). */
import type { ClearAirGeometry } from "./geometry.js";

export interface Troposcatter {
  readonly LfDb: number;
  /** Coupling of the apertures to the medium. */
  readonly LcDb: number;
  /** Gas over d at 3 g/m3. */
  readonly AgTropoDb: number;
  readonly LbsDb: number;
}

/**
 *     Lf = 25 log f - 2.5 (log(f/2))^2                                              (45a)
 *     Lc = 0.051 exp(0.055 (Gt + Gr))                                               (45b)
 *     Lbs = 190 + Lf + 20 log d + 0.573 theta - 0.15 N0 + Lc + Ag - 10.1 (-log(p/50))^0.7     (45)
 *
 * Evaluated on line-of-sight paths too.
 * @param gainSumDbi Gt + Gr toward the horizons along the path
 * @param gammaDbPerKm at rho = 3 g/m3
 * @see Rec. ITU-R P.452-18 section 4.3; eq (45) to (45b)
 */
export function troposcatter(
  { dKm, thetaMrad, seaLevelN }: ClearAirGeometry,
  fGHz: number,
  timePercent: number,
  gainSumDbi: number,
  gammaDbPerKm: number,
): Troposcatter {
  const LfDb = 25 * Math.log10(fGHz) - 2.5 * Math.log10(fGHz / 2) ** 2;
  const LcDb = 0.051 * Math.exp(0.055 * gainSumDbi);
  const AgTropoDb = gammaDbPerKm * dKm;
  const timeDb = 10.1 * Math.max(0, -Math.log10(timePercent / 50)) ** 0.7;
  const LbsDb =
    190 + LfDb + 20 * Math.log10(dKm) + 0.573 * thetaMrad - 0.15 * seaLevelN + LcDb + AgTropoDb - timeDb;
  return { LfDb, LcDb, AgTropoDb, LbsDb };
}
