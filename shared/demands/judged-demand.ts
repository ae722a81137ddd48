/** One demand: what its way comes to, and what of what it asks that meets. */
import type { Demand } from "../design/demand.js";
import { stepCarrying } from "./capacity.js";
import { secondFeedHops } from "./clocks.js";
import { type FoundOutage, openOf, type Passed, verdictsOf } from "./demand-verdicts.js";
import type { Element } from "./failures.js";
import { latencyOf } from "./latency.js";
import { sentBytes } from "./rates.js";
import type { DemandResult, Route } from "./result.js";
import { type HopShare, protectedOutage, type RouteOutage, routeOutage } from "./route-outage.js";
import type { SecondProblem } from "./routes.js";
import type { Way } from "./shortest.js";
import type { Traffic } from "./traffic.js";

export function judgedDemand(demand: Demand, traffic: Traffic): DemandResult {
  const { taken } = traffic.flows.ranked.get(demand.name)!;
  const routes = traffic.flows.ways.routes.get(demand.name);
  const nothing = { demand, taken, hops: [], verdicts: {}, open: [], short: [], singlePoints: [] };
  if (routes === undefined) return nothing;
  const { first, second, problem } = routes;
  if (first === undefined) return { ...nothing, ...(problem && { problem }) };
  const passed = [...new Set([...first.hops, ...(second?.hops ?? [])])].map((hop) =>
    passedHop(hop, demand, first, second, traffic),
  );
  const secondProblem = routes.secondProblem ?? deadSecond(passed, first);
  const outage = outageOf(passed, first, second);
  const [route, other] = [first, second].map((way) => way && routeOf(way, demand, traffic));
  const clock = clockAt(traffic, demand);
  const told = {
    demand,
    taken,
    route: route!,
    ...(other && { second: other }),
    ...(secondProblem && { secondProblem }),
    hops: passed.map(({ told: one }) => one),
    ...(outage && { outage: outage.told }),
    ...(clock && { clock }),
  };
  return {
    ...told,
    verdicts: verdictsOf(told, outage, passed, traffic),
    open: openOf(told, passed, outage),
    short: passed.filter(({ carries }) => carries === false).map(({ told: { hop } }) => hop),
    singlePoints: singlePointsOf(demand.name, first, traffic),
  };
}

/** A second route of which a hop is out all the time is none. */
function deadSecond(passed: readonly Passed[], first: Way): SecondProblem | undefined {
  const dead = passed.find(
    ({ number, told: { outagePercent = 0 } }) => outagePercent >= 100 && !first.hops.includes(number),
  );
  return dead && { code: "out", hop: dead.told.hop };
}

function passedHop(
  number: number,
  demand: Demand,
  first: Way,
  second: Way | undefined,
  traffic: Traffic,
): Passed {
  const hop = traffic.hops[number]!;
  const { rank, taken } = traffic.flows.ranked.get(demand.name)!;
  const isNormal = first.hops.includes(number);
  const neededBps = traffic.flows.committedUpTo(number, rank) + (isNormal ? 0 : taken.committedBps);
  const step = stepCarrying(hop.capacity, neededBps);
  const sharePercent = shareOf(number, demand, isNormal ? first : second!, second !== undefined, traffic);
  const told = {
    hop: hop.name,
    neededBps,
    ...(sharePercent !== undefined && { sharePercent }),
  };
  const equipment = hop.equipmentFraction === undefined ? {} : { equipmentFraction: hop.equipmentFraction };
  if (step === undefined) {
    // A mode that is not known may carry it.
    if (hop.capacity.length === 0 || hop.capacityPartly) return { number, hop, told };
    const share = { multipathFraction: 1, fadeMarginDb: 0, rainFraction: 0, ...equipment };
    return {
      number,
      hop,
      told: { ...told, outagePercent: 100 },
      carries: false,
      share,
      least: share,
      most: share,
    };
  }
  const { modulation, bps, fadeMarginDb, multipathFraction, rainFraction, rainBound } = step;
  const carrying = { ...told, modulation, bps };
  if (multipathFraction === undefined || rainFraction === undefined)
    return { number, hop, told: carrying, carries: true };
  const share = { multipathFraction, rainFraction, fadeMarginDb, ...equipment };
  return {
    number,
    hop,
    told: { ...carrying, outagePercent: 100 * Math.min(1, multipathFraction + rainFraction) },
    carries: true,
    share,
    least: rainBound === "at most" ? { ...share, rainFraction: 0 } : share,
    most: rainBound === "at least" ? { ...share, rainFraction: 1 } : share,
  };
}

