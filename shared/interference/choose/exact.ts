/**
 * The best choices of a few hops with all others as they are, by trying all that can still be better (branch and bound).
 * Both parts of what is to be little only grow as hops are added: a part of an assignment bounds every whole of it. Sums
 * of powers against limits are no linear programme, and many channels that are alike make a general solver slow; a search
 * that knows the problem is a page. It is limited by steps and not by time: the answer is the same on every machine.
 */
import { type Cost, OPEN, type Tally } from "./problem.js";

/** What is proven best: receivers beyond, then spectrum; among equal ones any is best. */
export type Counted = Pick<Cost, "violations" | "spectrumHz">;

interface Exact {
  /** Whether something better than what was known was found; the tally holds it then. */
  readonly isBetter: boolean;
  /** All was tried that could be better; otherwise the steps were used up. */
  readonly isProven: boolean;
}

function isLess(a: Counted, b: Counted): boolean {
  return a.violations < b.violations || (a.violations === b.violations && a.spectrumHz < b.spectrumHz);
}

const STEPS_AT_ONCE = 5000;

/**
 * @param tally is left with the best that is known: as it was, or better
 * @param hops those to be settled, those that matter most first
 * @param mostSteps choices that are looked at
 */
export function* settledExactly(
  tally: Tally,
  hops: readonly number[],
  mostSteps: number,
): Generator<void, Exact> {
  const was = hops.map((hop) => tally.chosen[hop]!);
  tally.refresh();
  let least: Counted = tally.cost;
  let best: readonly number[] | undefined;
  for (const hop of hops) tally.move(hop, OPEN);
  // What the others come to by themselves nothing betters.
  const floor = tally.cost;
  /** Of each hop that has a choice, the one to be tried next. */
  const next: number[] = hops.length > 0 && isLess(floor, least) ? [0] : [];
  let steps = 0;
  while (next.length > 0 && steps < mostSteps) {
    const depth = next.length - 1;
    const hop = hops[depth]!;
    const choice = next[depth]!;
    if (choice >= tally.problem.actors[hop]!.choices.length) {
      tally.move(hop, OPEN);
      next.pop();
      continue;
    }
    next[depth] = choice + 1;
    steps++;
    if (steps % STEPS_AT_ONCE === 0) yield;
    tally.move(hop, choice);
    if (!isLess(tally.cost, least)) continue;
    if (depth + 1 < hops.length) next.push(0);
    else {
      // What was taken off and put on may have left traces at a limit: it counts as it is afresh.
      tally.refresh();
      if (isLess(tally.cost, least)) [best, least] = [hops.map((one) => tally.chosen[one]!), tally.cost];
    }
  }
  const isProven = next.length === 0;
  for (const [index, hop] of hops.entries()) tally.move(hop, (best ?? was)[index]!);
  tally.refresh();
  return { isBetter: best !== undefined, isProven };
}
