/** The overall prediction. Rec. ITU-R P.452-18 section 4.5; eq (58) to (64). */
import type { Diffraction } from "./diffraction.js";
import type { ClearAirGeometry } from "./geometry.js";
import type { LineOfSight } from "./line-of-sight.js";

/** What decides the loss: the mechanism of the smallest part that counts. */
type RulingMechanism = "line-of-sight" | "diffraction" | "ducting" | "troposcatter";

export interface Combination {
  readonly Lbd50Db: number;
  readonly LbdDb: number;
  /** 1 on a clear path, 0 far beyond the horizon. */
  readonly Fj: number;
  /** 1 on a short path, 0 on a long one. */
  readonly Fk: number;
  readonly Lmin0Db: number;
  readonly LminaDb: number;
  readonly LbdaDb: number;
  readonly LbamDb: number;
  /** The basic transmission loss not exceeded for p %. */
  readonly LbDb: number;
  readonly ruledBy: RulingMechanism;
}

/**
 *     Lbd50 = Lbfsg + Ld50,   Lbd = Lb0p + Ldp                                          (43), (44)
 *     Fj = 1 - 0.5 (1 + tanh(3 * 0.8 (Stim - Str)/0.3))                                 (58)
 *     Fk = 1 - 0.5 (1 + tanh(3 * 0.5 (d - 20)/20))                                      (59)
 *     p < beta0:   Lmin0 = Lb0p + (1 - omega) Ldp
 *     p >= beta0:  Lmin0 = Lbd50 + (Lb0beta + (1 - omega) Ldp - Lbd50) Fi               (60)
 *     Lmina = 2.5 ln(exp(Lba/2.5) + exp(Lb0p/2.5))                                      (61)
 *     Lbda = Lbd where Lmina > Lbd, else Lmina + (Lbd - Lmina) Fk                       (62)
 *     Lbam = Lbda + (Lmin0 - Lbda) Fj                                                   (63)
 *     Lb = -5 log(10^(-0.2 Lbs) + 10^(-0.2 Lbam))                                       (64)
 *
 * In (61) and (64) the greater term is taken out before the power, which leaves the numbers above some 1700 dB.
 * @see Rec. ITU-R P.452-18 section 4.5; eq (43), (44), (58) to (64)
 */
export function combination(
  geometry: ClearAirGeometry,
  timePercent: number,
  sight: LineOfSight,
  diffraction: Diffraction,
  LbaDb: number,
  LbsDb: number,
): Combination {
  const { dKm, StimMPerKm, StrMPerKm, beta0Percent, omega } = geometry;
  const { LbfsgDb, Lb0pDb, Lb0BetaDb } = sight;
  const { Ld50Db, LdpDb, Fi } = diffraction;
  const Lbd50Db = LbfsgDb + Ld50Db;
  const LbdDb = Lb0pDb + LdpDb;
  const Fj = 1 - 0.5 * (1 + Math.tanh((3 * 0.8 * (StimMPerKm - StrMPerKm)) / 0.3));
  const Fk = 1 - 0.5 * (1 + Math.tanh((3 * 0.5 * (dKm - 20)) / 20));
  const land = 1 - omega;
  const Lmin0Db =
    timePercent < beta0Percent ? Lb0pDb + land * LdpDb : Lbd50Db + (Lb0BetaDb + land * LdpDb - Lbd50Db) * Fi;
  const LminaDb = Math.max(LbaDb, Lb0pDb) + 2.5 * Math.log1p(Math.exp(-Math.abs(LbaDb - Lb0pDb) / 2.5));
  const LbdaDb = LminaDb > LbdDb ? LbdDb : LminaDb + (LbdDb - LminaDb) * Fk;
  const LbamDb = LbdaDb + (Lmin0Db - LbdaDb) * Fj;
  const both = 10 ** (-0.2 * Math.abs(LbsDb - LbamDb));
  const LbDb = Math.min(LbsDb, LbamDb) - 5 * Math.log10(1 + both);
  const parts = { Lbd50Db, LbdDb, Fj, Fk, Lmin0Db, LminaDb, LbdaDb, LbamDb, LbDb };
  return { ...parts, ruledBy: ruling(parts, LbsDb) };
}

/** The smaller of Lbs and Lbam; within Lbam what has the greater weight. */
function ruling(parts: Omit<Combination, "ruledBy">, LbsDb: number): RulingMechanism {
  if (LbsDb < parts.LbamDb) return "troposcatter";
  if (parts.Fj >= 0.5) return "line-of-sight";
  return parts.LminaDb > parts.LbdDb || parts.Fk >= 0.5 ? "diffraction" : "ducting";
}
