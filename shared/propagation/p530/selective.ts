import type { MethodReference } from "../method.js";
import { negative, notFinite, notPositive, type Outcome, refuse, soundFigures } from "../outcome.js";
import type { RefusalReason } from "../remark.js";
import { checkOccurrence } from "./fade-distribution.js";
import { multipathActivity } from "./multipath-activity.js";

export const METHOD: MethodReference = {
  recommendation: "ITU-R P.530-18",
  section: "5.1",
  title: "Selective outage by the signature of the receiver",
  status: "from memory",
  note: "From memory, not checked against the Recommendation: the constants 2.15, 0.7 and 1.3 have no second source.",
  checked: {
    by: "two independent computations of each step of the remembered formula",
    vectors: ["selective-and-diversity"],
    tolerance: "1e-6 of each value (ten digits given)",
  },
};

/** Signature of a receiver at one bit error ratio: the notches that bring it down. */
export interface Signature {
  readonly widthHz: number;
  /** Depth of the signature, dB. */
  readonly depthDb: number;
  /** Delay of the two-ray test channel, ns (often 6.3). */
  readonly referenceDelayNs: number;
}

export interface SelectiveSteps {
  readonly P0: number;
  readonly tauMeanNs: number;
  readonly eta: number;
  readonly termMinimum: number;
  readonly termNonMinimum: number;
}

/**
 * Outage by selective fading, fraction of the average worst month.
 *
 *     tau_m = 0.7 (d/50)^1.3                                        ns, mean delay, d in km
 *     eta = 1 - exp(-0.2 P0^0.75),   P0 = p0/100
 *     Ps = 2.15 eta (WM 10^(-BM/20) tau_m^2/|tau_rM| + WNM 10^(-BNM/20) tau_m^2/|tau_rNM|)
 *
 * W is the width of a signature in GHz, B its depth in dB, tau_r its reference delay in ns; M of minimum-phase notches,
 * NM of the others.
 * @param inputs.occurrencePercent p0, 0..2000 %
 * @param inputs.minimumPhase signature of the receiver for minimum-phase notches
 * @param inputs.nonMinimumPhase absent: the same
 * @see Rec. ITU-R P.530-18 section 5.1. From memory, not checked against the Recommendation.
 */
export function selectiveOutage(inputs: {
  readonly occurrencePercent: number;
  readonly distanceM: number;
  readonly minimumPhase: Signature;
  readonly nonMinimumPhase?: Signature;
}): Outcome<{ readonly outageFraction: number; readonly steps: SelectiveSteps }, SelectiveSteps> {
  const { occurrencePercent, distanceM, minimumPhase, nonMinimumPhase = minimumPhase } = inputs;
  const unusable =
    checkOccurrence(occurrencePercent) ??
    notPositive({ distanceM }) ??
    checkSignature(minimumPhase) ??
    checkSignature(nonMinimumPhase);
  if (unusable) return refuse(unusable);
  const P0 = occurrencePercent / 100;
  const tauMeanNs = 0.7 * (distanceM / 50_000) ** 1.3;
  const eta = multipathActivity(P0);
  const termMinimum = signatureTerm(minimumPhase, tauMeanNs);
  const termNonMinimum = signatureTerm(nonMinimumPhase, tauMeanNs);
  const outageFraction = 2.15 * eta * (termMinimum + termNonMinimum);
  const steps = { P0, tauMeanNs, eta, termMinimum, termNonMinimum };
  // Written so that NaN fails it; up to 1 the terms are finite as well.
  if (!(outageFraction <= 1)) return refuse({ code: "signature-too-wide" }, steps);
  return soundFigures({ outageFraction, steps });
}

function signatureTerm({ widthHz, depthDb: B, referenceDelayNs }: Signature, tauMeanNs: number): number {
  return ((widthHz / 1e9) * 10 ** (-B / 20) * tauMeanNs ** 2) / referenceDelayNs;
}

function checkSignature({ widthHz, depthDb, referenceDelayNs }: Signature): RefusalReason | undefined {
  return negative({ widthHz }) ?? notFinite({ depthDb }) ?? notPositive({ referenceDelayNs });
}
