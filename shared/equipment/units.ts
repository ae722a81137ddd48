/** The units at an end, one for each branch: what it is set to, and by what it is ordered. */
import type { HalfOfBand, Hop, HopEnd, Polarization } from "../design/design.js";
import type { ArrangementFacts } from "../radio/arrangements.js";
import { channelPlace, transmitFrequencies } from "../radio/channels.js";
import { halfOf } from "../radio/halves.js";
import { branchesOf } from "./branches.js";
import { frequenciesOf, holds } from "./sub-band.js";

export interface UnitSetting {
  readonly branch: string;
  /** Place of its channel among those of the hop, from 0. */
  readonly place: number;
  /** Number in the plan; undefined: no channel is stated for it. */
  readonly channel?: number;
  /** What the design states is that of the first; the units of the second stand across it. */
  readonly polarization?: Polarization;
  readonly half?: HalfOfBand;
  readonly transmitHz?: number;
  /** As the end states it where it holds the channel, else the first that does; `open`: the channel is not stated. */
  readonly subBand?: string;
  readonly open: boolean;
}

/** In the order of the branches. */
export function unitsOf(hop: Hop, end: HopEnd, facts: ArrangementFacts): readonly UnitSetting[] {
  const half = halfOf(end, hop.radio);
  const transmitHz = transmitFrequencies(hop, end);
  return branchesOf(facts).map(({ name, polarization }, index) => {
    const place = channelPlace(facts, index);
    const channel = place === 0 ? hop.channel : hop.furtherChannels?.[place - 1];
    const frequencies = place === 0 ? frequenciesOf(hop) : pairOf(channel);
    return {
      branch: name,
      place,
      channel: channel?.number,
      polarization: polarization === 1 ? hop.polarization : across(hop.polarization),
      half,
      transmitHz: transmitHz[place],
      ...subBandFor(hop, end, place, frequencies),
    };
  });
}

function across(polarization: Polarization | undefined): Polarization | undefined {
  if (polarization === "slant") return "slant";
  return polarization && (polarization === "vertical" ? "horizontal" : "vertical");
}

type Frequencies = ReturnType<typeof frequenciesOf>;

function pairOf(channel: { readonly lowHz?: number; readonly highHz?: number } | undefined): Frequencies {
  const { lowHz, highHz } = channel ?? {};
  return lowHz === undefined || highHz === undefined ? undefined : { lowHz, highHz };
}

function subBandFor(
  { radio }: Hop,
  { installation }: HopEnd,
  place: number,
  frequencies: Frequencies,
): Pick<UnitSetting, "subBand" | "open"> {
  const subBands = radio?.unit?.subBands ?? [];
  const stated = installation?.subBand;
  if (frequencies === undefined)
    return { subBand: stated, open: place > 0 && stated === undefined && subBands.length > 0 };
  const fitting = subBands.filter((one) => holds(one, frequencies)).map((one) => one.name);
  // The first channel's is ordered as stated; where it does not fit a rule tells.
  const asStated = stated !== undefined && (place === 0 || fitting.length === 0 || fitting.includes(stated));
  return { subBand: asStated ? stated : fitting[0], open: false };
}
