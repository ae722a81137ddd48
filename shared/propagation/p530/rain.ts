import type { MethodReference } from "../method.js";
import {
  figures,
  negative,
  notPositive,
  type Outcome,
  outsideRange,
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
    "(at most 4.2 % lower at 1 %, no change at 0.01 %). Stated for 0.001 to 1 % of the year. Below, the law is continued " +
    "in its own form down to its greatest attenuation, beyond which rain counts as nothing: an estimate outside the range, " +
    "named at each figure with the bound of 0.001 % beside it. Above 1 % there is a bound alone.",
  checked: {
    by: "two independent computations of each step; two public implementations run",
    vectors: ["rain"],
    tolerance: "1e-6 of each value (ten digits given)",
  },
};

/** Range of the law in percent of the average year. */
export const LEAST_RAIN_PERCENT = 0.001;
export const GREATEST_RAIN_PERCENT = 1;

/**
 * What is made of outage that is rarer than the law's range: `estimate` continues the law in its own form and gives
 * the bound beside it, `bound` gives no more than the Recommendation does.
 */
export type RareOutage = "estimate" | "bound";

export const RARER_THAN_RANGE: TimeShare = { timePercent: LEAST_RAIN_PERCENT, bound: "at most" };
export const MORE_THAN_RANGE: TimeShare = { timePercent: GREATEST_RAIN_PERCENT, bound: "at least" };
/** A place without rain: a figure, no bound. */
export const NO_RAIN: TimeShare = { timePercent: 0 };

/** An estimate below the range, never above what the range ends with. */
export function belowRange(timePercent: number): TimeShare {
  return { timePercent: Math.min(timePercent, LEAST_RAIN_PERCENT), atMostPercent: LEAST_RAIN_PERCENT };
}

/** The law of attenuation over share of time, prepared once a hop and frequency and asked for each margin. */
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
  /** The most that the law gives at any share of time, dB: A0.01 C1 10^(C2^2/(4 C3)), at log p = -C2/(2 C3). */
  readonly greatestDb: number;
}

/**
 * Prepares the law from the attenuation exceeded for 0.01 %. Lean: no checks.
 *
 *     C0 = 0.12 + 0.4 log((f/10)^0.8) for f >= 10 GHz, else 0.12
 *     C1 = 0.07^C0 0.12^(1 - C0)
 *     C2 = 0.855 C0 + 0.546 (1 - C0)
 *     C3 = 0.139 C0 + 0.043 (1 - C0)
 *
 * C1 makes the law give 0.2 % less than A0.01 at 0.01 %, for any C0: that is the formula.
 * @see Rec. ITU-R P.530-18 section 2.4.1. Verified.
 */
export function rainDistribution(A001Db: number, frequencyHz: number): RainDistribution {
  const f = frequencyHz / 1e9;
  const C0 = f >= 10 ? 0.12 + 0.4 * 0.8 * Math.log10(f / 10) : 0.12;
  const C1 = 0.07 ** C0 * 0.12 ** (1 - C0);
  const C2 = 0.855 * C0 + 0.546 * (1 - C0);
  const C3 = 0.139 * C0 + 0.043 * (1 - C0);
  const atOnePercentDb = A001Db * C1;
  return {
    A001Db,
    C0,
    C1,
    C2,
    C3,
    atOnePercentDb,
    atThousandthPercentDb: atOnePercentDb * 10 ** (3 * C2 - 9 * C3),
    greatestDb: atOnePercentDb * 10 ** (C2 ** 2 / (4 * C3)),
  };
}

/**
 * Attenuation exceeded for a share p of the average year, dB, of log p with p in percent. Lean: no checks; the caller
 * keeps to 0.001..1 % (section 2.4.2 alone goes above, as its table starts at the probability of rain).
 *
 *     Ap = A0.01 C1 p^-(C2 + C3 log p)
 *
 * @see Rec. ITU-R P.530-18 section 2.4.1. Verified.
 */
export function rainAttenuationAtLog(law: RainDistribution, logP: number): number {
  return law.A001Db * law.C1 * 10 ** (-(law.C2 + law.C3 * logP) * logP);
}

/**
 * Share of the average year in which rain takes more than a margin. Lean: no checks. Above 1 % a bound; below 0.001 %
 * an estimate or a bound, as asked. A hop without margin (<= 0 dB) gets `at least 1 %`.
 * @see Rec. ITU-R P.530-18 section 2.4.1, the law of `rainAttenuationAtLog` solved by `percentByLaw`
 */
