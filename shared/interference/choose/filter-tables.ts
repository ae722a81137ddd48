/** What filters leave of a sender at a receiver, for each pair of the channels that they may get. */
import { type Filters, reachHz } from "../filters.js";
import { toNoiseDb } from "../level.js";
import type { Receiver, Sender } from "../station.js";

interface Side<Station> {
  readonly views: readonly Station[];
  readonly frequenciesHz: readonly number[];
}

/**
 * I/N less the level before the filters, as power ratios: it rests on offset, filters, noise and tables of C/I alone, so
 * that few tables serve all pairs of a network.
 */
export class FilterTables {
  private readonly known = new Map<string, Float64Array | undefined>();
  private readonly numbers = new Map<string, number>();

  constructor(private readonly filters: Filters) {}

  /** By channel of the sender (rows) and of the receiver; undefined: nothing passes on any. */
  between(sender: Side<Sender>, receiver: Side<Receiver>): Float64Array | undefined {
    const [sends, hears] = [sender.views[0]!, receiver.views[0]!];
    const key = [
      this.numberOf(sends, [sender.frequenciesHz, sends.spectrum, sends.bandwidthHz]),
      this.numberOf(hears, [
        receiver.frequenciesHz,
        hears.selectivity,
        hears.noiseDbm,
        hears.bandwidthHz,
        hears.tables,
      ]),
    ].join(" ");
    if (this.known.has(key)) return this.known.get(key);
    const reach = reachHz(sends.bandwidthHz, hears.bandwidthHz);
    const table = Float64Array.from(
      sender.frequenciesHz.flatMap((from) =>
        receiver.frequenciesHz.map((to) =>
          Math.abs(from - to) > reach
            ? 0
            : 10 **
              (toNoiseDb(0, { ...sends, frequencyHz: from }, { ...hears, frequencyHz: to }, this.filters) /
                10),
        ),
      ),
    );
    const told = table.some((share) => share > 0) ? table : undefined;
    this.known.set(key, told);
    return told;
  }

  private readonly ofStation = new WeakMap<object, number>();

  private numberOf(station: object, of: readonly unknown[]): number {
    let number = this.ofStation.get(station);
    if (number !== undefined) return number;
    const text = JSON.stringify(of);
    number = this.numbers.get(text) ?? this.numbers.size;
    this.numbers.set(text, number);
    this.ofStation.set(station, number);
    return number;
  }
}