/**
 * What the hop may take of what the demand may lose: by its length along the route (common practice, no source). Of two
 * routes each may lose the square root, as both are seldom down at once.
 */
function shareOf(
  number: number,
  { availabilityPercent }: Demand,
  { hops }: Way,
  isProtected: boolean,
  traffic: Traffic,
): number | undefined {
  if (availabilityPercent === undefined) return undefined;
  const lost = (100 - availabilityPercent) / 100;
  const ofRoute = 100 * (isProtected ? Math.sqrt(lost) : lost);
  const lengthM = hops.reduce((sum, hop) => sum + traffic.hops[hop]!.lengthM, 0);
  return lengthM > 0 ? (ofRoute * traffic.hops[number]!.lengthM) / lengthM : ofRoute / hops.length;
}

function outageOf(passed: readonly Passed[], first: Way, second: Way | undefined): FoundOutage | undefined {
  if (passed.some(({ share }) => share === undefined)) return undefined;
  const outage = (of: (one: Passed) => HopShare): RouteOutage => {
    const on = (is: (hop: number) => boolean) => passed.filter(({ number }) => is(number)).map(of);
    if (second === undefined) return routeOutage(passed.map(of));
    const [one, other] = [new Set(first.hops), new Set(second.hops)];
    return protectedOutage(
      on((hop) => one.has(hop) && other.has(hop)),
      on((hop) => !other.has(hop)),
      on((hop) => !one.has(hop)),
    );
  };
  const found = outage(({ share }) => share!);
  const equipmentKnown = passed.every(({ share }) => share!.equipmentFraction !== undefined);
  return {
    found,
    least: outage(({ least }) => least!),
    most: outage(({ most }) => most!),
    equipmentKnown,
    told: {
      multipathPercent: 100 * found.multipath,
      rainIndependentPercent: 100 * found.rainIndependent,
      rainTogetherPercent: 100 * found.rainTogether,
      mixedPercent: 100 * found.mixed,
      propagationPercent: 100 * found.propagation,
      ...(equipmentKnown && { equipmentPercent: 100 * found.equipment, allPercent: 100 * found.all }),
    },
  };
}

function routeOf({ sites, hops }: Way, demand: Demand, traffic: Traffic): Route {
  const { graph } = traffic.flows.ways;
  const over = hops.map((hop) => {
    const { lengthM, lengthUnknown, capacity, capacityPartly } = traffic.hops[hop]!;
    // Of modes that are not known one may be lower.
    const lowest = capacityPartly ? undefined : capacity[0];
    return { lengthM, lengthUnknown, ...(lowest && { bps: lowest.bps }) };
  });
  return {
    sites: sites.map((site) => graph.sites[site]!),
    hops: hops.map((hop) => graph.hops[hop]!),
    lengthM: over.reduce((sum, { lengthM }) => sum + lengthM, 0),
    latency: latencyOf(over, sentBytes(demand, traffic.terms), traffic.terms, demand),
  };
}

/** Elements between its ends whose failure leaves it without a route. */
function singlePointsOf(name: string, { sites }: Way, { flows: { ways } }: Traffic): readonly Element[] {
  const { lostWith, graph } = ways;
  const ends = [graph.sites[sites[0]!]!, graph.sites[sites.at(-1)!]!];
  return (lostWith.get(name) ?? []).filter(({ kind, name: at }) => !(kind === "site" && ends.includes(at)));
}

/** Of a demand that wants a clock at the site from which it comes. */
function clockAt(
  { flows: { ways }, clocks: { sources, feeds } }: Traffic,
  { from, clock }: Demand,
): DemandResult["clock"] {
  const { graph, shortest } = ways;
  const site = from === undefined ? undefined : graph.siteNumbers.get(from);
  const feed = site === undefined ? undefined : feeds.get(site);
  if (clock === undefined || feed === undefined) return undefined;
  const secondHops = clock === "two-feeds" ? secondFeedHops(graph, shortest, site!, sources) : undefined;
  return {
    source: graph.sites[feed.source]!,
    hops: feed.hops,
    ...(secondHops !== undefined && { secondHops }),
  };
}
