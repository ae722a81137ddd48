import type { MethodReference } from "../method.js";
import { figures, negative, type Outcome } from "../outcome.js";
import type { RefusalReason } from "../remark.js";

export const METHOD: MethodReference = {
  recommendation: "ITU-R P.530-18",
  section: "2.3.2",
  title: "Multipath fading at all depths, average worst month",
  status: "verified",
  note: "Read in three implementations that agree; equal to attachment B.4 of P.2001.",
  checked: {
    by: "two independent computations of each step; two public implementations run",
    vectors: ["distribution-all-percentages"],
    tolerance: "1e-6 of each value (ten digits given)",
  },
};

/** Above this the interpolation loses its meaning. */
const HIGHEST_DISTRIBUTION_PERCENT = 2000;

/**
 * A distribution of fade depths, prepared once a hop and asked for each margin.
 * Worst month: timeFactor 1. Average year (section 2.3.4): timeFactor 10^(-dG/10).
 */
export interface FadeDistribution {
  readonly p0Percent: number;
  readonly timeFactor: number;
  /** Depth from which the straight tail holds, dB; 0 when it holds everywhere. */
  readonly AtDb: number;
  /** Share of time in which At is exceeded, percent. */
  readonly ptPercent: number;
  readonly qaPrime: number;
  readonly qt: number;
}

/**
 * Prepares the distribution for an occurrence factor. Lean: no checks.
 *
 *     At = 25 + 1.2 log p0                                                              dB
 *     pt = p0 10^(-At/10)                                                               %
 *     qa' = -20 log(-ln((100 - pt)/100))/At
 *     qt = (qa' - 2)/[(1 + 0.3 10^(-At/20)) 10^(-0.016 At)] - 4.3 (10^(-At/20) + At/800)
 *
 * In the average year pt is multiplied by `timeFactor` and At stays that of the worst month.
 * @param p0Percent p0, multipath occurrence factor of the worst month, 0..2000 %
 * @param timeFactor share of the year per share of the worst month, > 0
 * @see Rec. ITU-R P.530-18 section 2.3.2. Verified.
 */
export function fadeDistribution(p0Percent: number, timeFactor = 1): FadeDistribution {
  const AtDb = p0Percent > 0 ? 25 + 1.2 * Math.log10(p0Percent) : 0;
  // Below p0 of 1e-20 % the transition depth is no longer positive: nothing but the tail is left.
  if (AtDb <= 0)
    return { p0Percent, timeFactor, AtDb: 0, ptPercent: timeFactor * p0Percent, qaPrime: 0, qt: 0 };
  const ptPercent = timeFactor * p0Percent * 10 ** (-AtDb / 10);
  // log1p and expm1 keep the digits of shares that vanish beside 100 %.
  const qaPrime = (-20 * Math.log10(-Math.log1p(-ptPercent / 100))) / AtDb;
  const qt = (qaPrime - 2) / bend(AtDb) - 4.3 * (10 ** (-AtDb / 20) + AtDb / 800);
  return { p0Percent, timeFactor, AtDb, ptPercent, qaPrime, qt };
}

/**
 * Share pw of time in which a fade depth A is exceeded, percent. Lean: no checks, no allocation.
 *
 *     A >= At, deep:     pw = p0 10^(-A/10)
 *     A < At, shallow:   qa = 2 + (1 + 0.3 10^(-A/20)) 10^(-0.016 A) (qt + 4.3 (10^(-A/20) + A/800))
 *                        pw = 100 (1 - exp(-10^(-qa A/20)))
 *
 * Both meet at At.
 * @param depthDb A, >= 0. At 0 the distribution says 63.2 %; below, the level is certainly exceeded: 100.
 * @see Rec. ITU-R P.530-18 section 2.3.2. Verified.
 */
export function fadeExceededPercent(distribution: FadeDistribution, depthDb: number): number {
  if (!(depthDb >= 0)) return 100;
  if (depthDb >= distribution.AtDb) {
    return distribution.timeFactor * distribution.p0Percent * 10 ** (-depthDb / 10);
  }
  return -100 * Math.expm1(-(10 ** ((-shallowQa(distribution, depthDb) * depthDb) / 20)));
}

export interface FadeSteps {
  readonly p0Percent: number;
  readonly AtDb: number;
  readonly branch: "shallow" | "deep";
  readonly ptPercent: number;
  readonly qaPrime?: number;
  readonly qt?: number;
  readonly qa?: number;
}

/**
 * The steps of one point of a prepared distribution, as in `fadeExceededPercent`.
 * @see Rec. ITU-R P.530-18 section 2.3.2. Verified; shallow fades are stated for p0 from 0.01 to 1000 %.
 */
export function explainFade(
  distribution: FadeDistribution,
  depthDb: number,
): Outcome<{ readonly timePercent: number; readonly steps: FadeSteps }> {
  const { p0Percent, AtDb, ptPercent, qaPrime, qt } = distribution;
  const timePercent = fadeExceededPercent(distribution, depthDb);
  if (depthDb >= AtDb) return figures({ timePercent, steps: { p0Percent, AtDb, branch: "deep", ptPercent } });
  const qa = shallowQa(distribution, depthDb);
  return figures({ timePercent, steps: { p0Percent, AtDb, branch: "shallow", ptPercent, qaPrime, qt, qa } }, [
    p0Percent < 0.01 || p0Percent > 1000 ? { code: "interpolation-outside-occurrence" } : undefined,
  ]);
}

/** Why an occurrence factor cannot be used, or undefined. */
export function checkOccurrence(occurrencePercent: number): RefusalReason | undefined {
  if (occurrencePercent > HIGHEST_DISTRIBUTION_PERCENT) {
    return { code: "occurrence-too-high" };
  }
  return negative({ occurrencePercent });
}

function shallowQa(distribution: FadeDistribution, depthDb: number): number {
  return 2 + bend(depthDb) * (distribution.qt + 4.3 * (10 ** (-depthDb / 20) + depthDb / 800));
}

function bend(depthDb: number): number {
  return (1 + 0.3 * 10 ** (-depthDb / 20)) * 10 ** (-0.016 * depthDb);
}
