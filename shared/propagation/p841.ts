import type { MethodReference } from "./method.js";
import { type Outcome, outside, refuse, soundFigures } from "./outcome.js";
import type { RefusalReason } from "./remark.js";

export const METHOD: MethodReference = {
  recommendation: "ITU-R P.841",
  section: "Annex 1",
  title: "Annual to worst-month statistics, rain",
  status: "from memory",
  note:
    "From memory, not checked against the Recommendation. All branches meet, Q is 1 at 100 % and the published inverse follows. " +
    "The global planning values are Q1 = 2.85 and beta = 0.13.",
  checked: {
    by: "two independent computations of each step; branches meet, published inverse follows",
    vectors: ["worst-month-rain-p841"],
    tolerance: "1e-6 of each value (ten digits given)",
  },
};

/** Regional values belong in the design; these are the global ones for planning. */
const GLOBAL_PLANNING = { q1: 2.85, beta: 0.13 } as const;

export interface P841Parameters {
  /** Q at 1 % of the year, Q1. */
  readonly q1?: number;
  /** Slope, 0 < beta < 1. */
  readonly beta?: number;
}

export interface P841Steps {
  /** Ratio of worst month to average year, 1..12. */
  readonly Q: number;
  readonly branch: 1 | 2 | 3 | 4;
}

/**
 * Share pw of the average worst month from the share p of the average year in which the same is exceeded, both in %.
 *
 *     pw = Q p
 *     Q = 12                                                   p < (Q1/12)^(1/beta)
 *     Q = Q1 p^-beta                                           (Q1/12)^(1/beta) <= p <= 3
 *     Q = Q1 3^-beta                                           3 < p <= 30
 *     Q = Q1 3^-beta (p/30)^(log(Q1 3^-beta)/log 0.3)          30 < p <= 100
 *
 * The planning values make the first branch end at 1.6e-5 %.
 * @param inputs.annualPercent p, 0..100 %
 * @see Rec. ITU-R P.841 Annex 1. From memory, not checked against the Recommendation.
 */
export function worstMonthFromAnnual(
  inputs: P841Parameters & { readonly annualPercent: number },
): Outcome<{ readonly worstMonthPercent: number; readonly steps: P841Steps }> {
  const { annualPercent } = inputs;
  const law = prepare(inputs);
  const unusable = outside({ annualPercent }, 0, 100);
  if (unusable ?? law.unusable) return refuse((unusable ?? law.unusable)!);
  const steps = qAt(law, annualPercent);
  // Q is 1 at 100 % but for rounding, and 12 at most.
  return soundFigures({ worstMonthPercent: Math.min(steps.Q * annualPercent, 100), steps });
}

/**
 * The same for a share that is known to lie in 0..100 %. Lean; undefined where the parameters are refused.
 * @see Rec. ITU-R P.841 Annex 1, `pw = Q p` with Q as in `worstMonthFromAnnual`
 */
export function worstMonthPercent(annualPercent: number, parameters: P841Parameters): number | undefined {
  const law = prepare(parameters);
  if (law.unusable !== undefined) return undefined;
  return Math.min(ratioAt(law, annualPercent) * annualPercent, 100);
}

interface Law {
  readonly q1: number;
  readonly beta: number;
  /** End of the first branch, percent of the year. */
  readonly first: number;
  /** Q from 3 to 30 %, Q1 3^-beta. */
  readonly flat: number;
  /** Exponent of the last branch. */
  readonly fall: number;
  readonly unusable: RefusalReason | undefined;
}

/** The law prepared last: a network asks with one pair of parameters thousands of times. */
let last: Law | undefined;

function prepare({ q1 = GLOBAL_PLANNING.q1, beta = GLOBAL_PLANNING.beta }: P841Parameters): Law {
  if (last !== undefined && last.q1 === q1 && last.beta === beta) return last;
  const first = (q1 / 12) ** (1 / beta);
  const flat = q1 * 3 ** -beta;
  // Outside these the worst month would be better than the year, longer than itself, or the branches out of order.
  const sound = beta > 0 && beta < 1 && first <= 3 && flat >= 1 && flat < 10 / 3;
  const unusable = sound ? undefined : noWorstMonth(q1, beta);
  last = { q1, beta, first, flat, fall: Math.log10(flat) / Math.log10(0.3), unusable };
  return last;
}

function noWorstMonth(q1: number, beta: number): RefusalReason {
  // A result holds finite numbers only.
  return {
    code: "no-worst-month",
    ...(Number.isFinite(q1) && { q1 }),
    ...(Number.isFinite(beta) && { beta }),
  };
}

function qAt(law: Law, p: number): P841Steps {
  return { Q: ratioAt(law, p), branch: p < law.first || p === 0 ? 1 : p <= 3 ? 2 : p <= 30 ? 3 : 4 };
}

function ratioAt({ q1, beta, first, flat, fall }: Law, p: number): number {
  // The first branch may begin below what numbers reach, and none is never more than none.
  if (p < first || p === 0) return 12;
  if (p <= 3) return q1 * p ** -beta;
  return p <= 30 ? flat : flat * (p / 30) ** fall;
}
