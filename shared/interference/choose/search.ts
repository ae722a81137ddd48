/** A good assignment: one hop after another, then whatever move makes it better, until none does. */
import { type Cost, compareCost, OPEN, type Problem, Tally } from "./problem.js";

/** Rounds over all hops; each ends sooner where nothing moves any more. */
const MOST_ROUNDS = 12;

/** @yields now and then, so that others may work or break it off */
export function* searched(problem: Problem): Generator<void, Tally> {
  const tally = new Tally(problem);
  for (const [actor, { choices }] of problem.actors.entries()) if (choices.length === 1) tally.move(actor, 0);
  const order = heardMostFirst(problem);
  for (const actor of order) {
    toBest(tally, actor);
    yield;
  }
  yield* improved(tally, order);
  return tally;
}

/** Moves single hops, and gives up channels, as long as that is better. */
export function* improved(tally: Tally, order: readonly number[]): Generator<void> {
  for (let round = 0; round < MOST_ROUNDS; round++) {
    tally.refresh();
    const before = tally.cost;
    for (const actor of order) {
      toBest(tally, actor);
      yield;
    }
    yield* withoutChannels(tally, order);
    tally.refresh();
    if (compareCost(tally.cost, before) >= 0) return;
  }
}

/** Those with a choice; what they do to others and others to them at most decides, then their names. */
export function heardMostFirst({ actors, receivers, links }: Problem): readonly number[] {
  const weights = new Float64Array(actors.length);
  for (const { sender, receiver, sum } of links) {
    const weight = Math.log1p(Math.max(...sum));
    weights[sender]! += weight;
    weights[receivers[receiver]!.actor]! += weight;
  }
  const byName = (a: number, b: number) => (actors[a]!.name < actors[b]!.name ? -1 : 1);
  return [...actors.keys()]
    .filter((actor) => actors[actor]!.choices.length > 1)
    .sort((a, b) => weights[b]! - weights[a]! || byName(a, b));
}

/** The best choice with all others as they are; of equal ones what it has, else the first. */
function toBest(tally: Tally, actor: number, isAllowed: (channel: string) => boolean = () => true): void {
  const { choices } = tally.problem.actors[actor]!;
  const has = tally.chosen[actor]!;
  let [best, least]: [number, Cost | undefined] = [has, has === OPEN ? undefined : tally.cost];
  if (has !== OPEN && !isAllowed(choices[has]!.channel)) least = undefined;
  for (const [choice, { channel }] of choices.entries()) {
    if (choice === has || !isAllowed(channel)) continue;
    tally.move(actor, choice);
    const { cost } = tally;
    if (least === undefined || compareCost(cost, least) < 0) [best, least] = [choice, cost];
  }
  tally.move(actor, best);
}

/** Gives up one channel after another, those with the fewest users first, where the others can hold them. */
function* withoutChannels(tally: Tally, order: readonly number[]): Generator<void> {
  const { actors } = tally.problem;
  const fewest = [...tally.channels()].sort(([a, n], [b, m]) => n - m || (a < b ? -1 : 1));
  for (const [channel] of fewest) {
    const using = order.filter((actor) => channelOf(tally, actor) === channel);
    const all = [...actors.keys()].filter((actor) => channelOf(tally, actor) === channel);
    // One that is fixed there stays.
    if (using.length === 0 || using.length < all.length) continue;
    const [before, was] = [tally.cost, using.map((actor) => tally.chosen[actor]!)];
    for (const actor of using)
      toBest(
        tally,
        actor,
        (other) => other !== channel && (tally.isUsed(other) || !hasAnother(tally, actor, channel)),
      );
    yield;
    if (compareCost(tally.cost, before) < 0) continue;
    for (const [index, actor] of using.entries()) tally.move(actor, was[index]!);
  }
}

/** Whether a hop may be given a channel in use beside the one to be given up. */
function hasAnother(tally: Tally, actor: number, without: string): boolean {
  return tally.problem.actors[actor]!.choices.some(
    ({ channel }) => channel !== without && tally.isUsed(channel),
  );
}

function channelOf(tally: Tally, actor: number): string | undefined {
  const choice = tally.chosen[actor]!;
  return choice === OPEN ? undefined : tally.problem.actors[actor]!.choices[choice]!.channel;
}
