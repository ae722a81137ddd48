/** What moves and what is lost when one hop, site or card of the network fails. */
import { GoalTree, type Remaining } from "./goal-tree.js";
import type { Graph } from "./graph.js";
import type { DemandRoutes } from "./routes.js";
import type { Way } from "./shortest.js";
import type { Steps } from "./steps.js";

export type Element =
  | { readonly kind: "hop" | "site"; readonly name: string }
  /** Of a site: all hops whose units are on it. */
  | { readonly kind: "card"; readonly name: string; readonly hops: readonly string[] };

export interface Failure {
  readonly element: Element;
  /** Demands that have no route then, those that begin or end at the site included. */
  readonly lost: readonly string[];
  /** Those that go on over another route, and which. */
  readonly moved: ReadonlyMap<string, Way>;
}

export interface RoutedDemand {
  readonly name: string;
  readonly routes: DemandRoutes;
  /** The same object for all demands that may end at the same sites. */
  readonly goals: ReadonlySet<number>;
}

interface Collected {
  readonly element: Element;
  readonly lost: string[];
  readonly moved: Map<string, Way>;
}

/**
 * Each element that any route passes: hops by name, sites by name, then cards. A demand that has a route of its own to
 * stand in takes that as long as it is whole; else, where the network reroutes, the shortest that remains.
 */
export function* failuresOf(
  demands: readonly RoutedDemand[],
  graph: Graph,
  isRerouting: boolean,
  cards: readonly Extract<Element, { kind: "card" }>[],
): Steps<readonly Failure[]> {
  const ofHops = new Map<number, Collected>();
  const ofSites = new Map<number, Collected>();
  const ofCards = new Map<number, Collected>();
  // Of all demands to the same goals one tree tells what remains.
  for (const [goals, of] of grouped(demands, ({ goals: to }) => [to])) {
    const tree = isRerouting ? new GoalTree(graph, goals) : undefined;
    const fail = (
      failed: Collected,
      hops: ReadonlySet<number>,
      sites: ReadonlySet<number>,
      passing: Iterable<RoutedDemand>,
    ) => {
      let remaining: Remaining | undefined;
      for (const { name, routes } of passing) {
        const isSpared = routes.second !== undefined && isWhole(routes.second, hops, sites);
        const way = isSpared
          ? routes.second
          : (remaining ??= tree?.without(hops, sites))?.(routes.first!.sites[0]!);
        if (way === undefined) failed.lost.push(name);
        else failed.moved.set(name, way);
      }
    };
    const byHop = grouped(of, ({ routes }) => routes.first!.hops);
    let failed = 0;
    for (const [hop, passing] of byHop) {
      fail(at(ofHops, hop, { kind: "hop", name: graph.hops[hop]! }), new Set([hop]), NONE, passing);
      if (++failed % AT_ONCE === 0) yield;
    }
    for (const [site, passing] of grouped(of, ({ routes }) => routes.first!.sites)) {
      fail(at(ofSites, site, { kind: "site", name: graph.sites[site]! }), NONE, new Set([site]), passing);
      if (++failed % AT_ONCE === 0) yield;
    }
    for (const [number, card] of cards.entries()) {
      const hops = new Set(card.hops.flatMap((name) => graph.hopNumbers.get(name) ?? []));
      const passing = new Set([...hops].flatMap((hop) => byHop.get(hop) ?? []));
      if (passing.size > 0) fail(at(ofCards, number, card), hops, NONE, passing);
    }
  }
  return [ofHops, ofSites, ofCards].flatMap((of) =>
    [...of]
      .sort(([a], [b]) => a - b)
      .map(([, { element, lost, moved }]) => ({ element, lost: lost.sort(), moved })),
  );
}

const NONE: ReadonlySet<number> = new Set();
/** So many failures are looked at between two stops. */
const AT_ONCE = 64;

function at(of: Map<number, Collected>, number: number, element: Element): Collected {
  let known = of.get(number);
  if (known === undefined) of.set(number, (known = { element, lost: [], moved: new Map() }));
  return known;
}

function isWhole(way: Way, hops: ReadonlySet<number>, sites: ReadonlySet<number>): boolean {
  return !way.hops.some((hop) => hops.has(hop)) && !way.sites.some((site) => sites.has(site));
}

function grouped<Key>(
  demands: readonly RoutedDemand[],
  keys: (demand: RoutedDemand) => readonly Key[],
): ReadonlyMap<Key, readonly RoutedDemand[]> {
  const by = new Map<Key, RoutedDemand[]>();
  for (const demand of demands)
    for (const key of keys(demand)) {
      const known = by.get(key);
      if (known === undefined) by.set(key, [demand]);
      else known.push(demand);
    }
  return by;
}
