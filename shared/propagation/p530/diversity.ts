import type { MethodReference } from "../method.js";
import {
  figures,
  notFinite,
  notPositive,
  type Outcome,
  outside,
  outsideRange,
  refuse,
  soundFigures,
} from "../outcome.js";
import type { RefusalReason, Remark } from "../remark.js";
import { checkOccurrence } from "./fade-distribution.js";

export const METHOD_SPACE: MethodReference = {
  recommendation: "ITU-R P.530-18",
  section: "6.2.4",
  title: "Improvement by space diversity",
  status: "from memory",
  note: "From memory, not checked against the Recommendation: the constants have no second source.",
  checked: {
    by: "two independent computations of each step of the remembered formula",
    vectors: ["selective-and-diversity"],
    tolerance: "1e-6 of each value (ten digits given)",
  },
};

export const METHOD_FREQUENCY: MethodReference = {
  recommendation: "ITU-R P.530-18",
  section: "6.2.5",
  title: "Improvement by frequency diversity",
  status: "from memory",
  note:
    "From memory, not checked against the Recommendation, and disputed: 80/(f^2 d), the conservative form used here, " +
    "against 80/(f d) as remembered of the print. They differ by the frequency in GHz.",
  checked: {
    by: "two independent computations of each step of the remembered formula",
    vectors: ["selective-and-diversity"],
    tolerance: "1e-6 of each value (ten digits given)",
  },
};

export const METHOD_OUTAGE: MethodReference = {
  recommendation: "ITU-R P.530-18",
  section: "6.2.6",
  title: "Outage with diversity, digital systems",
  status: "from memory",
  note:
    "From memory, not checked against the Recommendation; the branches of the fitted curves meet within 0.001. " +
    "Angle diversity is not implemented.",
  checked: {
    by: "two independent computations of each step of the remembered formula; the branches meet",
    vectors: ["selective-and-diversity"],
    tolerance: "1e-6 of each value (ten digits given)",
  },
};

/** The improvement I of a path, prepared once and asked for each margin. */
export interface DiversityImprovement {
  /** Above 0. */
  readonly factor: number;
}

/**
 * Improvement at a fade depth > 0 dB, the flat fade margin for outage: `I = factor 10^(A/10)`. Lean: no checks. Below 1
 * diversity does not help.
 * @see Rec. ITU-R P.530-18 section 6.2.4 and 6.2.5. From memory.
 */
export function improvementAt({ factor }: DiversityImprovement, fadeDepthDb: number): number {
  return factor * 10 ** (fadeDepthDb / 10);
}

/** What there is to say of an improvement: the methods are meant to help, that of frequency by 5 at least. */
export function improvementRemark(kind: "space" | "frequency", improvement: number): Remark | undefined {
  if (kind === "space") return improvement < 1 ? { code: "diversity-does-not-help" } : undefined;
  return improvement < 5 ? { code: "improvement-below-five" } : undefined;
}

/**
 * Narrow-band improvement by a second antenna above or below the first.
 *
 *     I = [1 - exp(-0.04 S^0.87 f^-0.12 d^0.48 p0^-1.04)] 10^((A - V)/10)    f in GHz, d in km, p0 in %
 *
 * @param inputs.spacingM S, vertical, centre to centre, > 0
 * @param inputs.gainDifferenceDb V = |G1 - G2|, difference of the two antennas' gains, either sign
 * @param inputs.occurrencePercent p0 of the worst month, > 0
 * @see Rec. ITU-R P.530-18 section 6.2.4. From memory, not checked against the Recommendation. Based on 43 to 240 km
 *   (reasonable from 25 km), 2 to 11 GHz, 3 to 23 m.
 */
export function spaceDiversityImprovement(inputs: {
  readonly spacingM: number;
  readonly frequencyHz: number;
  readonly distanceM: number;
  readonly gainDifferenceDb: number;
  readonly occurrencePercent: number;
}): Outcome<DiversityImprovement> {
  const { spacingM, frequencyHz, distanceM, gainDifferenceDb, occurrencePercent } = inputs;
  const f = frequencyHz / 1e9;
  const unusable =
    notPositive({ spacingM, frequencyHz, distanceM, occurrencePercent }) ??
    checkOccurrence(occurrencePercent) ??
    notFinite({ gainDifferenceDb });
  if (unusable) return refuse(unusable);
  const exponent =
    0.04 * spacingM ** 0.87 * f ** -0.12 * (distanceM / 1000) ** 0.48 * occurrencePercent ** -1.04;
  return figures({ factor: -Math.expm1(-exponent) * 10 ** (-Math.abs(gainDifferenceDb) / 10) }, [
    outsideRange(distanceM / 1000, 25, 240, "path length", "km"),
    outsideRange(f, 2, 11, "frequency", "GHz"),
    outsideRange(spacingM, 3, 23, "antenna spacing", "m"),
  ]);
}

