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
  const filterDb = filters.discriminationDb(sender.spectrum, receiver.selectivity, offsetHz);
  const filteredDb = levelDbm - filterDb - receiver.noiseDbm;
  if (receiver.tables === undefined) return filteredDb;
  let most = Number.NEGATIVE_INFINITY;
  for (const { thresholdDbm, points } of receiver.tables) {
    // Nearer than its first offset a table says nothing: what the mode bears on the next channel it need not bear on its own.
    const isTold = Math.abs(offsetHz) >= points[0]!.offsetHz;
    most = Math.max(most, isTold ? toNoiseByTableDb(levelDbm, thresholdDbm, points, offsetHz) : filteredDb);
  }
  return most;
}

/** In power; undefined: there is none. */
export function sumDb(levels: readonly number[]): number | undefined {
  return powerSumDb(levels);
}
