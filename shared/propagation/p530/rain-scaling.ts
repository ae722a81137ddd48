import { SECONDS_A_YEAR } from "../../units/year.js";
import type { MethodReference } from "../method.js";
import { figures, negative, type Outcome, outside, outsideRange, refuse } from "../outcome.js";

export const METHOD_FREQUENCY: MethodReference = {
  recommendation: "ITU-R P.530-18",
  section: "2.4.3",
  title: "Rain attenuation scaled with frequency",
  status: "read in implementations",
  note: "Read in one implementation. Same path, same polarization, same climate, 7 to 50 GHz; a rough estimate.",
  checked: {
    by: "two independent computations of each step; one public implementation run",
    vectors: ["rain-scaling"],
    tolerance: "1e-6 of each value (ten digits given)",
  },
};

export const METHOD_POLARIZATION: MethodReference = {
  recommendation: "ITU-R P.530-18",
  section: "2.4.4",
  title: "Rain attenuation scaled with polarization",
  status: "from memory",
  note: "From memory, not checked against the Recommendation; the two directions are each other's inverse.",
  checked: {
    by: "two independent computations of each step; each the inverse of the other",
    vectors: ["rain-scaling"],
    tolerance: "1e-6 of each value (ten digits given)",
  },
};

export const METHOD_EVENTS: MethodReference = {
  recommendation: "ITU-R P.530-18",
  section: "2.4.5",
  title: "Number of rain events of 10 s or longer",
  status: "read in implementations",
  note: "The number of events read in one implementation; the mean duration is derived, from memory.",
  usedByNoFigure: true,
  checked: {
    by: "two independent computations of each step",
    vectors: ["rain-scaling"],
    tolerance: "1e-6 of each value (ten digits given)",
  },
};

/**
 * Rain attenuation A2 at another frequency for the same share of time.
 *
 *     Phi(f) = f^2/(1 + 1e-4 f^2)                                 f in GHz
 *     H = 1.12e-3 (Phi2/Phi1)^0.5 (Phi1 A1)^0.55
 *     A2 = A1 (Phi2/Phi1)^(1 - H)
 *
 * @see Rec. ITU-R P.530-18 section 2.4.3. Read in one implementation. 7 to 50 GHz.
 */
export function scaleRainFrequency(inputs: {
  readonly fromHz: number;
  readonly attenuationDb: number;
  readonly toHz: number;
}): Outcome<{
  readonly attenuationDb: number;
  readonly steps: { readonly Phi1: number; readonly Phi2: number; readonly H: number };
}> {
  const { fromHz, attenuationDb, toHz } = inputs;
  const unusable = negative({ attenuationDb }) ?? outside({ fromHz, toHz }, 1e9, 1000e9);
  if (unusable) return refuse(unusable);
  const Phi1 = phi(fromHz / 1e9);
  const Phi2 = phi(toHz / 1e9);
  const H = 1.12e-3 * Math.sqrt(Phi2 / Phi1) * (Phi1 * attenuationDb) ** 0.55;
  return figures({ attenuationDb: attenuationDb * (Phi2 / Phi1) ** (1 - H), steps: { Phi1, Phi2, H } }, [
    outsideRange(fromHz / 1e9, 7, 50, "frequency", "GHz"),
    outsideRange(toHz / 1e9, 7, 50, "frequency", "GHz"),
  ]);
}

/**
 * Vertical from horizontal polarization, `AV = 300 AH/(335 + AH)`, dB.
 * @see Rec. ITU-R P.530-18 section 2.4.4. From memory, not checked against the Recommendation.
 */
export function verticalFromHorizontal(inputs: {
  readonly attenuationDb: number;
}): Outcome<{ readonly attenuationDb: number }> {
  const { attenuationDb } = inputs;
  const unusable = negative({ attenuationDb });
  if (unusable) return refuse(unusable);
  return figures({ attenuationDb: (300 * attenuationDb) / (335 + attenuationDb) });
}

/**
 * Horizontal from vertical polarization, `AH = 335 AV/(300 - AV)`, dB; refused from 300 dB, which no horizontal
 * attenuation answers to.
 * @see Rec. ITU-R P.530-18 section 2.4.4. From memory, not checked against the Recommendation.
 */
export function horizontalFromVertical(inputs: {
  readonly attenuationDb: number;
}): Outcome<{ readonly attenuationDb: number }> {
  const { attenuationDb } = inputs;
  const unusable = negative({ attenuationDb });
  if (unusable) return refuse(unusable);
  if (attenuationDb >= 300) return refuse({ code: "attenuation-too-high" });
  return figures({ attenuationDb: (335 * attenuationDb) / (300 - attenuationDb) });
}

/**
 * Number of events of 10 s or longer in which the attenuation of that share of time is exceeded.
 *
 *     N10s = 1 + 1313 p^0.945    a year; mean duration p/100 of a year's seconds/N10s
 *
 * @param inputs.timePercent p, share of the average year, 0..100 %
 * @see Rec. ITU-R P.530-18 section 2.4.5. Read in one implementation; the mean duration from memory.
 * @nofigure
 */
export function rainEvents(inputs: {
  readonly timePercent: number;
}): Outcome<{ readonly eventsPerYear: number; readonly meanDurationS: number }> {
  const { timePercent } = inputs;
  const unusable = outside({ timePercent }, 0, 100);
  if (unusable) return refuse(unusable);
  const eventsPerYear = 1 + 1313 * timePercent ** 0.945;
  return figures({ eventsPerYear, meanDurationS: ((timePercent / 100) * SECONDS_A_YEAR) / eventsPerYear });
}

function phi(f: number): number {
  return f ** 2 / (1 + 1e-4 * f ** 2);
}
