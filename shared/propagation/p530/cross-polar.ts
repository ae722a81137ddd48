import type { MethodReference } from "../method.js";
import {
  figures,
  negative,
  notFinite,
  notPositive,
  type Outcome,
  outsideRange,
  refuse,
  type TimeShare,
} from "../outcome.js";
import { checkOccurrence } from "./fade-distribution.js";
import { multipathActivity } from "./multipath-activity.js";
import { belowRange, MORE_THAN_RANGE, NO_RAIN, RARER_THAN_RANGE, type RareOutage } from "./rain.js";

export const METHOD_CLEAR_AIR: MethodReference = {
  recommendation: "ITU-R P.530-18",
  section: "4.1",
  title: "Cross-polar outage in clear air",
  status: "read in implementations",
  note:
    "Steps read in two implementations. Both leave the text in P0, taken here as the fraction p0/100 of the average worst month; " +
    "that reading is from memory.",
  checked: {
    by: "two independent computations of each step",
    vectors: ["xpd"],
    tolerance: "1e-6 of each value (ten digits given)",
  },
};

export const METHOD_PRECIPITATION: MethodReference = {
  recommendation: "ITU-R P.530-18",
  section: "4.2",
  title: "Cross-polar outage in precipitation",
  status: "read in implementations",
  note:
    "Read in two implementations and a course; 8 to 35 GHz. Stated for 0.001 to 1 % of the year; below, the formula is " +
    "continued down to its own limit of m, beyond which it counts as nothing: an estimate as in section 2.4.1.",
  checked: {
    by: "two independent computations of each step",
    vectors: ["xpd"],
    tolerance: "1e-6 of each value (ten digits given)",
  },
};

/** The limit of m: beyond it the equivalent attenuation is more than rain reaches at any share of time. */
const GREATEST_M = 40;

export interface ClearAirXpdSteps {
  readonly XPD0Db: number;
  readonly P0: number;
  readonly eta: number;
  readonly kXP: number;
  /** Absent without multipath (P0 = 0), where it has no limit. */
  readonly QDb?: number;
  readonly CDb?: number;
  readonly MXPDDb?: number;
}

/**
 * Outage of a cross-polarized channel by multipath, fraction of the average worst month.
 *
 *     XPD0 = XPDg + 5 up to XPDg = 35, above 40                        dB
 *     P0 = p0/100,   eta = 1 - exp(-0.2 P0^0.75)
 *     kXP = 0.7                                   one transmit antenna
 *     kXP = 1 - 0.3 exp(-4e-6 (st/lambda)^2)      two, lambda = 0.2998/f (m, GHz)
 *     Q = -10 log(kXP eta/P0),   C = XPD0 + Q                          dB
 *     MXPD = C - C0/I + XPIF                                           dB, XPIF = 0 without a canceller
 *     PXP = P0 10^(-MXPD/10)
 *
 * @param inputs.occurrencePercent p0, 0..2000 %
 * @param inputs.antennaXpdDb XPDg, the lower of both antennas' guaranteed boresight discrimination
 * @param inputs.carrierToInterferenceDb C0/I for the reference bit error ratio
 * @param inputs.improvementDb XPIF of the canceller (about 20); 0 or absent without one
 * @param inputs.transmitSeparationM st, the vertical separation of two transmit antennas; absent: one
 * @returns outageFraction 0..1; refused where the margin is not positive
 * @see Rec. ITU-R P.530-18 section 4.1. Read in implementations, see METHOD_CLEAR_AIR.
 */
export function clearAirXpdOutage(inputs: {
  readonly occurrencePercent: number;
  readonly antennaXpdDb: number;
  readonly carrierToInterferenceDb: number;
  readonly frequencyHz: number;
  readonly improvementDb?: number;
  readonly transmitSeparationM?: number;
}): Outcome<{ readonly outageFraction: number; readonly steps: ClearAirXpdSteps }, ClearAirXpdSteps> {
  const { occurrencePercent, antennaXpdDb, carrierToInterferenceDb, frequencyHz, improvementDb = 0 } = inputs;
  const unusable =
    checkOccurrence(occurrencePercent) ??
    notPositive({ frequencyHz }) ??
    negative({ antennaXpdDb, improvementDb, transmitSeparationM: inputs.transmitSeparationM ?? 0 }) ??
    notFinite({ carrierToInterferenceDb });
  if (unusable) return refuse(unusable);
  const XPD0Db = antennaXpdDb <= 35 ? antennaXpdDb + 5 : 40;
  const P0 = occurrencePercent / 100;
  const eta = multipathActivity(P0);
  const kXP = transmitFactor(frequencyHz, inputs.transmitSeparationM);
  if (P0 === 0) return figures({ outageFraction: 0, steps: { XPD0Db, P0, eta, kXP } });
  const QDb = -10 * Math.log10((kXP * eta) / P0);
  const CDb = XPD0Db + QDb;
  const MXPDDb = CDb - carrierToInterferenceDb + improvementDb;
  const steps = { XPD0Db, P0, eta, kXP, QDb, CDb, MXPDDb };
  const outageFraction = P0 * 10 ** (-MXPDDb / 10);
  if (MXPDDb <= 0 || outageFraction > 1) {
    return refuse({ code: "discrimination-below-ratio" }, steps);
  }
  return figures({ outageFraction, steps });
}

