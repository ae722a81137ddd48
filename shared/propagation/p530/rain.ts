import type { MethodReference } from "../method.js";
import {
  figures,
  negative,
  notPositive,
  type Outcome,
  outside,
  rangeNote,
  refuse,
  type TimeShare,
} from "../outcome.js";

export const METHOD: MethodReference = {
  recommendation: "ITU-R P.530-18",
  section: "2.4.1",
  title: "Rain attenuation, average year",
  status: "verified",
  note:
    "Read in four implementations; the factor r is limited to 2.5 as two of them do. " +
    "C0 = 0.12 + 0.4 log((f/10)^0.8): three read the exponent inside the logarithm, one outside " +
    "(at most 4.2 % lower at 1 %, no change at 0.01 %).",
};

/** Range of the law in percent of the average year: outside it gives bounds, never figures. */
export const LEAST_RAIN_PERCENT = 0.001;
export const GREATEST_RAIN_PERCENT = 1;

const BELOW: TimeShare = { timePercent: LEAST_RAIN_PERCENT, bound: "at most" };
const ABOVE: TimeShare = { timePercent: GREATEST_RAIN_PERCENT, bound: "at least" };

/** The law Ap = A0.01 C1 p^-(C2 + C3 log p), prepared once a hop and frequency and asked for each margin. */
export interface RainDistribution {
  readonly A001Db: number;
  readonly C0: number;
  readonly C1: number;
  readonly C2: number;
  readonly C3: number;
  /** Attenuation exceeded for 1 %, dB. */
  readonly atOnePercentDb: number;
  /** Attenuation exceeded for 0.001 %, dB. */
  readonly atThousandthPercentDb: number;
}

/** Prepares the law from the attenuation exceeded for 0.01 %. Lean: no checks. */
export function rainDistribution(A001Db: number, frequencyGHz: number): RainDistribution {
  const C0 = frequencyGHz >= 10 ? 0.12 + 0.4 * 0.8 * Math.log10(frequencyGHz / 10) : 0.12;
  const C1 = 0.07 ** C0 * 0.12 ** (1 - C0);
  const C2 = 0.855 * C0 + 0.546 * (1 - C0);
  const C3 = 0.139 * C0 + 0.043 * (1 - C0);
  const law = { A001Db, C0, C1, C2, C3, atOnePercentDb: A001Db * C1, atThousandthPercentDb: 0 };
  return { ...law, atThousandthPercentDb: rainAttenuationDb(law, LEAST_RAIN_PERCENT) };
}

/**
 * Attenuation exceeded for a share of the average year, dB. Lean: no checks; the caller keeps to 0.001..1 %
 * (section 2.4.2 alone goes above, as its table starts at the probability of rain).
 */
export function rainAttenuationDb(law: RainDistribution, timePercent: number): number {
  return rainAttenuationAtLog(law, Math.log10(timePercent));
}

/** The same for log10 of the share of time in percent. */
export function rainAttenuationAtLog(law: RainDistribution, logP: number): number {
  return law.A001Db * law.C1 * 10 ** (-(law.C2 + law.C3 * logP) * logP);
}

/**
 * Share of the average year in which rain takes more than a margin. Lean: no checks, allocates only inside the law's
 * range. Outside 0.001..1 % a bound, never an extrapolated figure. A hop without margin (<= 0 dB) gets `at least 1 %`.
 */
export function rainTimeForMargin(law: RainDistribution, marginDb: number): TimeShare {
  if (!(marginDb > 0)) return ABOVE;
  if (marginDb > law.atThousandthPercentDb) return BELOW;
  if (marginDb < law.atOnePercentDb) return ABOVE;
  const { C2, C3 } = law;
  const ratio = Math.log10(marginDb / (law.A001Db * law.C1));
  // The discriminant is that of the law's own maximum, which lies below 0.0001 %; rounding at the ends aside, > 0.
  const logP = (-C2 + Math.sqrt(C2 * C2 - 4 * C3 * ratio)) / (2 * C3);
  return { timePercent: Math.min(Math.max(10 ** logP, LEAST_RAIN_PERCENT), GREATEST_RAIN_PERCENT) };
}

