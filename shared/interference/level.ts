/** From a level at a receiver's input, before its filters, to what it costs there. */
import { powerSumDb } from "../radio/degradation.js";
import { type Filters, toNoiseByTableDb } from "./filters.js";
import type { Receiver, Sender } from "./station.js";

/**
 * I/N, by the net filter discrimination, or by the modes' tables of C/I where that is more: the receiver's noise is one,
 * a table may say that a mode bears less.
 */
export function toNoiseDb(levelDbm: number, sender: Sender, receiver: Receiver, filters: Filters): number {
  const offsetHz = sender.frequencyHz - receiver.frequencyHz;
  if (receiver.tables !== undefined) {
    let most = Number.NEGATIVE_INFINITY;
    for (const { thresholdDbm, points } of receiver.tables)
      most = Math.max(most, toNoiseByTableDb(levelDbm, thresholdDbm, points, offsetHz));
    return most;
  }
  return (
    levelDbm - filters.discriminationDb(sender.spectrum, receiver.selectivity, offsetHz) - receiver.noiseDbm
  );
}

/** In power; undefined: there is none. */
export function sumDb(levels: readonly number[]): number | undefined {
  return powerSumDb(levels);
}
