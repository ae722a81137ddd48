/** Emission mask of digital fixed links in the United States. 47 CFR 101.111(a)(2), 74.637(a)(2). */
import type { MethodReference } from "../propagation/method.js";

export const METHOD: MethodReference = {
  recommendation: "47 CFR",
  section: "101.111",
  title: "Emission mask of digital fixed links, United States",
  status: "read in implementations",
  note:
    "Read in the law's text: 74.637, and for below 15 GHz 101.111. The limit of -13 dBm in 1 MHz, of 101.111 below 15 GHz " +
    "since 2005, is not counted: it asks for less, so that the mask here is the stricter.",
  checked: { by: "plain arithmetic", vectors: ["us-emission-mask"], tolerance: "1e-4 dB" },
};

function isHigh(frequencyHz: number): boolean {
  return frequencyHz > 15e9;
}

/** In how many hertz the power is measured that the attenuation is of. */
export function usMeasuredInHz(frequencyHz: number): number {
  return isHigh(frequencyHz) ? 1e6 : 4e3;
}

/**
 * Attenuation below the mean power that a digital emission must have at an offset, dB.
 *
 *     below 15 GHz, in any 4 kHz:   A = 35 + 0.8 (P - 50) + 10 log B,   50 <= A <= 80
 *     above 15 GHz, in any 1 MHz:   A = 11 + 0.4 (P - 50) + 10 log B,   11 <= A <= 56
 *
 * P is the offset in percent of the authorized bandwidth B (MHz), 50 < P <= 250.
 * @returns undefined inside the bandwidth (nothing asked) and beyond 250 % (another rule)
 * @see 47 CFR 101.111(a)(2), 74.637(a)(2). Read, see METHOD
 */
export function usEmissionMaskDb(
  frequencyHz: number,
  authorizedBandwidthHz: number,
  offsetHz: number,
): number | undefined {
  const P = (100 * Math.abs(offsetHz)) / authorizedBandwidthHz;
  if (!(P > 50 && P <= 250)) return undefined;
  const logB = 10 * Math.log10(authorizedBandwidthHz / 1e6);
  const high = isHigh(frequencyHz);
  const [A, least, most] = high ? [11 + 0.4 * (P - 50) + logB, 11, 56] : [35 + 0.8 * (P - 50) + logB, 50, 80];
  return Math.min(most, Math.max(least, A));
}
