/** What the filters of a pair of stations keep out, dB: memo over the few shapes that a network has. */
import type { CarrierToInterference } from "../design/interference.js";
import { interferenceToNoiseDb } from "../radio/degradation.js";
import type { FilterShape } from "../spectrum/filter-shape.js";
import {
  DEFAULT_CAP_DB,
  type FilterPair,
  filterPair,
  netFilterDiscriminationDb,
} from "../spectrum/net-filter-discrimination.js";

/**
 * Emissions further away than so many times half of both bandwidths together are not looked at: there a transmitter's
 * spurious emissions and a receiver's image count, of which a design knows nothing. 250 % of the bandwidth is where the
 * spurious domain begins (ITU-R SM.329, from memory).
 */
const REACH = 2.5;

export function reachHz(oneHz: number, otherHz: number): number {
  return (REACH * (oneHz + otherHz)) / 2;
}

/** Pairs of filters: shapes of the same text are one, numbered as they come. */
export class Filters {
  private readonly numbers = new WeakMap<FilterShape, number>();
  private readonly byText = new Map<string, number>();
  private readonly shapes: FilterShape[] = [];
  /** By the numbers of receiver and transmitter; null: a shape is none. */
  private readonly pairs: (FilterPair | null)[][] = [];

  /** Net filter discrimination, 0 where a shape is none. */
  discriminationDb(transmit: FilterShape, receive: FilterShape, offsetHz: number): number {
    return this.into(receive)(this.numberOf(transmit), offsetHz);
  }

  /** The same for many transmitters of one receiver, by the numbers of their spectra. */
  into(receive: FilterShape): (transmit: number, offsetHz: number) => number {
    const of = (this.pairs[this.numberOf(receive)] ??= []);
    return (transmit, offsetHz) => {
      let pair = of[transmit];
      if (pair === undefined) {
        const made = filterPair(this.shapes[transmit]!, receive, DEFAULT_CAP_DB);
        of[transmit] = pair = made.ok ? made.pair : null;
      }
      return pair === null ? 0 : netFilterDiscriminationDb(pair, offsetHz);
    };
  }

  /** Of shapes of the same text the same. */
  numberOf(shape: FilterShape): number {
    let number = this.numbers.get(shape);
    if (number !== undefined) return number;
    const text = JSON.stringify(shape);
    number = this.byText.get(text) ?? this.byText.size;
    this.byText.set(text, number);
    this.shapes[number] ??= shape;
    this.numbers.set(shape, number);
    return number;
  }
}

/**
 * I/N that a level before the filters comes to by a table of C/I, so that the stated degradation comes out at the stated
 * ratio: straight in dB between offsets, held beyond the last.
 *
 *     I/N = I - (threshold - C/I(TD)) + I/N(TD)
 *
 * for TD of 1 and of 3 dB; the greater of both counts (ours: between and beyond them the table says nothing).
 */
export function toNoiseByTableDb(
  levelDbm: number,
  thresholdDbm: number,
  points: readonly CarrierToInterference[],
  offsetHz: number,
): number {
  const ratio = ratiosAt(points, Math.abs(offsetHz));
  const over = (ratioDb: number, forDb: number) =>
    levelDbm - (thresholdDbm - ratioDb) + interferenceToNoiseDb(forDb)!;
  return Math.max(over(ratio.for1Db, 1), over(ratio.for3Db, 3));
}

function ratiosAt(
  points: readonly CarrierToInterference[],
  offsetHz: number,
): { readonly for1Db: number; readonly for3Db: number } {
  let before = points[0]!;
  for (const point of points) {
    if (offsetHz <= point.offsetHz) {
      const span = point.offsetHz - before.offsetHz;
      const share = span > 0 ? (offsetHz - before.offsetHz) / span : 1;
      return {
        for1Db: before.for1Db + share * (point.for1Db - before.for1Db),
        for3Db: before.for3Db + share * (point.for3Db - before.for3Db),
      };
    }
    before = point;
  }
  return before;
}
