/** By how much less a hop tells that an antenna looks past the other end, or that a feed is turned. */
import type { Hop } from "../design/design.js";
import { firstSideLobe, type LessByRange, type SideLobe } from "./side-lobe.js";
import { turnedFeed } from "./turned-feed.js";

export interface Signatures {
  /** Of the first antenna of each end, in the order of the hop; undefined: not known. */
  readonly lobes: readonly [SideLobe | undefined, SideLobe | undefined];
  /** Either end on its first side lobe, the other on its main lobe. */
  readonly oneLobe?: LessByRange;
  /** Both. */
  readonly bothLobes?: LessByRange;
  readonly turned?: LessByRange;
}

export type SignatureCode = "one side lobe" | "both side lobes" | "turned feed";

/** Of the first antennas: it is they that both directions pass. */
export function signaturesOf(hop: Hop): Signatures {
  const [first, second] = hop.ends;
  const lobeAt = ({ antenna }: typeof first, frequencyHz: number | undefined) =>
    antenna && frequencyHz !== undefined && frequencyHz > 0 ? firstSideLobe(antenna, frequencyHz) : undefined;
  // Receiving or sending: both frequencies of a hop are near each other, and the antenna is the same.
  const here = lobeAt(first, first.transmitFrequencyHz ?? second.transmitFrequencyHz);
  const there = lobeAt(second, second.transmitFrequencyHz ?? first.transmitFrequencyHz);
  const known = [here, there].filter((one) => one !== undefined);
  return {
    lobes: [here, there],
    oneLobe:
      known.length === 0
        ? undefined
        : {
            fromDb: Math.min(...known.map(({ fromDb }) => fromDb)),
            toDb: Math.max(...known.map(({ toDb }) => toDb)),
          },
    bothLobes:
      here && there ? { fromDb: here.fromDb + there.fromDb, toDb: here.toDb + there.toDb } : undefined,
    turned: first.antenna && second.antenna && turnedFeed(first.antenna, second.antenna),
  };
}

/** What a reading so much lower than promised may come from. @param windowDb left for everything else */
export function signaturesFitting(
  { oneLobe, bothLobes, turned }: Signatures,
  lessDb: number,
  windowDb: number,
): readonly SignatureCode[] {
  const fits = (range: LessByRange | undefined) =>
    range !== undefined && lessDb >= range.fromDb - windowDb && lessDb <= range.toDb + windowDb;
  return [
    ...(fits(oneLobe) ? (["one side lobe"] as const) : []),
    ...(fits(bothLobes) ? (["both side lobes"] as const) : []),
    ...(fits(turned) ? (["turned feed"] as const) : []),
  ];
}