export function rainTimeForMargin(law: RainDistribution, marginDb: number, rare: RareOutage): TimeShare {
  if (!(marginDb > 0)) return MORE_THAN_RANGE;
  if (!(law.A001Db > 0)) return NO_RAIN;
  if (marginDb > law.atThousandthPercentDb)
    return rare === "bound" ? RARER_THAN_RANGE : belowRange(percentByLaw(law, marginDb));
  if (marginDb < law.atOnePercentDb) return MORE_THAN_RANGE;
  const percent = percentByLaw(law, marginDb);
  return { timePercent: Math.min(Math.max(percent, LEAST_RAIN_PERCENT), GREATEST_RAIN_PERCENT) };
}

/**
 * The law solved for the share of time.
 *
 *     C3 x^2 + C2 x + log(A/(A0.01 C1)) = 0,   x = log p
 *     x = (-C2 + sqrt(C2^2 - 4 C3 log(A/(A0.01 C1))))/(2 C3)
 *
 * In percent; 0 for more than its greatest attenuation, which it reaches between
 * 0.0001 and 0.000004 % of the year. Lean: no checks, knows no range.
 * @see Rec. ITU-R P.530-18 section 2.4.1. The inverse is algebra, confirmed by computation.
 */
export function percentByLaw(law: RainDistribution, attenuationDb: number): number {
  if (attenuationDb > law.greatestDb) return 0;
  const { C2, C3, atOnePercentDb } = law;
  const discriminant = C2 * C2 - 4 * C3 * Math.log10(attenuationDb / atOnePercentDb);
  // That of the greatest attenuation is 0, but for rounding.
  return 10 ** ((-C2 + Math.sqrt(Math.max(discriminant, 0))) / (2 * C3));
}

export interface RainInputs {
  /** Rain rate exceeded for 0.01 % of the average year, one-minute values, mm/h, >= 0. */
  readonly rainRate001MmH: number;
  /** Coefficients of Rec. ITU-R P.838-3 for the frequency and polarization: gamma = k R^alpha, dB/km. */
  readonly kCoefficient: number;
  readonly alpha: number;
  readonly distanceM: number;
  readonly frequencyHz: number;
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
 *     gR = k R0.01^alpha                                                                              dB/km
 *     r = 1/(0.477 d^0.633 R0.01^(0.073 alpha) f^0.123 - 10.579 (1 - exp(-0.024 d)))
 *     deff = d r,   A0.01 = gR deff                                                                   km, dB
 *
 * d in km, f in GHz, R0.01 in mm/h. r is 2.5 where the denominator is 0.4 or less; above 1, on short paths, it is in
 * order.
 * @see Rec. ITU-R P.530-18 section 2.4.1. Verified. Up to 60 km, 1 to 100 GHz.
 */
export function rainLaw(
  inputs: RainInputs,
): Outcome<{ readonly attenuation001Db: number; readonly law: RainDistribution; readonly steps: RainSteps }> {
  const { rainRate001MmH, kCoefficient, alpha, distanceM, frequencyHz } = inputs;
  const unusable =
    negative({ rainRate001MmH, kCoefficient, distanceM }) ?? notPositive({ alpha, frequencyHz });
  if (unusable) return refuse(unusable);
  const d = distanceM / 1000;
  const gammaRDbPerKm = kCoefficient * rainRate001MmH ** alpha;
  const denominator =
    0.477 * d ** 0.633 * rainRate001MmH ** (0.073 * alpha) * (frequencyHz / 1e9) ** 0.123 -
    10.579 * (1 - Math.exp(-0.024 * d));
  const r = denominator <= 0.4 ? 2.5 : 1 / denominator;
  const deffKm = d * r;
  const A001Db = gammaRDbPerKm * deffKm;
  const law = rainDistribution(A001Db, frequencyHz);
  const { C0, C1, C2, C3 } = law;
  const steps = { gammaRDbPerKm, denominator, r, deffKm, A001Db, C0, C1, C2, C3 };
  return figures({ attenuation001Db: A001Db, law, steps }, [
    outsideRange(d, 0, 60, "path length", "km"),
    outsideRange(frequencyHz / 1e9, 1, 100, "frequency", "GHz"),
  ]);
}
