/** Which channel of its hop a branch works on. */
import type { ArrangementFacts } from "./arrangements.js";

/**
 * Place of a branch's channel among those of the hop, from 0: one for all where the arrangement has one frequency
 * pair, one for each two units that cancel each other's polarization, else a channel each.
 * @param branch from 0, in the order of the branches
 */
export function channelPlace(facts: ArrangementFacts, branch: number): number {
  if (facts.frequencyPairs === 1) return 0;
  return facts.xpicPairs > 0 ? Math.floor(branch / 2) : branch;
}
