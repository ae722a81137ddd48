import type { MethodReference } from "../method.js";
import { figures, negative, notPositive, type Outcome, outside, refuse } from "../outcome.js";
import { type FadeDistribution, fadeDistribution } from "./fade-distribution.js";

export const METHOD: MethodReference = {
  recommendation: "ITU-R P.530-18",
  section: "2.3.4",
  title: "Average worst month to average year, multipath",
  status: "verified",
  note:
    "The conversion factor is limited from above (at most 10.8 dB), as in the reference code of P.2001. " +
    "Two public implementations limit it from below instead, which makes annual outage too small.",
  checked: {
    by: "two independent computations of each step",
    vectors: ["annual-conversion"],
    tolerance: "1e-6 of each value (ten digits given)",
  },
};

export interface ConversionSteps {
  /** |cos 2 xi|^0.7 with xi the latitude. */
  readonly latitudeTerm: number;
  readonly sign: "plus" | "minus";
  readonly dGUncappedDb: number;
  readonly dGDb: number;
}

/**
 * Logarithmic conversion factor from the average worst month to the average year.
 *
 *     dG = 10.5 - 5.6 log(1.1 +- |cos 2 xi|^0.7) - 2.7 log d + 1.7 log(1 + ep)    dB, at most 10.8
 *     p = 10^(-dG/10) pw
 *
 * xi is the latitude without its sign, plus stands up to 45 degrees and minus above; d in km, ep in mrad. Negative
 * where the year would fade more than its worst month, which is said.
 * @param inputs.latitudeDeg -90..90; the hemisphere does not matter
 * @param inputs.inclinationMrad path inclination |ep|, >= 0
 * @returns conversionDb, at most 10.8
 * @see Rec. ITU-R P.530-18 section 2.3.4. Verified.
 */
export function annualConversion(inputs: {
  readonly latitudeDeg: number;
  readonly distanceM: number;
  readonly inclinationMrad: number;
}): Outcome<{ readonly conversionDb: number; readonly steps: ConversionSteps }> {
  const { latitudeDeg, distanceM, inclinationMrad } = inputs;
  const unusable =
    outside({ latitudeDeg }, -90, 90) ?? notPositive({ distanceM }) ?? negative({ inclinationMrad });
  if (unusable) return refuse(unusable);
  const xiDeg = Math.abs(latitudeDeg);
  const latitudeTerm = Math.abs(Math.cos((2 * xiDeg * Math.PI) / 180)) ** 0.7;
  const sign = xiDeg <= 45 ? "plus" : "minus";
  const dGUncappedDb =
    10.5 -
    5.6 * Math.log10(1.1 + (sign === "plus" ? latitudeTerm : -latitudeTerm)) -
    2.7 * Math.log10(distanceM / 1000) +
    1.7 * Math.log10(1 + inclinationMrad);
  const dGDb = Math.min(dGUncappedDb, 10.8);
  return figures({ conversionDb: dGDb, steps: { latitudeTerm, sign, dGUncappedDb, dGDb } }, [
    dGDb < 0 ? { code: "conversion-negative" } : undefined,
  ]);
}

/**
 * The distribution of fades in the average year, for the lean functions of section 2.3.2. No checks.
 *
 *     deep:     p = 10^(-dG/10) p0 10^(-A/10)
 *     shallow:  pt = 10^(-dG/10) p0 10^(-At/10), all else as for the worst month, At from its p0
 *
 * Both meet at At.
 * @param conversionDb dG
 * @see Rec. ITU-R P.530-18 section 2.3.4 with 2.3.2. Verified.
 */
export function annualFadeDistribution(p0Percent: number, conversionDb: number): FadeDistribution {
  return fadeDistribution(p0Percent, 10 ** (-conversionDb / 10));
}
