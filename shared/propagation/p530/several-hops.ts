import type { MethodReference } from "../method.js";
import { figures, negative, type Outcome, outside, refuse } from "../outcome.js";

export const METHOD: MethodReference = {
  recommendation: "ITU-R P.530-18",
  section: "2.3.7",
  title: "Multipath outage of several hops in series",
  status: "from memory",
  note:
    "From memory, not checked against the Recommendation; between 10 and 20 dB the exponent is taken as linear. " +
    "Not for rain: add the rain outages of the hops, which is pessimistic.",
  checked: {
    by: "limits and properties",
    tolerance: "exact",
  },
};

/**
 * Exponent C of the joint outage of neighbouring hops.
 *
 *     P12 = (P1 P2)^C,   C = 0.8 up to 10 dB of fading, 1 (independent) from 20 dB
 *
 * In between it rises, linearly by our own choice: C = 0.8 + 0.02 (A - 10) at a fade depth A.
 * @see Rec. ITU-R P.530-18 section 2.3.7. From memory, not checked against the Recommendation.
 */
export function correlationExponent(fadeDepthDb: number): number {
  if (!(fadeDepthDb > 10)) return 0.8;
  return fadeDepthDb >= 20 ? 1 : 0.8 + 0.02 * (fadeDepthDb - 10);
}

export interface HopOutage {
  /** 0..1. */
  readonly outageFraction: number;
  /** Flat fade margin of the hop, dB. */
  readonly fadeMarginDb: number;
}

/**
 * Multipath outage of hops in series.
 *
 *     PT = sum_i P_i - sum_i (P_i P_{i+1})^C
 *
 * C from the smaller margin of each pair. The joint outage of a pair is never taken above the smaller of both.
 * @see Rec. ITU-R P.530-18 section 2.3.7. From memory, not checked against the Recommendation.
 */
export function seriesMultipathOutage(hops: readonly HopOutage[]): Outcome<{
  readonly outageFraction: number;
  readonly steps: { readonly sum: number; readonly joint: readonly number[] };
}> {
  for (const { outageFraction, fadeMarginDb } of hops) {
    const unusable = outside({ outageFraction }, 0, 1) ?? negative({ fadeMarginDb });
    if (unusable) return refuse(unusable);
  }
  const sum = hops.reduce((total, hop) => total + hop.outageFraction, 0);
  let limited = false;
  const joint = hops.slice(1).map((hop, index) => {
    const before = hops[index]!;
    const exponent = correlationExponent(Math.min(before.fadeMarginDb, hop.fadeMarginDb));
    const formula = (before.outageFraction * hop.outageFraction) ** exponent;
    const least = Math.min(before.outageFraction, hop.outageFraction);
    if (formula > least) limited = true;
    return Math.min(formula, least);
  });
  const outageFraction = sum - joint.reduce((total, pair) => total + pair, 0);
  if (outageFraction > 1) return refuse({ code: "outages-too-large" });
  return figures({ outageFraction, steps: { sum, joint } }, [
    limited ? { code: "correlation-limited" } : undefined,
  ]);
}
