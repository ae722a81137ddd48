import type { MethodReference } from "../method.js";
import { figures, negative, notFinite, type Outcome, refuse } from "../outcome.js";
import { checkOccurrence } from "./fade-distribution.js";

export const METHOD: MethodReference = {
  recommendation: "ITU-R P.530-18",
  section: "2.3.3",
  title: "Enhancement of the received level",
  status: "verified",
  note: "Read in two implementations that agree. The two ranges do not quite meet at 10 dB (up to 3 % apart).",
  checked: {
    by: "two independent computations of each step",
    vectors: ["enhancement"],
    tolerance: "1e-6 of each value (ten digits given)",
  },
};

export interface EnhancementSteps {
  /** Fade depth exceeded for 0.01 % of the same period, from the deep tail, dB. */
  readonly A001Db: number;
  readonly branch: "none" | "0 to 10 dB" | "above 10 dB";
  /** Share of time in which an enhancement of 10 dB is not exceeded, percent. */
  readonly pwPrimePercent?: number;
  readonly qePrime?: number;
  readonly qs?: number;
  readonly qe?: number;
}

/**
 * Share of time in which the level rises above its normal value by more than an amount E. pw is the share in which it
 * does not, %, E and A0.01 in dB:
 *
 *     A0.01 = 10 log(p0/0.01), in the average year 10 log(p0/(0.01 10^(dG/10)))
 *     E > 10:        pw = 100 - 10^((-1.7 + 0.2 A0.01 - E)/3.5)
 *     0 <= E <= 10:  pw' = the same at E' = 10
 *                    qe' = -(20/E') log(-ln(1 - (100 - pw')/58.21))
 *                    qs = 2.05 qe' - 20.3
 *                    qe = 8 + (1 + 0.3 10^(-E/20)) 10^(-0.7 E/20) (qs + 12 (10^(-E/20) + E/800))
 *                    pw = 100 - 58.21 (1 - exp(-10^(-qe E/20)))
 *
 * @param inputs.occurrencePercent p0 of the worst month, 0..2000 %
 * @param inputs.enhancementDb E >= 0
 * @param inputs.conversionDb dG of section 2.3.4 for the average year; absent: the worst month
 * @returns exceededPercent; 0 where A0.01 is not positive: the method then says nothing of enhancement
 * @see Rec. ITU-R P.530-18 section 2.3.3 (year: 2.3.4). Verified.
 */
export function enhancementExceeded(inputs: {
  readonly occurrencePercent: number;
  readonly enhancementDb: number;
  readonly conversionDb?: number;
}): Outcome<{
  readonly exceededPercent: number;
  readonly notExceededPercent: number;
  readonly steps: EnhancementSteps;
}> {
  const { occurrencePercent, enhancementDb, conversionDb = 0 } = inputs;
  const unusable =
    checkOccurrence(occurrencePercent) ?? negative({ enhancementDb }) ?? notFinite({ conversionDb });
  if (unusable) return refuse(unusable);
  const A001Db = occurrencePercent > 0 ? 10 * Math.log10(occurrencePercent / 0.01) - conversionDb : 0;
  if (A001Db <= 0) {
    return figures(
      { exceededPercent: 0, notExceededPercent: 100, steps: { A001Db, branch: "none" as const } },
      [{ code: "no-enhancement-known" }],
    );
  }
  if (enhancementDb > 10) {
    return answer(highExceededPercent(A001Db, enhancementDb), { A001Db, branch: "above 10 dB" });
  }
  const primePercent = highExceededPercent(A001Db, 10);
  // E' = 10 dB, so 20/E' is 2.
  const qePrime = -2 * Math.log10(-Math.log1p(-primePercent / 58.21));
  const qs = 2.05 * qePrime - 20.3;
  const fall = 10 ** (-enhancementDb / 20);
  const qe =
    8 + (1 + 0.3 * fall) * 10 ** ((-0.7 * enhancementDb) / 20) * (qs + 12 * (fall + enhancementDb / 800));
  const exceeded = -58.21 * Math.expm1(-(10 ** ((-qe * enhancementDb) / 20)));
  return answer(exceeded, {
    A001Db,
    branch: "0 to 10 dB",
    pwPrimePercent: 100 - primePercent,
    qePrime,
    qs,
    qe,
  });
}

function highExceededPercent(A001Db: number, enhancementDb: number): number {
  return 10 ** ((-1.7 + 0.2 * A001Db - enhancementDb) / 3.5);
}

function answer(exceededPercent: number, steps: EnhancementSteps) {
  return figures({ exceededPercent, notExceededPercent: 100 - exceededPercent, steps });
}
