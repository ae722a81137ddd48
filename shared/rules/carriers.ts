import { type Address, address, nth } from "../design/address.js";
import type { Hop, HopEnd } from "../design/design.js";
import { frequency } from "../format/numbers.js";
import { transmitFrequencies } from "../radio/channels.js";

/** What one end transmits on one channel. */
export interface Carrier {
  /** Of the hop's channels, from 0. */
  readonly channel: number;
  readonly frequencyHz: number;
  /** Of the channel, without one of the widest mode; undefined: not known. */
  readonly widthHz?: number;
  readonly at: Address;
  /** For example `KELD transmits 18.93 GHz`. */
  readonly words: string;
}

/** The carriers of an end, one for each channel of the hop, in their order. */
export function carriersOf(hop: Hop, end: HopEnd): readonly Carrier[] {
  return transmitFrequencies(hop, end).flatMap((frequencyHz, channel): Carrier[] => {
    if (frequencyHz === undefined) return [];
    const transmits = `${end.site.name} transmits ${frequency(frequencyHz)}`;
    if (channel > 0) {
      const index = channel - 1;
      const widthHz = hop.furtherChannels![index]!.bandwidthHz;
      const words = `${transmits} on the ${furtherWords(index)}`;
      return [{ channel, frequencyHz, widthHz, at: furtherAddress(hop, index), words }];
    }
    const widths = hop.modes.map(({ bandwidthHz }) => bandwidthHz);
    const widthHz = hop.channel?.bandwidthHz ?? (widths.length > 0 ? Math.max(...widths) : undefined);
    const at = address("hop", hop.name, end.site.name, "transmits");
    return [{ channel, frequencyHz, widthHz, at, words: transmits }];
  });
}

/** Where a further channel stands. @param index of `furtherChannels` */
export function furtherAddress(hop: Hop, index: number): Address {
  return address("hop", hop.name, nth("channel", index + 1));
}

const ORDINALS = ["second", "third", "fourth", "fifth", "sixth", "seventh", "eighth"];

/** `second channel`. @param index of `furtherChannels` */
export function furtherWords(index: number): string {
  return ORDINALS[index] === undefined ? `channel of place ${index + 2}` : `${ORDINALS[index]} channel`;
}
