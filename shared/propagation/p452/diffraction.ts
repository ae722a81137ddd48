/** Diffraction not exceeded for a share of time. Rec. ITU-R P.452-18 section 4.2; eq (41a) to (44). */
import { type DeltaBullingtonResult, deltaBullington, type GroundPolarization } from "../p526/index.js";
import type { ClearAirGeometry } from "./geometry.js";
import { inverseNormal } from "./inverse-normal.js";

/** Losses over the median Earth and over that of beta0: independent of time. */
export interface DiffractionPair {
  readonly median: DeltaBullingtonResult;
  readonly beta: DeltaBullingtonResult;
}

/**
 * Ld50 and Ldbeta: delta-Bullington of the terrain with its cover over ae, and over abeta. The smooth surface does not
 * depend on the radius.
 *
 *     Ld50 = L(ae),   Ldbeta = L(abeta),   lambda = 0.2998/f    m, as this Recommendation rounds it
 *
 * @see Rec. ITU-R P.452-18 section 4.2; eq (13) to (40), which are those of P.526
 */
export function diffractionPair(
  { profile, htsM, hrsM, aeM, aBetaM, omega }: ClearAirGeometry,
  frequencyHz: number,
  polarization: GroundPolarization,
): DiffractionPair {
  const link = {
    antenna1HeightM: htsM,
    antenna2HeightM: hrsM,
    frequencyHz,
    polarization,
    seaFraction: omega,
    wavelengthM: 0.2998e9 / frequencyHz,
  };
  return {
    median: deltaBullington(profile, { ...link, effectiveRadiusM: aeM }),
    beta: deltaBullington(profile, { ...link, effectiveRadiusM: aBetaM }),
  };
}

export interface Diffraction {
  readonly Ld50Db: number;
  readonly LdBetaDb: number;
  readonly Fi: number;
  readonly LdpDb: number;
}

/**
 *     Fi = I(p/100)/I(beta0/100) for beta0 < p,   1 for p <= beta0      (41a)
 *     Ldp = Ld50 + Fi (Ldbeta - Ld50)                                   (42)
 *
 * I(0.5) is not quite 0; at p = 50 Ldp = Ld50 as it stands.
 * @see Rec. ITU-R P.452-18 section 4.2; eq (41a), (42)
 */
export function diffractionForTime(
  pair: DiffractionPair,
  timePercent: number,
  beta0Percent: number,
): Diffraction {
  const Ld50Db = pair.median.lossDb;
  const LdBetaDb = pair.beta.lossDb;
  const Fi = interpolation(timePercent, beta0Percent);
  return { Ld50Db, LdBetaDb, Fi, LdpDb: timePercent >= 50 ? Ld50Db : Ld50Db + Fi * (LdBetaDb - Ld50Db) };
}

function interpolation(timePercent: number, beta0Percent: number): number {
  if (timePercent <= beta0Percent) return 1;
  return inverseNormal(timePercent / 100) / inverseNormal(beta0Percent / 100);
}
