/** What no choice can be better than, and hops that are looked at together. */
import { type Counted, settledExactly } from "./exact.js";
import { type Problem, Tally } from "./problem.js";
import { searched } from "./search.js";

/**
 * Hops that hear each other most, a few at a time.
 * @param order those with a choice
 */
export function groupsOf(
  { links, receivers }: Problem,
  order: readonly number[],
  most: number,
): readonly (readonly number[])[] {
  const weights = new Map<number, Map<number, number>>(order.map((hop) => [hop, new Map()]));
  for (const { sender, receiver, sum } of links) {
    const hears = receivers[receiver]!.actor;
    const weight = Math.log1p(Math.max(...sum));
    for (const [one, other] of [
      [sender, hears],
      [hears, sender],
    ] as const)
      if (weights.has(other)) {
        const of = weights.get(one);
        of?.set(other, (of.get(other) ?? 0) + weight);
      }
  }
  const rank = new Map(order.map((hop, index) => [hop, index]));
  const left = new Set(order);
  const groups: number[][] = [];
  for (const start of order) {
    if (!left.delete(start)) continue;
    const group = [start];
    const near = new Map<number, number>();
    for (let added = start; group.length < most; ) {
      for (const [other, weight] of weights.get(added)!)
        if (left.has(other)) near.set(other, (near.get(other) ?? 0) + weight);
      const [nearest] = [...near].sort(([a, x], [b, y]) => y - x || rank.get(a)! - rank.get(b)!);
      if (nearest === undefined) break;
      [added] = nearest;
      near.delete(added);
      left.delete(added);
      group.push(added);
    }
    groups.push(group.sort((a, b) => rank.get(a)! - rank.get(b)!));
  }
  return groups;
}

/** Hops by the channels that they may share: of different families none ever uses another's. */
export function familiesOf({ actors }: Problem, order: readonly number[]): readonly (readonly number[])[] {
  const first = new Map<string, number>();
  const above = new Map<number, number>(order.map((hop) => [hop, hop]));
  const rootOf = (hop: number): number => {
    let root = hop;
    while (above.get(root) !== root) root = above.get(root)!;
    above.set(hop, root);
    return root;
  };
  for (const hop of order)
    for (const { channel } of actors[hop]!.choices) {
      const known = first.get(channel);
      if (known === undefined) first.set(channel, hop);
      else above.set(rootOf(hop), rootOf(known));
    }
  return [...Map.groupBy(order, rootOf).values()];
}

/**
 * Groups of hops settled by themselves beside what is fixed: what they come to only grows with all others, so that the sum
 * of their least receivers beyond bounds that of all. Where ours has no more than that, each group has its least in every
 * best choice, and the spectrum that the most demanding group of each family takes is a bound too.
 * @param families their groups, each of hops of one family
 * @param ours what was found
 * @param steps for each group
 */
export function* leastOf(
  problem: Problem,
  families: readonly (readonly (readonly number[])[])[],
  ours: Counted,
  steps: number,
): Generator<void, Counted> {
  const fixed = new Tally(problem);
  for (const [actor, { choices }] of problem.actors.entries()) if (choices.length === 1) fixed.move(actor, 0);
  fixed.refresh();
  let { violations } = fixed.cost;
  let [apartHz, spectrumHz] = [fixed.cost.spectrumHz, fixed.cost.spectrumHz];
  for (const groups of families) {
    let leastHz = leastBeside(problem, groups.flat(), fixed);
    apartHz += leastHz;
    for (const group of groups) {
      const part = partOf(problem, group);
      const tally = yield* searched(part);
      const { isProven } = yield* settledExactly(tally, openOf(part), steps);
      if (!isProven) continue;
      violations += tally.cost.violations;
      leastHz = Math.max(leastHz, tally.cost.spectrumHz - fixed.cost.spectrumHz);
    }
    spectrumHz += leastHz;
  }
  // Bounds are of the powers as they were added up here; ours may be a trace apart.
  return violations < ours.violations
    ? { violations, spectrumHz: Math.min(apartHz, ours.spectrumHz) }
    : { violations: ours.violations, spectrumHz: Math.min(spectrumHz, ours.spectrumHz) };
}

function openOf({ actors }: Problem): readonly number[] {
  return [...actors.keys()].filter((actor) => actors[actor]!.choices.length > 1);
}

/** A group with what is fixed; receivers of the group alone, which no other group counts. */
function partOf({ actors, receivers, links }: Problem, group: readonly number[]): Problem {
  const isIn = new Set(group);
  const kept = actors.flatMap((actor, at) => (isIn.has(at) || actor.choices.length === 1 ? [at] : []));
  const actorAt = new Map(kept.map((old, now) => [old, now]));
  const receiverAt = new Map<number, number>();
  for (const [at, { actor }] of receivers.entries()) if (isIn.has(actor)) receiverAt.set(at, receiverAt.size);
  return {
    actors: kept.map((at) => actors[at]!),
    receivers: [...receiverAt.keys()].map((at) => ({
      ...receivers[at]!,
      actor: actorAt.get(receivers[at]!.actor)!,
    })),
    links: links.flatMap((link) => {
      const [sender, receiver] = [actorAt.get(link.sender), receiverAt.get(link.receiver)];
      return sender === undefined || receiver === undefined ? [] : [{ ...link, sender, receiver }];
    }),
  };
}

/** Hops none of whose channels is in use anyway, no two of which could share one: each takes one of its own. */
function leastBeside({ actors }: Problem, hops: readonly number[], fixed: Tally): number {
  const taken = new Set<string>();
  let widthHz = 0;
  for (const hop of hops) {
    const { choices } = actors[hop]!;
    if (choices.some(({ channel }) => fixed.isUsed(channel) || taken.has(channel))) continue;
    for (const { channel } of choices) taken.add(channel);
    widthHz += Math.min(...choices.map((choice) => choice.widthHz));
  }
  return widthHz;
}
