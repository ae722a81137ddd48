/** The ways of a direction, each at the frequency of the channel that its unit works on. */
import type { Hop, HopEnd } from "../../design/design.js";
import { factsAt } from "../../radio/arrangement-pairs.js";
import type { ArrangementFacts } from "../../radio/arrangements.js";
import { channelPlace, transmitFrequencies } from "../../radio/channels.js";
import { type Ways, weakestOf } from "./levels.js";

export interface OwnChannels {
  /** Of the carrier of which least arrives: the direction is judged by it. */
  readonly frequencyHz: number;
  /** Undefined: all units are on one channel. */
  readonly ways?: Ways;
}

/**
 * A unit whose channel is not stated counts as on the first.
 * @param firstHz what the end transmits on the first channel
 * @param waysAt undefined: a loss or gain is not known at this frequency
 */
export function ownChannels(
  hop: Hop,
  from: HopEnd,
  firstHz: number,
  waysAt: (frequencyHz: number) => Ways | undefined,
): OwnChannels {
  const facts = factsAt(hop, from);
  if (facts === undefined || (hop.furtherChannels ?? []).length === 0) return { frequencyHz: firstHz };
  const hzOf = unitFrequencies(hop, from, firstHz, facts);
  const at = new Map<number, Ways | undefined>();
  const on = (hz: number) => {
    if (!at.has(hz)) at.set(hz, waysAt(hz));
    return at.get(hz);
  };
  const first = on(firstHz);
  if (first === undefined) return { frequencyHz: firstHz };
  const all = first.all.map((way, index) => on(hzOf(way.unit))?.all[index] ?? way);
  const weakest = weakestOf(all.filter(({ path }) => path.state === "normal"));
  return { frequencyHz: hzOf(weakest.unit), ways: { all, complete: first.complete } };
}

/** What each unit of an end transmits, by its place among the branches; on the first channel where its own is not known. */
export function unitFrequencies(
  hop: Hop,
  from: HopEnd,
  firstHz: number,
  facts: ArrangementFacts,
): (unit: number) => number {
  const known = transmitFrequencies(hop, from);
  return (unit) => {
    const hz = known[channelPlace(facts, unit)];
    return hz !== undefined && hz > 0 ? hz : firstHz;
  };
}