/**
 * Improvement by a second frequency of the same band (1 + 1). The method is meant for I >= 5.
 *
 *     I = (80/(f^2 d)) (df/f) 10^(A/10)    f in GHz, d in km; df/f at most 5 %, df at most 0.5 GHz
 *
 * @param inputs.separationHz df, > 0; used up to 5 % of the frequency and up to 0.5 GHz, said in the validity
 * @see Rec. ITU-R P.530-18 section 6.2.5. From memory and disputed, see METHOD_FREQUENCY. 2 to 11 GHz, 30 to 70 km.
 */
export function frequencyDiversityImprovement(inputs: {
  readonly frequencyHz: number;
  readonly separationHz: number;
  readonly distanceM: number;
}): Outcome<DiversityImprovement & { readonly steps: { readonly usedSeparationHz: number } }> {
  const { frequencyHz, separationHz, distanceM } = inputs;
  const unusable = notPositive({ frequencyHz, separationHz, distanceM });
  if (unusable) return refuse(unusable);
  const f = frequencyHz / 1e9;
  const usedSeparationHz = Math.min(separationHz, 0.05 * frequencyHz, 0.5e9);
  const factor = (80 / (f ** 2 * (distanceM / 1000))) * (usedSeparationHz / frequencyHz);
  return figures({ factor, steps: { usedSeparationHz } }, [
    outsideRange(f, 2, 11, "frequency", "GHz"),
    outsideRange(distanceM / 1000, 30, 70, "path length", "km"),
    usedSeparationHz < separationHz ? { code: "separation-limited" } : undefined,
  ]);
}

export interface UnprotectedOutage {
  /** Multipath activity parameter, 0..1. */
  readonly eta: number;
  /** Non-selective outage without diversity, fraction of the worst month. */
  readonly nonSelectiveFraction: number;
  /** Selective outage without diversity, fraction of the worst month. */
  readonly selectiveFraction: number;
}

export interface DiversitySteps {
  /** Squared correlation of non-selective fading. */
  readonly kns2: number;
  /** Correlation of the relative amplitudes. */
  readonly rw: number;
  /** Squared correlation of selective fading. */
  readonly ks2: number;
  readonly Pdns: number;
  readonly Pds: number;
  readonly kns2Space?: number;
  readonly kns2Frequency?: number;
  readonly mns?: number;
}

type DiversityOutage = Outcome<{ readonly outageFraction: number; readonly steps?: DiversitySteps }>;

/**
 * Outage with two branches: space diversity, or frequency diversity with its own improvement.
 *
 *     kns^2 = 1 - I Pns/eta
 *     Pdns = Pns/I
 *     Pds = Ps^2/(eta (1 - ks^2))                  ks^2 of kns^2, through rw
 *     Pd = (Pds^0.75 + Pdns^0.75)^(4/3)
 *
 * Pns and Ps are the non-selective and the selective outage without diversity, Pdns and Pds those with it.
 * @param inputs.improvement I at the flat fade margin, > 0
 * @returns outageFraction of the worst month; without multipath (eta 0) it is 0 and has no steps
 * @see Rec. ITU-R P.530-18 section 6.2.6. From memory, not checked against the Recommendation.
 */
export function twoBranchOutage(
  inputs: UnprotectedOutage & { readonly improvement: number },
): DiversityOutage {
  const { improvement, eta, nonSelectiveFraction: Pns } = inputs;
  const unusable = checkUnprotected(inputs) ?? notPositive({ improvement });
  if (unusable) return refuse(unusable);
  if (eta === 0) return figures({ outageFraction: 0 });
  const kns2 = nonSelectiveCorrelation(improvement, Pns, eta);
  return combine(inputs, kns2, Pns / improvement, 1, {});
}

/**
 * Outage with space and frequency diversity and two receivers, or four; kns,s^2 and kns,f^2 as with one of them alone.
 *
 *     two:   kns = kns,s kns,f,   Pdns = Pns^2/(eta (1 - kns^2)),   Pds and Pd as with two branches
 *     four:  mns = eta^3 (1 - kns,s^2) (1 - kns,f^2),   Pdns = Pns^4/mns
 *            kns^2 = 1 - sqrt(eta) (1 - kns,s^2) (1 - kns,f^2),   Pds = [Ps^2/(eta (1 - ks^2))]^2
 *
 * For one kind alone the Pdns of two receivers is Pns/I.
 * @see Rec. ITU-R P.530-18 section 6.2.6. From memory, not checked against the Recommendation; the form for four
 *   receivers has no second source.
 */
