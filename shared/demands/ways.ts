/**
 * The part of demands that rests on the map alone: routes and what failures do to them. It stays as it is while hops keep
 * their ends and demands their routes, whatever else is edited.
 */
import type { Demand, TrafficAtSite, TrafficTerms } from "../design/demand.js";
import type { Site } from "../design/design.js";
import { inverse } from "../geodesy/geodesic.js";
import { type Element, type Failure, failuresOf, type RoutedDemand } from "./failures.js";
import { type Graph, type GraphHop, graphOf } from "./graph.js";
import { type DemandRoutes, type RouteSearch, routesOf } from "./routes.js";
import { ringOf, separationOf } from "./separation.js";
import { Shortest } from "./shortest.js";
import type { Steps } from "./steps.js";

/** So many routes are sought between two stops. */
const AT_ONCE = 64;

/** Sites nearer to each other than this stand on one structure for a second route; ours. */
const ONE_STRUCTURE_M = 100;

export interface WaysInputs {
  readonly hops: readonly GraphHop[];
  readonly demands: ReadonlyMap<string, Demand>;
  readonly terms: TrafficTerms;
  readonly atSites: ReadonlyMap<string, TrafficAtSite>;
  readonly sites: ReadonlyMap<string, Site>;
  readonly cards: readonly Extract<Element, { kind: "card" }>[];
}

export interface Ways {
  /** What it was made from. */
  readonly from: WaysInputs;
  readonly graph: Graph;
  readonly shortest: Shortest;
  readonly handovers: ReadonlySet<number>;
  /** Of the demands that say from where to where. */
  readonly routes: ReadonlyMap<string, DemandRoutes>;
  readonly failures: readonly Failure[];
  /** By demand: what it has no route without, its ends included. */
  readonly lostWith: ReadonlyMap<string, readonly Element[]>;
  readonly rings: readonly { readonly sites: readonly number[]; readonly hops: readonly number[] }[];
  readonly meshes: readonly { readonly sites: readonly number[]; readonly hops: readonly number[] }[];
}

/** @param known goes on where it holds */
export function* waysOf(inputs: WaysInputs, known: Ways | undefined): Steps<Ways> {
  if (known !== undefined && isSameMap(known.from, inputs)) return known;
  const graph = graphOf(inputs.hops);
  const shortest = new Shortest(graph);
  const handovers = numbersOf(graph, inputs.atSites, ({ handover }) => handover === true);
  const idleHandover = [...inputs.atSites].find(([name, at]) => at.handover && !graph.siteNumbers.has(name));
  const search: RouteSearch = {
    graph,
    shortest,
    handovers,
    idleHandover: idleHandover?.[0],
    near: nearOf(graph, inputs.sites),
  };
  const routes = new Map<string, DemandRoutes>();
  const routed: RoutedDemand[] = [];
  const singles = new Map<number, ReadonlySet<number>>();
  const one = (goal: number) => {
    let known = singles.get(goal);
    if (known === undefined) singles.set(goal, (known = new Set([goal])));
    return known;
  };
  let sought = 0;
  for (const demand of inputs.demands.values()) {
    if (++sought % AT_ONCE === 0) yield;
    const found = routesOf(demand, search);
    if (found === undefined) continue;
    routes.set(demand.name, found);
    if (found.first === undefined) continue;
    const { to } = demand;
    const goal = to === "handover" || to === undefined ? undefined : graph.siteNumbers.get(to.site);
    routed.push({ name: demand.name, routes: found, goals: goal === undefined ? handovers : one(goal) });
  }
  const blocks = separationOf(graph).blocks.map((block) => ({ block, ring: ringOf(graph, block) }));
  const failures = yield* failuresOf(routed, graph, inputs.terms.rerouting !== "none", inputs.cards);
  const lostWith = new Map<string, Element[]>();
  for (const { element, lost } of failures)
    for (const name of lost) {
      const known = lostWith.get(name);
      if (known === undefined) lostWith.set(name, [element]);
      else known.push(element);
    }
  return {
    from: inputs,
    graph,
    shortest,
    handovers,
    routes,
    failures,
    lostWith,
    rings: blocks.flatMap(({ ring }) => ring ?? []),
    meshes: blocks.flatMap(({ block, ring }) => (ring === undefined ? [block] : [])),
  };
}

export function numbersOf(
  { siteNumbers }: Graph,
  atSites: ReadonlyMap<string, TrafficAtSite>,
  is: (at: TrafficAtSite) => boolean,
): ReadonlySet<number> {
  return new Set([...atSites].flatMap(([name, at]) => (is(at) ? (siteNumbers.get(name) ?? []) : [])));
}

/** Whether routes and failures are the same: most is the same object, and little of the rest counts. */
function isSameMap(a: WaysInputs, b: WaysInputs): boolean {
  return (
    a.terms.rerouting === b.terms.rerouting &&
    isSameList(a.hops, b.hops, isSameHop) &&
    isSameList([...a.demands.values()], [...b.demands.values()], isSameDemand) &&
    isSameJson([...a.atSites], [...b.atSites]) &&
    isSameJson(a.cards, b.cards) &&
    isSameJson(placesOf(a), placesOf(b))
  );
}

function isSameHop(a: GraphHop, b: GraphHop): boolean {
  return (
    a.name === b.name && a.lengthM === b.lengthM && a.sites[0] === b.sites[0] && a.sites[1] === b.sites[1]
  );
}

function isSameDemand(a: Demand, b: Demand): boolean {
  const asked = ({ name, from, to, via, secondRoute }: Demand) => [name, from, to, via, secondRoute];
  return a === b || isSameJson(asked(a), asked(b));
}

/** Of use only where second routes keep off structures. */
function placesOf({ demands, sites }: WaysInputs): readonly unknown[] {
  const needed = [...demands.values()].some(({ secondRoute }) => secondRoute?.disjoint === "structure");
  return needed ? [...sites.values()].map(({ name, position }) => [name, position]) : [];
}

function isSameList<T>(a: readonly T[], b: readonly T[], isSame: (a: T, b: T) => boolean): boolean {
  return a.length === b.length && a.every((one, index) => isSame(one, b[index]!));
}

function isSameJson(a: unknown, b: unknown): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}

function nearOf(graph: Graph, sites: ReadonlyMap<string, Site>): RouteSearch["near"] {
  const known = new Map<number, readonly number[]>();
  return (site) => {
    let near = known.get(site);
    if (near === undefined) {
      const here = sites.get(graph.sites[site]!)?.position;
      near = graph.sites.flatMap((name, other) => {
        const there = sites.get(name)?.position;
        if (other === site || here === undefined || there === undefined) return [];
        // Most are ruled out by their latitude: a degree is 110 km and more.
        if (Math.abs(here.latitudeDeg - there.latitudeDeg) > ONE_STRUCTURE_M / 100_000) return [];
        return inverse({ from: here, to: there }).distanceM < ONE_STRUCTURE_M ? [other] : [];
      });
      known.set(site, near);
    }
    return near;
  };
}
