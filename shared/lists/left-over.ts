/** What rows say of hops and ends that is stated together with something else alone, and stands nowhere without it. */
import type { HopEnd } from "../design/design.js";
import type { BookedEnd, BookedHop } from "./hop-book.js";
import { isSameFigure } from "./state-facts.js";

interface LeftOver<T> {
  readonly called: string;
  readonly needs: string;
  is(one: T): boolean;
}

const OF_HOP: readonly LeftOver<BookedHop>[] = [
  {
    called: "the channel width",
    needs: "a width is stated with the plan and number of a channel, or with a modulation",
    is: ({ facts: { width, channel, highestMode }, known }) =>
      width !== undefined &&
      channel === undefined &&
      highestMode === undefined &&
      !isSameFigure(known?.channel?.bandwidthHz, width) &&
      !isSameFigure(known?.modes[0]?.bandwidthHz, width),
  },
  {
    called: "the modulation",
    needs: "a modulation is stated with the width of its channel",
    is: ({ facts: { width, channel, highestMode }, known }) =>
      highestMode !== undefined &&
      (width ?? channel) === undefined &&
      known?.modes.at(-1)?.modulation !== highestMode,
  },
  {
    called: "the lowest modulation",
    needs: "it is stated with the highest one and the width of the channel",
    is: ({ facts: { width, channel, lowestMode, highestMode }, known }) =>
      lowestMode !== undefined &&
      (highestMode === undefined || (width ?? channel) === undefined) &&
      known?.modes[0]?.modulation !== lowestMode,
  },
  {
    called: "the bit rate",
    needs: "it belongs to a mode of a radio, which takes the radio, a width and a modulation",
    is: ({ facts: { width, bitRate, radio, highestMode }, ends }) =>
      bitRate !== undefined &&
      (width === undefined ||
        highestMode === undefined ||
        (radio === undefined && ends.every(({ facts }) => facts.radio === undefined))),
  },
];

const OF_END: readonly LeftOver<{ readonly facts: BookedEnd["facts"]; readonly known?: HopEnd }>[] = [
  {
    called: "the mounting",
    needs: "it is stated with its coupler",
    is: ({ facts: { mounting, coupler }, known }) =>
      mounting !== undefined && coupler === undefined && known?.coupler === undefined,
  },
  {
    called: "the feeder length",
    needs: "it is stated with its feeder",
    is: ({ facts: { feederLength, feeder }, known }) =>
      feederLength !== undefined && feeder === undefined && known?.feeder === undefined,
  },
  {
    called: "the beamwidth",
    needs: "it is known of an antenna that has a name, a diameter or a gain",
    is: ({ facts: { antennaBeamwidth, antenna, antennaDiameter, antennaGain } }) =>
      antennaBeamwidth !== undefined && (antenna ?? antennaDiameter ?? antennaGain) === undefined,
  },
];

/** One sentence for each kind, with how many hops or ends it is said of. */
export function leftOver(hops: readonly BookedHop[]): readonly string[] {
  const ends = hops.flatMap(({ ends: both, known }) =>
    both.map(({ facts }, i) => ({ facts, known: known?.ends[i as 0 | 1] })),
  );
  return [...told(OF_HOP, hops, "hop"), ...told(OF_END, ends, "end")];
}

function told<T>(kinds: readonly LeftOver<T>[], all: readonly T[], word: string): string[] {
  return kinds.flatMap(({ called, needs, is }) => {
    const count = all.filter(is).length;
    return count === 0
      ? []
      : `${called} of ${count} ${word}${count === 1 ? "" : "s"} is stated nowhere: ${needs}`;
  });
}
