/** Ducting and reflection from layers. Rec. ITU-R P.452-18 section 4.4; eq (46) to (56a). */
import type { ClearAirGeometry } from "./geometry.js";

export interface Ducting {
  /** Site shielding and coupling to ducts over sea, each end, dB. */
  readonly AstDb: number;
  readonly AsrDb: number;
  readonly ActDb: number;
  readonly AcrDb: number;
  readonly AfDb: number;
  readonly gammaDDbPerMrad: number;
  /** Angular distance with limited horizon angles. */
  readonly theta1Mrad: number;
  readonly alpha: number;
  readonly mu2: number;
  readonly dIKm: number;
  readonly mu3: number;
  readonly betaPercent: number;
  readonly Gamma: number;
  readonly ApDb: number;
  readonly AgDuctDb: number;
  readonly LbaDb: number;
}

/**
 * Loss in the anomalous modes. Without meaning by itself: on short or smooth paths it is far below free space, which
 * section 4.5 mends.
 *
 *     Lba = Af + Ad + Ag,   Ag = gamma(7.5 + 2.5 omega) d                                             (46)
 *     Af = 102.45 + 20 log f + 20 log(dlt + dlr) + Alf + Ast + Asr + Act + Acr                        (47)
 *     Alf = 45.375 - 137 f + 92.5 f^2 below 0.5 GHz, else 0                                           (47a)
 *     Ad = gamma_d theta' + Ap,   gamma_d = 5e-5 ae f^(1/3)                                           (50), (51)
 *     theta' = 1000 d/ae + min(theta_t, 0.1 dlt) + min(theta_r, 0.1 dlr)                              (52), (52a)
 *     Ap = -12 + (1.2 + 3.7e-3 d) log(p/beta) + 12 (p/beta)^Gamma                                     (53)
 *     Gamma = 1.076/(2.0058 - L)^1.012 exp[-(9.51 - 4.8 L + 0.198 L^2) 1e-6 d^1.13],  L = log beta    (53a)
 *
 * The other terms stand at their functions. beta may be as small as 1e-30: it is carried by its logarithm.
 * @param gammaDbPerKm at rho = 7.5 + 2.5 omega
 * @see Rec. ITU-R P.452-18 section 4.4; eq (46) to (56a). That gas is counted over d, not d3, one of five readings contradicts
 */
export function ducting(
  geometry: ClearAirGeometry,
  fGHz: number,
  timePercent: number,
  gammaDbPerKm: number,
): Ducting {
  const { dKm: d, aeM, thetaTMrad, thetaRMrad, dltKm, dlrKm, omega } = geometry;
  const AstDb = shieldingDb(thetaTMrad, dltKm, fGHz);
  const AsrDb = shieldingDb(thetaRMrad, dlrKm, fGHz);
  const ActDb = seaCouplingDb(omega, geometry.dctKm, dltKm, geometry.htsM);
  const AcrDb = seaCouplingDb(omega, geometry.dcrKm, dlrKm, geometry.hrsM);
  const AlfDb = fGHz < 0.5 ? 45.375 - 137 * fGHz + 92.5 * fGHz * fGHz : 0;
  const AfDb =
    102.45 + 20 * Math.log10(fGHz) + 20 * Math.log10(dltKm + dlrKm) + AlfDb + AstDb + AsrDb + ActDb + AcrDb;
  const gammaDDbPerMrad = 5e-5 * (aeM / 1000) * Math.cbrt(fGHz);
  const theta1Mrad = (1e6 * d) / aeM + Math.min(thetaTMrad, 0.1 * dltKm) + Math.min(thetaRMrad, 0.1 * dlrKm);
  const { logBeta: L, ...incidence } = ductIncidence(geometry);
  const Gamma =
    (1.076 / (2.0058 - L) ** 1.012) * Math.exp(-(9.51 - 4.8 * L + 0.198 * L * L) * 1e-6 * d ** 1.13);
  const logRatio = Math.log10(timePercent) - L;
  const ApDb = -12 + (1.2 + 3.7e-3 * d) * logRatio + 12 * 10 ** (Gamma * logRatio);
  const AgDuctDb = gammaDbPerKm * d;
  const LbaDb = AfDb + gammaDDbPerMrad * theta1Mrad + ApDb + AgDuctDb;
  const losses = { AstDb, AsrDb, ActDb, AcrDb, AfDb, gammaDDbPerMrad, theta1Mrad };
  return { ...losses, ...incidence, Gamma, ApDb, AgDuctDb, LbaDb };
}

/**
 * Site shielding of one end, with x = theta_t - 0.1 dlt.
 *
 *     Ast = 20 log(1 + 0.361 x sqrt(f dlt)) + 0.264 x f^(1/3) for x > 0, else 0       (48), (48a)
 */
function shieldingDb(thetaMrad: number, horizonKm: number, fGHz: number): number {
  const x = thetaMrad - 0.1 * horizonKm;
  if (x <= 0) return 0;
  return 20 * Math.log10(1 + 0.361 * x * Math.sqrt(fGHz * horizonKm)) + 0.264 * x * Math.cbrt(fGHz);
}

/**
 * Coupling of one end to ducts over the sea, each end by its own conditions.
 *
 *     Act = -3 exp(-0.25 dct^2) (1 + tanh(0.07 (50 - hts)))
 *         where omega >= 0.75, dct <= dlt and dct <= 5 km, else 0                     (49), (49a)
 */
function seaCouplingDb(omega: number, coastKm: number, horizonKm: number, antennaAslM: number): number {
  if (!(omega >= 0.75 && coastKm <= horizonKm && coastKm <= 5)) return 0;
  return -3 * Math.exp(-0.25 * coastKm * coastKm) * (1 + Math.tanh(0.07 * (50 - antennaAslM)));
}

/**
 * How often ducts reach over the path.
 *
 *     alpha = max(-3.4, -0.6 - 3.5e-9 d^3.1 tau)                                      (55a)
 *     mu2 = [(500/ae) d^2/(sqrt hte + sqrt hre)^2]^alpha, at most 1                   (55)
 *     dI = min(d - dlt - dlr, 40)                                                     (56a)
 *     mu3 = exp(-4.6e-5 (hm - 10) (43 + 6 dI)) for hm > 10 m, else 1                  (56)
 *     beta = beta0 mu2 mu3    %                                                       (54)
 */
function ductIncidence(geometry: ClearAirGeometry) {
  const { dKm: d, tau, aeM, hteM, hreM, dltKm, dlrKm, hmM, beta0Percent } = geometry;
  const alpha = Math.max(-3.4, -0.6 - 3.5e-9 * d ** 3.1 * tau);
  const bulge = ((500_000 / aeM) * d * d) / (Math.sqrt(hteM) + Math.sqrt(hreM)) ** 2;
  const mu2 = Math.min(1, bulge ** alpha);
  const dIKm = Math.min(d - dltKm - dlrKm, 40);
  const lnMu3 = hmM > 10 ? -4.6e-5 * (hmM - 10) * (43 + 6 * dIKm) : 0;
  const logBeta = Math.log10(beta0Percent) + Math.log10(mu2) + Math.LOG10E * lnMu3;
  return { alpha, mu2, dIKm, mu3: Math.exp(lnMu3), betaPercent: 10 ** logBeta, logBeta };
}
