import { type Address, address, nth } from "../design/address.js";
import type { Hop, HopEnd } from "../design/design.js";
import { frequency } from "../format/numbers.js";
import { halfOf } from "../radio/halves.js";

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
  const { site, transmitFrequencyHz } = end;
  const carriers: Carrier[] = [];
  if (transmitFrequencyHz !== undefined) {
    const widths = hop.modes.map(({ bandwidthHz }) => bandwidthHz);
    carriers.push({
      channel: 0,
      frequencyHz: transmitFrequencyHz,
      widthHz: hop.channel?.bandwidthHz ?? (widths.length > 0 ? Math.max(...widths) : undefined),
      at: address("hop", hop.name, site.name, "transmits"),
      words: `${site.name} transmits ${frequency(transmitFrequencyHz)}`,
    });
  }
  const half = halfOf(end, hop.radio);
  for (const [index, { lowHz, highHz, bandwidthHz }] of (hop.furtherChannels ?? []).entries()) {
    const frequencyHz = half === undefined ? undefined : half === "low" ? lowHz : highHz;
    if (frequencyHz === undefined) continue;
    carriers.push({
      channel: index + 1,
      frequencyHz,
      widthHz: bandwidthHz,
      at: furtherAddress(hop, index),
      words: `${site.name} transmits ${frequency(frequencyHz)} on the ${furtherWords(index)}`,
    });
  }
  return carriers;
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
