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
    "space with focusing. For 3 to 90 GHz.",
  usedByNoFigure: true,
  checked: {
    by: "6000 random paths and every result of the other tables",
    vectors: ["p452-lower-bound"],
    tolerance: "1e-9 dB; no result below it",
  },
};

/** The least beta0 of any zones and latitude, %. */
const LEAST_BETA0_PERCENT = 0.32;

/** N0 up to which troposcatter takes off no more than the small slack. */
const USUAL_N0 = 400;

/** What troposcatter can take off beyond, dB: up to that N0, and without limit (5 log 2). */
const SLACK_DB = 0.03;
const GREATEST_SLACK_DB = 1.51;

export interface BoundInputs {
  readonly frequencyHz: number;
  /** p, 0.001 to 50 %. */
  readonly timePercent: number;
  /** Where the zones are known; else the least of all, 0.32 %. */
  readonly beta0Percent?: number;
  /** gamma at rho = 3 g/m3, never more; absent: no gas. */
  readonly gammaDbPerKm?: number;
  /** N0; absent: up to 400. */
  readonly seaLevelN?: number;
}

/**
 * Lower bound of Lb(p). Lean: no checks.
 *
 *     B = 92.4 + 20 log(f d) + gamma(3) d + 2.6 (1 - exp(-0.1 d)) log(min(p, beta0)/50) - 0.03,   Lb(p) >= B
 *
 * For any terrain, zones and gains, f from 3 to 90 GHz, N0 up to 400; with N0 above, 1.51 stands for 0.03. Gas counts at
 * 3 g/m3 because troposcatter does. It rises with d.
 * @param distanceM d, > 0
 * @see derived from Rec. ITU-R P.452-18 section 4; eq (8) to (12), (42), (45), (60) to (64)
 * @nofigure
 */
export function lowerBoundDb(distanceM: number, inputs: BoundInputs): number {
  const { frequencyHz, timePercent, beta0Percent = LEAST_BETA0_PERCENT, gammaDbPerKm = 0 } = inputs;
  const dKm = distanceM / 1000;
  const slackDb = (inputs.seaLevelN ?? 0) > USUAL_N0 ? GREATEST_SLACK_DB : SLACK_DB;
  return (
    92.4 +
    20 * Math.log10((frequencyHz / 1e9) * dKm) +
    gammaDbPerKm * dKm +
    focusingDb(dKm, Math.min(timePercent, beta0Percent)) -
    slackDb
  );
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
