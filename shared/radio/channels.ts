/** Which channel of its hop a branch works on, and what an end transmits there. */
import type { Hop, HopEnd } from "../design/design.js";
import type { ArrangementFacts } from "./arrangements.js";
import { halfOf } from "./halves.js";

/**
 * Place of a branch's channel among those of the hop, from 0: one for all where the arrangement has one frequency
 * pair, one for each two units that cancel each other's polarization, else a channel each.
 * @param branch from 0, in the order of the branches
 */
export function channelPlace(facts: ArrangementFacts, branch: number): number {
  if (facts.frequencyPairs === 1) return 0;
  return facts.xpicPairs > 0 ? Math.floor(branch / 2) : branch;
}

/** What an end transmits on each channel of the hop, in their order; undefined where it is not known. */
export function transmitFrequencies(
  { furtherChannels: further = [], radio }: Pick<Hop, "furtherChannels" | "radio">,
  end: HopEnd,
): readonly (number | undefined)[] {
  const half = further.length > 0 ? halfOf(end, radio) : undefined;
  return [
    end.transmitFrequencyHz,
    ...further.map(({ lowHz, highHz }) => (half === undefined ? undefined : half === "low" ? lowHz : highHz)),
  ];
}
