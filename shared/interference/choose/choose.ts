/** Channels and polarizations for all open hops, with what no choice can be better than. */
import { familiesOf, groupsOf, leastOf } from "./bound.js";
import { type Counted, settledExactly } from "./exact.js";
import type { Cost, Problem } from "./problem.js";
import { heardMostFirst, improved, searched } from "./search.js";

export interface Chosen {
  /** Place of its choice, by actor. */
  readonly chosen: Int32Array;
  readonly cost: Cost;
  /** What no choice comes below. */
  readonly least: Counted;
}

/** So many hops are settled exactly at once. */
const TOGETHER = 8;
/** Choices that are looked at: where all are settled at once, for a group among the others, and for its bound. */
const STEPS_OF_ALL = 400_000;
const STEPS_AMONG = 2_000;
const STEPS_OF_BOUND = 20_000;

/** @yields now and then */
export function* choose(problem: Problem): Generator<void, Chosen> {
  const order = heardMostFirst(problem);
  const tally = yield* searched(problem);
  const families = familiesOf(problem, order).map((family) => groupsOf(problem, family, TOGETHER));
  // A few are settled all at once even where they do not hear each other: they may share what is heard, and the spectrum.
  const isSmall = order.length <= TOGETHER;
  const groups = isSmall ? [order] : families.flat();
  let isProven = isSmall;
  for (const group of groups) {
    const found = yield* settledExactly(tally, group, isSmall ? STEPS_OF_ALL : STEPS_AMONG);
    isProven &&= found.isProven;
  }
  yield* improved(tally, order);
  tally.refresh();
  const { cost } = tally;
  const { violations, spectrumHz } = isProven
    ? cost
    : yield* leastOf(problem, families, cost, STEPS_OF_BOUND);
  return { chosen: tally.chosen, cost, least: { violations, spectrumHz } };
}