function transmitFactor(frequencyHz: number, separationM: number | undefined): number {
  if (separationM === undefined) return 0.7;
  const lambda = 0.2998 / (frequencyHz / 1e9);
  return 1 - 0.3 * Math.exp(-4e-6 * (separationM / lambda) ** 2);
}

export interface PrecipitationXpdSteps {
  readonly UDb: number;
  readonly V: number;
  /** Equivalent co-polar attenuation, dB. */
  readonly ApDb: number;
  readonly m: number;
  /** log10 of the outage in percent; the method holds for -3..0. */
  readonly n: number;
}

/**
 * Outage of a cross-polarized channel by precipitation, share of the average year.
 *
 *     U = U0 + 30 log f,   V = 12.8 f^0.19 for 8 <= f <= 20, 22.6 for 20 < f <= 35          f in GHz
 *     Ap = 10^((U - C0/I + XPIF)/V)                                                         dB
 *     m = min(23.26 log(Ap/(0.12 A0.01)), 40)
 *     n = (-12.7 + sqrt(161.23 - 4 m))/2
 *     PXPR = 10^(n - 2)                                   a fraction; 10^n in percent, -3 <= n <= 0
 *
 * Ap is the co-polar attenuation at which XPD = U - V log Ap is down to what the channel still bears; n is the law of
 * section 2.4.1, with the constants of C0 = 0, solved for it. (12.7)^2 is 161.29; 161.23 is kept as printed.
 * @param inputs.attenuation001Db A0.01, the co-polar rain attenuation exceeded for 0.01 % (section 2.4.1), >= 0
 * @param inputs.improvementDb XPIF of the canceller; 0 or absent without one
 * @param inputs.u0Db 15 on average; 9 is a lower bound of the measurements (from memory)
 * @param inputs.rare what is given below 0.001 %; a bound when left out
 * @returns time, a bound above 1 %, below 0.001 % as asked; formulaFraction is PXPR as the formula gives it, also
 *   outside its range but never above 0.01
 * @see Rec. ITU-R P.530-18 section 4.2. Read in implementations; 8 to 35 GHz.
 */
export function precipitationXpdOutage(inputs: {
  readonly attenuation001Db: number;
  readonly frequencyHz: number;
  readonly carrierToInterferenceDb: number;
  readonly improvementDb?: number;
  readonly u0Db?: number;
  readonly rare?: RareOutage;
}): Outcome<{
  readonly time: TimeShare;
  readonly formulaFraction?: number;
  readonly steps?: PrecipitationXpdSteps;
}> {
  const { attenuation001Db, frequencyHz, carrierToInterferenceDb, improvementDb = 0, u0Db = 15 } = inputs;
  const f = frequencyHz / 1e9;
  const unusable =
    negative({ attenuation001Db, improvementDb }) ??
    notPositive({ frequencyHz }) ??
    notFinite({ carrierToInterferenceDb, u0Db });
  if (unusable) return refuse(unusable);
  const validity = [outsideRange(f, 8, 35, "frequency", "GHz")];
  if (attenuation001Db === 0) return figures({ time: NO_RAIN }, validity);
  const UDb = u0Db + 30 * Math.log10(f);
  const V = f <= 20 ? 12.8 * f ** 0.19 : 22.6;
  const ApDb = 10 ** ((UDb - carrierToInterferenceDb + improvementDb) / V);
  const m = Math.min(23.26 * Math.log10(ApDb / (0.12 * attenuation001Db)), GREATEST_M);
  const n = (-12.7 + Math.sqrt(161.23 - 4 * m)) / 2;
  const steps = { UDb, V, ApDb, m, n };
  if (n > 0) return figures({ time: MORE_THAN_RANGE, steps }, validity);
  return figures({ time: timeOf(steps, inputs.rare), formulaFraction: 10 ** (n - 2), steps }, validity);
}

function timeOf({ m, n }: PrecipitationXpdSteps, rare: RareOutage = "bound"): TimeShare {
  if (n >= -3) return { timePercent: 10 ** n };
  return rare === "bound" ? RARER_THAN_RANGE : belowRange(m < GREATEST_M ? 10 ** n : 0);
}
