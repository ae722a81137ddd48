/** The least loss that P.452 can give whatever lies between: for terrain that is absent, and for what need not be read. */
import type { MethodReference } from "../method.js";
import { focusingDb } from "./line-of-sight.js";

export const METHOD: MethodReference = {
  recommendation: "ITU-R P.452-18",
  section: "4",
  title: "Least loss for interference over any terrain",
  status: "verified",
  note:
    "Derived from the equations, not part of the Recommendation: no diffraction, the longest horizons, ducting never below free " +
    "space with focusing. For 1 to 100 GHz.",
  checked: {
    by: "6000 random paths and every result of the other tables",
    vectors: ["p452-lower-bound"],
    tolerance: "1e-9 dB; no result below it",
  },
};

/** The least beta0 of any zones and latitude, %. */
export const LEAST_BETA0_PERCENT = 0.32;

/** Of surfaces that are not stated; with it, or less, and from 3 to 90 GHz troposcatter takes off 0.03 dB at most. */
const USUAL_N0 = 400;

export interface BoundInputs {
  readonly frequencyHz: number;
  /** p, 0.001 to 50 %. */
  readonly timePercent: number;
  /** Where the zones are known; else the least of all, 0.32 %. */
  readonly beta0Percent?: number;
  /** gamma at rho = 3 g/m3, never more; absent: no gas. */
  readonly gammaDbPerKm?: number;
  /** N0; absent: 400, above that of nearly every place. */
  readonly seaLevelN?: number;
}

/**
 * Lower bound of Lb(p). Lean: no checks.
 *
 *     B = 92.4 + 20 log(f d) + gamma(3) d + 2.6 (1 - exp(-0.1 d)) log(min(p, beta0)/50) - S,   Lb(p) >= B
 *     S = 0.03 from 3 to 90 GHz and N0 up to 400, else that of `scatterSlackDb`
 *
 * For any terrain, zones and gains, f from 1 to 100 GHz. Gas counts at 3 g/m3 because troposcatter does. It rises with d.
 * @param distanceM d, > 0
 * @see derived from Rec. ITU-R P.452-18 section 4; eq (8) to (12), (42), (45), (60) to (64)
 */
export function lowerBoundDb(distanceM: number, inputs: BoundInputs): number {
  const { frequencyHz, timePercent, beta0Percent = LEAST_BETA0_PERCENT, gammaDbPerKm = 0 } = inputs;
  return (
    boundWithoutSlackDb(distanceM, frequencyHz, gammaDbPerKm, Math.min(timePercent, beta0Percent)) -
    slackDb(frequencyHz, timePercent, inputs.seaLevelN)
  );
}

/**
 * The bound but for S, of plain numbers. See `lowerBoundDb`.
 *
 *     B + S = 92.4 + 20 log(f d) + gamma(3) d + 2.6 (1 - exp(-0.1 d)) log(min(p, beta0)/50)
 *
 * @param percent min(p, beta0)
 * @see derived from Rec. ITU-R P.452-18 section 4; eq (8) to (12)
 */
export function boundWithoutSlackDb(
  distanceM: number,
  frequencyHz: number,
  gammaDbPerKm: number,
  percent: number,
): number {
  return frequencyShareDb(frequencyHz) + boundWithoutFrequencyDb(distanceM, gammaDbPerKm, percent);
}

/**
 * What of the bound rests on the frequency alone: 92.4 + 20 log(f), dB.
 *
 *     Bf = 92.4 + 20 log(f)
 *
 * @see derived from Rec. ITU-R P.452-18 section 4; eq (8)
 */
export function frequencyShareDb(frequencyHz: number): number {
  return 92.4 + 20 * Math.log10(frequencyHz / 1e9);
}

/**
 * What of it rests on the distance, dB: it is asked for every pair of a network.
 *
 *     B + S - Bf = 20 log(d) + gamma(3) d + 2.6 (1 - exp(-0.1 d)) log(min(p, beta0)/50)
 *
 * @see derived from Rec. ITU-R P.452-18 section 4; eq (8) to (12)
 */
export function boundWithoutFrequencyDb(distanceM: number, gammaDbPerKm: number, percent: number): number {
  const dKm = distanceM / 1000;
  return 20 * Math.log10(dKm) + gammaDbPerKm * dKm + focusingDb(dKm, percent);
}

/**
 * S of the bound, the same for all pairs of a frequency: what troposcatter may take off, see `scatterSlackDb`.
 *
 *     S = 0.03   from 3 to 90 GHz and N0 up to 400
 *
 * @see derived from Rec. ITU-R P.452-18 section 4; eq (45), (64)
 */
export function slackDb(frequencyHz: number, timePercent: number, seaLevelN: number = USUAL_N0): number {
  const fGHz = frequencyHz / 1e9;
  const usual = fGHz >= 3 && fGHz <= 90 && seaLevelN <= USUAL_N0;
  return usual ? 0.03 : scatterSlackDb(fGHz, timePercent, seaLevelN);
}

/**
 * The most that troposcatter takes off the bound, by how far it lies above free space at least.
 *
 *     M = 97.6 + 5 log f - 2.5 (log(f/2))^2 - 0.15 N0 - 10.1 (log(50/p))^0.7
 *     S = 5 log(1 + 10^(-0.2 M))
 *
 * M is eq (45) less 92.4 + 20 log(f d) + gamma(3) d, with theta and Lc 0; S is what eq (64) makes of it.
 */
function scatterSlackDb(fGHz: number, timePercent: number, seaLevelN: number): number {
  const M =
    97.6 +
    5 * Math.log10(fGHz) -
    2.5 * Math.log10(fGHz / 2) ** 2 -
    0.15 * seaLevelN -
    10.1 * Math.log10(50 / timePercent) ** 0.7;
  return 5 * Math.log10(1 + 10 ** (-0.2 * M));
}

/**
 * Distance beyond which the bound exceeds a loss: nothing farther away comes in with less.
 * @param lossDb the least loss that is of no more interest
 * By halving of the distance in `lowerBoundDb`, which rises.
 * @returns m, to a millimetre above; at most 20 100 km, the other side of the Earth
 * @see derived from Rec. ITU-R P.452-18 section 4
 * @nofigure
 */
export function radiusOfBoundM(lossDb: number, inputs: BoundInputs): number {
  let low = 0;
  let high = FARTHEST_M;
  if (!(lowerBoundDb(high, inputs) > lossDb)) return high;
  while (high - low > 1e-3) {
    const middle = (low + high) / 2;
    if (lowerBoundDb(middle, inputs) > lossDb) high = middle;
    else low = middle;
  }
  return high;
}

const FARTHEST_M = 20_100_000;
