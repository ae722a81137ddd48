/**
 * Two ways that share nothing, where the shortest one stands in the way of any second: the pair of least length together.
 * After Bhandari: the first way may be taken back hop by hop, and what both use in opposite directions falls out.
 */
import { across, type Graph } from "./graph.js";
import { HOP_M, type Way } from "./shortest.js";

/** A place of the search: a site, entered or left. Only of sites of the first way are the two not one. */
type State = number;

/**
 * @param first the shortest way
 * @param disjoint what they may not share besides `from` and a goal at which both may end
 * @param sharedGoal whether both may end at the same goal
 * @returns undefined where there is no such pair
 */
export function twoWays(
  graph: Graph,
  first: Way,
  isGoal: (site: number) => boolean,
  disjoint: "hop" | "site",
  sharedGoal: boolean,
): readonly [Way, Way] | undefined {
  const from = first.sites[0]!;
  const goal = first.sites.at(-1)!;
  const taken = new Map(first.hops.map((hop, k) => [hop, first.sites[k]!]));
  // Sites that can be passed once only, and are by the first way.
  const split = new Set(disjoint === "site" ? first.sites.slice(1, sharedGoal ? -1 : undefined) : []);
  const entered = (site: number): State => 2 * site;
  const left = (site: number): State => (split.has(site) ? 2 * site + 1 : 2 * site);
  const cost = new Map<State, number>([[left(from), 0]]);
  const by = new Map<State, { readonly state: State; readonly hop: number }>();
  const queue: State[] = [left(from)];
  const waiting = new Set(queue);
  let best: { readonly state: State; readonly cost: number } | undefined;
  // Bellman and Ford by a queue: a hop that is taken back counts less than nothing, but no round does.
  for (let k = 0; k < queue.length; k++) {
    const state = queue[k]!;
    waiting.delete(state);
    const site = state >> 1;
    const isEntered = split.has(site) && state === entered(site);
    const relax = (next: State, hop: number, more: number) => {
      const sum = cost.get(state)! + more;
      if (sum >= (cost.get(next) ?? Number.POSITIVE_INFINITY)) return;
      cost.set(next, sum);
      by.set(next, { state, hop });
      if (!waiting.has(next)) {
        waiting.add(next);
        queue.push(next);
      }
    };
    const ends = isGoal(site) && (sharedGoal || site !== goal) && !(split.has(site) && isEntered);
    if (ends && (best === undefined || cost.get(state)! < best.cost))
      best = { state, cost: cost.get(state)! };
    if (site !== from && split.has(site) && !isEntered) relax(entered(site), -1, 0);
    for (let at = graph.first[site]!; at < graph.first[site + 1]!; at++) {
      const hop = graph.at[at]!;
      const to = across(graph, hop, site);
      const lengthM = HOP_M + graph.lengthM[hop]!;
      const takenFrom = taken.get(hop);
      if (takenFrom === undefined) {
        if (!isEntered && to !== from) relax(entered(to), hop, lengthM);
      } else if (takenFrom === to && (!split.has(site) || isEntered)) relax(left(to), hop, -lengthM);
    }
  }
  if (best === undefined) return undefined;
  const second = new Map<number, number>();
  for (let state = best.state; by.has(state); ) {
    const { state: before, hop } = by.get(state)!;
    if (hop >= 0) second.set(hop, before >> 1);
    state = before;
  }
  return parted(graph, from, taken, second);
}

/** What both ways use falls out, and the rest is two ways. @param one hops with the sites from which they are passed */
function parted(
  graph: Graph,
  from: number,
  one: ReadonlyMap<number, number>,
  second: ReadonlyMap<number, number>,
): readonly [Way, Way] | undefined {
  const left = new Map([...one, ...second].filter(([hop]) => !(one.has(hop) && second.has(hop))));
  const next = (): Way | undefined => {
    const sites = [from];
    const hops: number[] = [];
    for (let site = from; ; ) {
      let found = -1;
      for (let k = graph.first[site]!; k < graph.first[site + 1]! && found < 0; k++)
        if (left.get(graph.at[k]!) === site) found = graph.at[k]!;
      if (found < 0) return hops.length === 0 ? undefined : { sites, hops };
      left.delete(found);
      hops.push(found);
      site = across(graph, found, site);
      sites.push(site);
    }
  };
  const [a, b] = [next(), next()];
  if (a === undefined || b === undefined) return undefined;
  return a.hops.length <= b.hops.length ? [a, b] : [b, a];
}