export interface RainInputs {
  /** Rain rate exceeded for 0.01 % of the average year, one-minute values, mm/h, >= 0. */
  readonly rainRate001MmH: number;
  /** Coefficients of Rec. ITU-R P.838-3 for the frequency and polarization: gamma = k R^alpha, dB/km. */
  readonly kCoefficient: number;
  readonly alpha: number;
  readonly distanceM: number;
  readonly frequencyGHz: number;
}

export interface RainSteps {
  readonly gammaRDbPerKm: number;
  /** Denominator of r. */
  readonly denominator: number;
  /** Distance factor, at most 2.5. */
  readonly r: number;
  readonly deffKm: number;
  readonly A001Db: number;
  readonly C0: number;
  readonly C1: number;
  readonly C2: number;
  readonly C3: number;
}

/**
 * The rain law of a path: attenuation exceeded for 0.01 % and the distribution for the functions above.
 *
 * @see Rec. ITU-R P.530-18 section 2.4.1. Verified. Up to 60 km, 1 to 100 GHz.
 */
export function rainLaw(
  inputs: RainInputs,
): Outcome<{ readonly attenuation001Db: number; readonly law: RainDistribution; readonly steps: RainSteps }> {
  const { rainRate001MmH, kCoefficient, alpha, distanceM, frequencyGHz } = inputs;
  const unusable =
    negative({ rainRate001MmH, kCoefficient, distanceM }) ?? notPositive({ alpha, frequencyGHz });
  if (unusable) return refuse(unusable);
  const d = distanceM / 1000;
  const gammaRDbPerKm = kCoefficient * rainRate001MmH ** alpha;
  const denominator =
    0.477 * d ** 0.633 * rainRate001MmH ** (0.073 * alpha) * frequencyGHz ** 0.123 -
    10.579 * (1 - Math.exp(-0.024 * d));
  const r = denominator <= 0.4 ? 2.5 : 1 / denominator;
  const deffKm = d * r;
  const A001Db = gammaRDbPerKm * deffKm;
  const law = rainDistribution(A001Db, frequencyGHz);
  const { C0, C1, C2, C3 } = law;
  const steps = { gammaRDbPerKm, denominator, r, deffKm, A001Db, C0, C1, C2, C3 };
  return figures({ attenuation001Db: A001Db, law, steps }, [
    rangeNote(d, 0, 60, "Path length", "km"),
    rangeNote(frequencyGHz, 1, 100, "Frequency", "GHz"),
  ]);
}

/**
 * Attenuation exceeded for a share of the average year.
 *
 * @param inputs.timePercent 0.001..1 %; refused outside
 * @see Rec. ITU-R P.530-18 section 2.4.1. Verified.
 */
export function rainAttenuationExceeded(
  inputs: RainInputs & { readonly timePercent: number },
): Outcome<{ readonly attenuationDb: number; readonly steps: RainSteps }> {
  const { timePercent } = inputs;
  const unusable = outside({ timePercent }, LEAST_RAIN_PERCENT, GREATEST_RAIN_PERCENT);
  if (unusable) return refuse(unusable);
  const path = rainLaw(inputs);
  if (!path.ok) return path;
  return figures(
    { attenuationDb: rainAttenuationDb(path.law, timePercent), steps: path.steps },
    path.validity,
  );
}

/**
 * Share of the average year in which rain takes more than a margin (also section 2.4.7: outage Prain).
 *
 * @returns time: a share, or a bound outside 0.001..1 %
 * @see Rec. ITU-R P.530-18 section 2.4.1, solved for the share. Verified.
 */
export function rainExceeded(
  inputs: RainInputs & { readonly marginDb: number },
): Outcome<{ readonly time: TimeShare; readonly steps: RainSteps }> {
  const { marginDb } = inputs;
  if (!Number.isFinite(marginDb)) return refuse(`marginDb must be a finite number, is ${marginDb}.`);
  const path = rainLaw(inputs);
  if (!path.ok) return path;
  return figures({ time: rainTimeForMargin(path.law, marginDb), steps: path.steps }, path.validity);
}
