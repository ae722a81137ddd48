/** Receivers parted by frequency: which of them a few senders may reach is asked after every edit. */
import { reachHz } from "./filters.js";
import { Slots, slotOf } from "./slots.js";
import type { Receiver, Sender } from "./station.js";

export class Bands {
  private constructor(
    private readonly slots: Slots<ReadonlySet<Receiver>>,
    /** Bandwidth of the widest that there is or was. */
    private readonly widestHz: number,
  ) {}

  static of(receivers: Iterable<Receiver>): Bands {
    return new Bands(new Slots(), 0).changed([], receivers);
  }

  /** These stay as they are. @param gone receivers that were there, the same objects */
  changed(gone: Iterable<Receiver>, come: Iterable<Receiver>): Bands {
    const concerned = new Map<number, Set<Receiver>>();
    const at = (receiver: Receiver) => {
      const slot = slotOf(receiver);
      let here = concerned.get(slot);
      if (here === undefined) concerned.set(slot, (here = new Set(this.slots.get(slot))));
      return here;
    };
    let { widestHz } = this;
    for (const receiver of gone) at(receiver).delete(receiver);
    for (const receiver of come) {
      at(receiver).add(receiver);
      widestHz = Math.max(widestHz, receiver.bandwidthHz);
    }
    const parts = [...concerned].map(([slot, here]) => [slot, here.size > 0 ? here : undefined] as const);
    return new Bands(this.slots.changed(parts), widestHz);
  }

  /** All that any of the senders may reach by their frequencies, and some others. */
  near(senders: readonly Sender[]): readonly Receiver[] {
    const slots = new Set<number>();
    for (const { frequencyHz, bandwidthHz } of senders) {
      const reach = reachHz(bandwidthHz, this.widestHz);
      for (const slot of this.slots.between(frequencyHz - reach, frequencyHz + reach)) slots.add(slot);
    }
    return [...slots].flatMap((slot) => [...this.slots.get(slot)!]);
  }
}
