/** The ways of a demand: its route as stated or found, and a second where one is asked for. */
import type { Demand, RoutePoint } from "../design/demand.js";
import type { Graph } from "./graph.js";
import type { Shortest, Way, Without } from "./shortest.js";
import { twoWays } from "./two-ways.js";

export type RouteProblem =
  /** No hop ends there. */
  | { readonly code: "off-network"; readonly site: string }
  /** `stated`: a site that states one, though no hop ends there. */
  | { readonly code: "no-handover"; readonly stated?: string }
  | { readonly code: "no-route" }
  | { readonly code: "unreached"; readonly point: string }
  | { readonly code: "passed-twice"; readonly site: string };

export type SecondProblem =
  /** A hop that the first route does not pass is out all the time for it. */
  | { readonly code: "out"; readonly hop: string }
  | { readonly code: "none-apart" }
  | { readonly code: "unreached"; readonly point: string }
  | { readonly code: "passed-twice"; readonly site: string }
  /** As stated it shares what it may not. */
  | { readonly code: "shares"; readonly hop?: string; readonly site?: string };

export interface DemandRoutes {
  readonly first?: Way;
  readonly problem?: RouteProblem;
  readonly second?: Way;
  readonly secondProblem?: SecondProblem;
}

/** The network as routes are sought in it. */
export interface RouteSearch {
  readonly graph: Graph;
  readonly shortest: Shortest;
  readonly handovers: ReadonlySet<number>;
  /** A site that states a handover, though no hop ends there. */
  readonly idleHandover?: string | undefined;
  /** Sites on one structure with another, itself left out. */
  near(site: number): readonly number[];
}

/** @returns undefined where the demand does not say from where to where */
export function routesOf(
  { from, to, via, secondRoute }: Pick<Demand, "from" | "to" | "via" | "secondRoute">,
  search: RouteSearch,
): DemandRoutes | undefined {
  if (from === undefined || to === undefined) return undefined;
  const { graph, handovers } = search;
  const begin = graph.siteNumbers.get(from);
  if (begin === undefined) return { problem: { code: "off-network", site: from } };
  if (to === "handover" && handovers.size === 0) {
    const stated = search.idleHandover;
    return { problem: { code: "no-handover", ...(stated !== undefined && { stated }) } };
  }
  const end = to === "handover" ? undefined : graph.siteNumbers.get(to.site);
  if (to !== "handover" && end === undefined) return { problem: { code: "off-network", site: to.site } };
  const isGoal = (site: number) => (end === undefined ? handovers.has(site) : site === end);
  const found = passing(begin, isGoal, via ?? [], {}, search);
  if ("problem" in found) return found;
  const { way: first } = found;
  if (secondRoute === undefined) return { first };
  return { first, ...secondOf(first, isGoal, { secondRoute, isStated: via !== undefined }, search) };
}

type Passing =
  | { readonly way: Way }
  | { readonly problem: Exclude<RouteProblem, { code: "off-network" | "no-handover" }> };

/** Leg by leg from point to point, each the shortest that keeps off what was passed before. */
function passing(
  begin: number,
  isGoal: (site: number) => boolean,
  via: readonly RoutePoint[],
  without: Without,
  { graph, shortest }: RouteSearch,
): Passing {
  const sites = [begin];
  const hops: number[] = [];
  const add = (leg: Way) => {
    hops.push(...leg.hops);
    sites.push(...leg.sites.slice(1));
  };
  const leg = (goal: (site: number) => boolean): boolean => {
    const passed = new Set([...(without.sites ?? []), ...sites.slice(0, -1)]);
    const here = sites.at(-1)!;
    // Where only a way through what was passed leads on, that is found, and told as passed twice.
    const way =
      shortest.find(here, goal, { hops: without.hops, sites: passed }) ?? shortest.find(here, goal, without);
    if (way !== undefined) add(way);
    return way !== undefined;
  };
  for (const point of via) {
    const name = "site" in point ? point.site : point.hop;
    if ("site" in point) {
      const site = graph.siteNumbers.get(point.site);
      if (site === undefined || !leg((one) => one === site))
        return { problem: { code: "unreached", point: name } };
      continue;
    }
    const hop = graph.hopNumbers.get(point.hop);
    if (hop === undefined) return { problem: { code: "unreached", point: name } };
    const [one, other] = [graph.one[hop]!, graph.other[hop]!];
    // To its nearer end without passing it, and over it.
    const apart = { sites: without.sites, hops: new Set([...(without.hops ?? []), hop]) };
    const passed = new Set([...(without.sites ?? []), ...sites.slice(0, -1)]);
    const way =
      shortest.find(sites.at(-1)!, (site) => site === one || site === other, { ...apart, sites: passed }) ??
      shortest.find(sites.at(-1)!, (site) => site === one || site === other, apart);
    if (way === undefined || without.hops?.has(hop)) return { problem: { code: "unreached", point: name } };
    add(way);
    hops.push(hop);
    sites.push(sites.at(-1) === one ? other : one);
  }
  if (!(sites.length > 1 && isGoal(sites.at(-1)!)) && !leg(isGoal)) return { problem: { code: "no-route" } };
  const twice = sites.find((site, k) => sites.indexOf(site) !== k);
  if (twice !== undefined) return { problem: { code: "passed-twice", site: graph.sites[twice]! } };
  return { way: { sites, hops } };
}

function secondOf(
  first: Way,
  isGoal: (site: number) => boolean,
  {
    secondRoute,
    isStated,
  }: { readonly secondRoute: NonNullable<Demand["secondRoute"]>; readonly isStated: boolean },
  search: RouteSearch,
): Pick<DemandRoutes, "first" | "second" | "secondProblem"> {
  const { graph } = search;
  const { disjoint, via } = secondRoute;
  const begin = first.sites[0]!;
  const goal = first.sites.at(-1)!;
  // A handover may fail like any other site: where there is another to end at, that is taken.
  const hasOther = disjoint !== "hop" && graph.sites.some((_, site) => site !== goal && isGoal(site));
  const passed = disjoint === "hop" ? [] : first.sites.slice(1, hasOther ? undefined : -1);
  const shared = disjoint === "structure" ? passed.flatMap((site) => [site, ...search.near(site)]) : passed;
  const without = {
    hops: new Set(first.hops),
    sites: new Set(shared.filter((site) => site !== begin && (hasOther || site !== goal))),
  };
  if (via !== undefined) {
    const stated = passing(begin, isGoal, via, {}, search);
    if ("problem" in stated)
      return { secondProblem: stated.problem.code === "no-route" ? { code: "none-apart" } : stated.problem };
    const hop = stated.way.hops.find((one) => without.hops.has(one));
    const site = stated.way.sites.find((one) => without.sites.has(one));
    if (hop !== undefined)
      return { second: stated.way, secondProblem: { code: "shares", hop: graph.hops[hop]! } };
    if (site !== undefined)
      return { second: stated.way, secondProblem: { code: "shares", site: graph.sites[site]! } };
    return { second: stated.way };
  }
  const second = search.shortest.find(begin, (site) => isGoal(site) && !without.sites.has(site), without);
  if (second !== undefined) return { second };
  if (isStated || disjoint === "structure") return { secondProblem: { code: "none-apart" } };
  const pair = twoWays(graph, first, isGoal, disjoint, !hasOther);
  return pair === undefined ? { secondProblem: { code: "none-apart" } } : { first: pair[0], second: pair[1] };
}
