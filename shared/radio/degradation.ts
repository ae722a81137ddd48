/** What interference does to a receiver's threshold: it adds to the noise. Power sums in dB, safe at any level. */
import type { MethodReference } from "../propagation/method.js";

export const METHOD_DEGRADATION: MethodReference = {
  recommendation: "Noise-like interference",
  section: "",
  title: "Degradation of a threshold by interference",
  status: "verified",
  note: "Elementary: interference counts as noise, so that noise and all entries add in power and every threshold rises by the sum.",
  checked: {
    by: "closed forms and worked figures",
    vectors: ["noise-interference"],
    tolerance: "1e-5 dB (as many decimals given)",
  },
};

/**
 * Degradation of a threshold.
 *
 *     TD = 10 log(1 + 10^((I - N)/10))    dB
 *
 * N in the bandwidth that the threshold rests on, all entries of I added in power before (`powerSumDb`).
 * @param interferenceToNoiseDb I - N; -Infinity (no interference) gives 0
 * @returns >= 0
 * @example degradationDb(-10) // 0.41
 */
export function degradationDb(interferenceToNoiseDb: number): number {
  // ln(1 + e^x) as max(x, 0) + ln(1 + e^-|x|): no overflow, and small ratios keep their digits.
  const small = Math.log1p(10 ** (-Math.abs(interferenceToNoiseDb) / 10));
  return Math.max(0, interferenceToNoiseDb) + 10 * Math.LOG10E * small;
}

/**
 * The interference that costs a degradation, `I/N = 10 log(10^(TD/10) - 1)`, dB.
 * @param degradationDb TD, > 0; nothing costs no degradation: undefined
 * @example interferenceToNoiseDb(1) // -5.87
 */
export function interferenceToNoiseDb(degradationDb: number): number | undefined {
  if (!(degradationDb > 0)) return undefined;
  // 10 log(e^x - 1) as x + ln(1 - e^-x): no overflow.
  return degradationDb + 10 * Math.log10(-Math.expm1((-degradationDb * Math.LN10) / 10));
}

/**
 * Carrier to interference at the threshold, at which noise-like interference costs a degradation.
 *
 *     C/I = S/N - I/N(TD)    dB;   1 dB: S/N + 5.87,   3 dB: S/N + 0.02
 *
 * @param requiredSnrDb S/N that the mode needs without interference
 * @param degradationDb TD, > 0; else undefined
 * @nofigure
 */
export function carrierToInterferenceDb(requiredSnrDb: number, degradationDb: number): number | undefined {
  const ratioDb = interferenceToNoiseDb(degradationDb);
  return ratioDb === undefined ? undefined : requiredSnrDb - ratioDb;
}

/**
 * Total discrimination of a receiver against an offset from a table of carrier to interference for a degradation: how
 * much more of the offset interferer it bears than of noise in its own band.
 *
 *     D = S/N - I/N(TD) - C/I(df)    dB, at least 0
 *
 * @param requiredSnrDb S/N that the mode needs without interference
 * @param degradationDb TD that the table is for, 1 or 3 dB; > 0, else undefined
 * @param tableRatioDb C/I at the offset, at which the threshold is degraded by TD
 * @see derived; a table made for 1 dB and one for 3 dB give the same where the interferer is like noise
 * @nofigure
 */
export function discriminationOfTableDb(
  requiredSnrDb: number,
  degradationDb: number,
  tableRatioDb: number,
): number | undefined {
  const coChannelDb = carrierToInterferenceDb(requiredSnrDb, degradationDb);
  return coChannelDb === undefined ? undefined : Math.max(0, coChannelDb - tableRatioDb);
}

/**
 * Sum of levels in power, `10 log(sum 10^(L/10))`, dB of the levels' own unit; the greatest is taken out, so that none
 * is too great or too small.
 * @returns undefined for no level, or where all are -Infinity
 */
export function powerSumDb(levelsDb: readonly number[]): number | undefined {
  let greatest = Number.NEGATIVE_INFINITY;
  for (const level of levelsDb) if (level > greatest) greatest = level;
  if (!Number.isFinite(greatest)) return undefined;
  let sum = 0;
  for (const level of levelsDb) sum += 10 ** ((level - greatest) / 10);
  return greatest + 10 * Math.log10(sum);
}
