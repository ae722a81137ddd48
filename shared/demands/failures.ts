/** What moves and what is lost when one hop, site or card of the network fails. */
import type { DemandRoutes, RouteSearch } from "./routes.js";
import { separationOf } from "./separation.js";
import type { Way } from "./shortest.js";

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
  isGoal(site: number): boolean;
  /** It may end at any handover. */
  readonly toAny: boolean;
}

/**
 * Each element that any route passes, hops first, by name. A demand that has a route of its own to stand in takes that as
 * long as it is whole; else, where the network reroutes, the shortest that remains.
 */
export function failuresOf(
  demands: readonly RoutedDemand[],
  search: RouteSearch,
  isRerouting: boolean,
  cards: readonly Extract<Element, { kind: "card" }>[],
): readonly Failure[] {
  const { graph } = search;
  const passing = { hop: groups(demands, ({ hops }) => hops), site: groups(demands, ({ sites }) => sites) };
  const { bridge } = separationOf(graph);
  const failures: Failure[] = [];
  const fail = (
    element: Element,
    hops: ReadonlySet<number>,
    sites: ReadonlySet<number>,
    of: Iterable<RoutedDemand>,
  ) => {
    const lost: string[] = [];
    const moved = new Map<string, Way>();
    const isWhole = (way: Way) =>
      !way.hops.some((hop) => hops.has(hop)) && !way.sites.some((site) => sites.has(site));
    for (const { name, routes, isGoal, toAny } of of) {
      const first = routes.first!;
      const second = routes.second !== undefined && isWhole(routes.second) ? routes.second : undefined;
      // Without a bridge its two sides do not reach each other; another handover may stand on the near side.
      const isParted = element.kind === "hop" && bridge[[...hops][0]!] === 1 && !toAny;
      const way =
        second ??
        (isRerouting && !isParted
          ? search.shortest.find(first.sites[0]!, (site) => isGoal(site) && !sites.has(site), { hops, sites })
          : undefined);
      if (way === undefined) lost.push(name);
      else moved.set(name, way);
    }
    failures.push({ element, lost: lost.sort(), moved });
  };
  for (const [hop, of] of passing.hop)
    fail({ kind: "hop", name: graph.hops[hop]! }, new Set([hop]), NONE, of);
  for (const [site, of] of passing.site)
    fail({ kind: "site", name: graph.sites[site]! }, NONE, new Set([site]), of);
  for (const card of cards) {
    const hops = new Set(card.hops.flatMap((name) => graph.hopNumbers.get(name) ?? []));
    const of = new Set([...hops].flatMap((hop) => passing.hop.get(hop) ?? []));
    if (of.size > 0) fail(card, hops, NONE, of);
  }
  return failures;
}

const NONE: ReadonlySet<number> = new Set();

/** Demands by each number that their first route passes, in its order. */
function groups(
  demands: readonly RoutedDemand[],
  numbers: (way: Way) => readonly number[],
): ReadonlyMap<number, readonly RoutedDemand[]> {
  const by = new Map<number, RoutedDemand[]>();
  for (const demand of demands)
    for (const number of demand.routes.first === undefined ? [] : numbers(demand.routes.first)) {
      const known = by.get(number);
      if (known === undefined) by.set(number, [demand]);
      else known.push(demand);
    }
  return new Map([...by].sort(([a], [b]) => a - b));
}
