/**
 * What conservation of power says of a coupler. A passive coupler joins two units to one polarization: outwards it
 * combines, inwards it splits, and the two arms lose the same in both directions.
 */
import { figures, negative, notPositive, type Outcome, refuse } from "../propagation/outcome.js";

/** Catalogues round: 3.01 dB stands for 3.0103 dB. */
const SPLIT_TOLERANCE_DB = 0.005;

export interface Split {
  /** Share of the power that comes out of both arms together, 0..1 for a possible coupler. */
  readonly sumOfShares: number;
  /** What the coupler dissipates, dB; below zero it would have to amplify. */
  readonly excessLossDb: number;
  /** Possible within the rounding of a catalogue. */
  readonly possible: boolean;
}

/**
 * Holds two arm losses against conservation of power: 10^(-Lm/10) + 10^(-Ls/10) <= 1.
 *
 * @param mainLossDb loss of the main arm, >= 0
 * @param standbyLossDb loss of the standby arm, >= 0
 * @see conservation of power
 * @example splitOf(1.6, 6.4) // 0.921 of the power, 0.36 dB excess
 */
export function splitOf(mainLossDb: number, standbyLossDb: number): Outcome<Split> {
  const unusable = negative({ mainLossDb, standbyLossDb });
  if (unusable) return refuse(unusable);
  const sumOfShares = share(mainLossDb) + share(standbyLossDb);
  return figures({
    sumOfShares,
    excessLossDb: -10 * Math.log10(sumOfShares),
    possible: share(mainLossDb + SPLIT_TOLERANCE_DB) + share(standbyLossDb + SPLIT_TOLERANCE_DB) <= 1,
  });
}

/**
 * Loss of the main arm when nothing is dissipated: -10 log(1 - 10^(-Ls/10)).
 *
 * @param standbyLossDb > 0
 * @see conservation of power
 * @example idealMainLossDb(6) // 1.256 dB
 */
export function idealMainLossDb(standbyLossDb: number): Outcome<{ readonly mainLossDb: number }> {
  const unusable = notPositive({ standbyLossDb });
  return unusable ? refuse(unusable) : figures({ mainLossDb: -10 * Math.log10(1 - share(standbyLossDb)) });
}

function share(lossDb: number): number {
  return 10 ** (-lossDb / 10);
}
