/** How often the lowest air conducts: beta0. Rec. ITU-R P.452-18 section 3.2.1 (number from memory), eq (2) to (4). */
import type { ZoneLengths } from "./zones.js";

export interface AnomalousPropagation {
  readonly tau: number;
  readonly mu1: number;
  readonly mu4: number;
  /** Share of time for which refractivity falls by more than 100 N-units/km in the lowest 100 m, %. */
  readonly beta0Percent: number;
}

/**
 * Point incidence of anomalous propagation at the middle of the path.
 *
 *     tau = 1 - exp(-4.12e-4 dlm^2.41)                                                    (3a)
 *     mu1 = [10^(-dtm/(16 - 6.6 tau)) + 10^(-5 (0.496 + 0.354 tau))]^0.2, at most 1       (3)
 *     |phi| <= 70:  mu4 = 10^((-0.935 + 0.0176 |phi|) log mu1)                            (4)
 *                   beta0 = 10^(-0.015 |phi| + 1.67) mu1 mu4                              (2)
 *     |phi| > 70:   mu4 = 10^(0.3 log mu1),   beta0 = 4.17 mu1 mu4
 *
 * @param latitudeDeg phi, -90 to 90
 * @returns beta0 always lies from 0.32 to 47 % (derived)
 * @see Rec. ITU-R P.452-18 section 3 (its number from memory); eq (2) to (4)
 */
export function anomalousPropagation(zones: ZoneLengths, latitudeDeg: number): AnomalousPropagation {
  const { dtmKm: dtm, dlmKm: dlm } = zones;
  const phi = Math.abs(latitudeDeg);
  const tau = -Math.expm1(-4.12e-4 * dlm ** 2.41);
  const mu1 = Math.min(1, (10 ** (-dtm / (16 - 6.6 * tau)) + 10 ** (-5 * (0.496 + 0.354 * tau))) ** 0.2);
  if (phi > 70) {
    const mu4 = mu1 ** 0.3;
    return { tau, mu1, mu4, beta0Percent: 4.17 * mu1 * mu4 };
  }
  const mu4 = mu1 ** (-0.935 + 0.0176 * phi);
  return { tau, mu1, mu4, beta0Percent: 10 ** (-0.015 * phi + 1.67) * mu1 * mu4 };
}