export function spaceAndFrequencyOutage(
  inputs: UnprotectedOutage & {
    readonly spaceImprovement: number;
    readonly frequencyImprovement: number;
    readonly receivers: 2 | 4;
  },
): DiversityOutage {
  const { spaceImprovement, frequencyImprovement, receivers, eta, nonSelectiveFraction: Pns } = inputs;
  const unusable = checkUnprotected(inputs) ?? notPositive({ spaceImprovement, frequencyImprovement });
  if (unusable) return refuse(unusable);
  if (eta === 0) return figures({ outageFraction: 0 });
  const kns2Space = nonSelectiveCorrelation(spaceImprovement, Pns, eta);
  const kns2Frequency = nonSelectiveCorrelation(frequencyImprovement, Pns, eta);
  if (receivers === 2) {
    const kns2 = kns2Space * kns2Frequency;
    if (kns2 === 1) return correlated();
    return combine(inputs, kns2, Pns ** 2 / (eta * (1 - kns2)), 1, { kns2Space, kns2Frequency });
  }
  const independent = (1 - kns2Space) * (1 - kns2Frequency);
  const mns = eta ** 3 * independent;
  if (mns === 0) return correlated();
  const kns2 = 1 - Math.sqrt(eta) * independent;
  return combine(inputs, kns2, Pns ** 4 / mns, 2, { kns2Space, kns2Frequency, mns });
}

/** From kns^2 and Pdns to Pd; `pairs` is the power that Pds takes. */
function combine(
  { eta, selectiveFraction: Ps }: UnprotectedOutage,
  kns2: number,
  Pdns: number,
  pairs: 1 | 2,
  more: Partial<DiversitySteps>,
): DiversityOutage {
  const rw = relativeAmplitudeCorrelation(kns2);
  const ks2 = selectiveCorrelation(rw);
  if (ks2 >= 1) return correlated();
  const Pds = (Ps ** 2 / (eta * (1 - ks2))) ** pairs;
  const outageFraction = (Pds ** 0.75 + Pdns ** 0.75) ** (4 / 3);
  // Written so that NaN fails it. An outage up to 1 has finite steps: correlations are, and both parts are below it.
  if (!(outageFraction <= 1)) return refuse({ code: "diversity-outage-too-large" });
  return soundFigures({ outageFraction, steps: { kns2, rw, ks2, Pdns, Pds, ...more } });
}

function correlated() {
  return refuse({ code: "branches-correlated" });
}

/** `kns^2 = 1 - I Pns/eta`, limited to 0..1; that limit is from memory like the rest. */
function nonSelectiveCorrelation(improvement: number, Pns: number, eta: number): number {
  return Math.max(0, 1 - (improvement * Pns) / eta);
}

/**
 * Correlation rw of the relative amplitudes; exported for the check that its branches meet.
 *
 *     rw = 1 - 0.9746 (1 - kns^2)^2.170    kns^2 <= 0.26
 *     rw = 1 - 0.6921 (1 - kns^2)^1.034    kns^2 > 0.26
 *
 * @see Rec. ITU-R P.530-18 section 6.2.6. From memory.
 */
export function relativeAmplitudeCorrelation(kns2: number): number {
  return kns2 <= 0.26 ? 1 - 0.9746 * (1 - kns2) ** 2.17 : 1 - 0.6921 * (1 - kns2) ** 1.034;
}

/**
 * Squared correlation of selective fading; exported for the check that its branches meet.
 *
 *     ks^2 = 0.8238                                              rw <= 0.5
 *     ks^2 = 1 - 0.195 (1 - rw)^(0.109 - 0.13 log(1 - rw))       0.5 < rw <= 0.9628
 *     ks^2 = 1 - 0.3957 (1 - rw)^0.5136                          rw > 0.9628
 *
 * @see Rec. ITU-R P.530-18 section 6.2.6. From memory.
 */
export function selectiveCorrelation(rw: number): number {
  if (rw <= 0.5) return 0.8238;
  if (rw <= 0.9628) return 1 - 0.195 * (1 - rw) ** (0.109 - 0.13 * Math.log10(1 - rw));
  return 1 - 0.3957 * (1 - rw) ** 0.5136;
}

function checkUnprotected({
  eta,
  nonSelectiveFraction,
  selectiveFraction,
}: UnprotectedOutage): RefusalReason | undefined {
  return outside({ eta, nonSelectiveFraction, selectiveFraction }, 0, 1);
}
