import { type Address, address } from "../design/address.js";
import type { Hop, HopEnd } from "../design/design.js";
import { frequency } from "../format/numbers.js";
import { halfOf } from "./halves.js";

/** What one end transmits on one carrier. */
export interface Carrier {
  readonly frequencyHz: number;
  /** Of the channel, without one of the widest mode; undefined: not known. */
  readonly widthHz?: number;
  readonly at: Address;
  /** For example `KELD transmits 18.93 GHz`. */
  readonly words: string;
}

/** The carriers of an end, the second channel's behind the first. */
export function carriersOf(hop: Hop, end: HopEnd): readonly Carrier[] {
  const { site, transmitFrequencyHz } = end;
  const carriers: Carrier[] = [];
  if (transmitFrequencyHz !== undefined) {
    const widths = hop.modes.map(({ bandwidthHz }) => bandwidthHz);
    carriers.push({
      frequencyHz: transmitFrequencyHz,
      widthHz: hop.channel?.bandwidthHz ?? (widths.length > 0 ? Math.max(...widths) : undefined),
      at: address("hop", hop.name, site.name, "transmits"),
      words: `${site.name} transmits ${frequency(transmitFrequencyHz)}`,
    });
  }
  const half = halfOf(end, hop.radio);
  const second = hop.secondChannel;
  const secondHz = half === undefined ? undefined : half === "low" ? second?.lowHz : second?.highHz;
  if (second !== undefined && secondHz !== undefined) {
    carriers.push({
      frequencyHz: secondHz,
      widthHz: second.bandwidthHz,
      at: address("hop", hop.name, "second-channel"),
      words: `${site.name} transmits ${frequency(secondHz)} on the second channel`,
    });
  }
  return carriers;
}
