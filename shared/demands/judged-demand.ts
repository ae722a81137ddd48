/** One demand: what its way comes to, and what of what it asks that meets. */
import type { Demand } from "../design/demand.js";
import type { Verdict } from "../evaluate/account/outage-result.js";
import { stepCarrying } from "./capacity.js";
import { secondFeedHops, USUAL_CLOCK_HOPS } from "./clocks.js";
import type { Element } from "./failures.js";
import { latencyOf } from "./latency.js";
import { USUAL_FRAME_BYTES } from "./rates.js";
import type { DemandOutage, DemandResult, HopOfRoute, Route } from "./result.js";
import { type HopShare, protectedOutage, type RouteOutage, routeOutage } from "./route-outage.js";
import type { Way } from "./shortest.js";
import type { HopOfNetwork, Traffic } from "./traffic.js";

export function judgedDemand(demand: Demand, traffic: Traffic): DemandResult {
  const { taken } = traffic.flows.ranked.get(demand.name)!;
  const routes = traffic.flows.ways.routes.get(demand.name);
  const nothing = { demand, taken, hops: [], verdicts: {}, short: [], singlePoints: [] };
  if (routes === undefined) return nothing;
  const { first, second, problem, secondProblem } = routes;
  if (first === undefined) return { ...nothing, ...(problem && { problem }) };
  const passed = [...new Set([...first.hops, ...(second?.hops ?? [])])].map((hop) =>
    passedHop(hop, demand, first, second, traffic),
  );
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
    short: passed.filter(({ carries }) => carries === false).map(({ told: { hop } }) => hop),
    singlePoints: singlePointsOf(demand.name, first, traffic),
  };
}

/** A hop on the way of the demand, with its shares of time at what it may be at least, as computed, and at most. */
interface Passed {
  readonly number: number;
  readonly hop: HopOfNetwork;
  readonly told: HopOfRoute;
  /** False: no mode takes all that must be carried; undefined: no mode is known. */
  readonly carries?: boolean;
  readonly share?: HopShare;
  readonly least?: HopShare;
  readonly most?: HopShare;
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
    if (hop.capacity.length === 0) return { number, hop, told };
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

interface FoundOutage {
  readonly told: DemandOutage;
  readonly found: RouteOutage;
  readonly least: RouteOutage;
  readonly most: RouteOutage;
  readonly equipmentKnown: boolean;
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
  const frameBytes = demand.frameBytes ?? traffic.terms.frameBytes ?? USUAL_FRAME_BYTES;
  const overheadBytes = demand.frameOverheadBytes ?? traffic.terms.frameOverheadBytes ?? 0;
  const over = hops.map((hop) => {
    const { lengthM, capacity } = traffic.hops[hop]!;
    const [lowest] = capacity;
    return { lengthM, ...(lowest && { bps: lowest.bps }) };
  });
  return {
    sites: sites.map((site) => graph.sites[site]!),
    hops: hops.map((hop) => graph.hops[hop]!),
    lengthM: over.reduce((sum, { lengthM }) => sum + lengthM, 0),
    latency: latencyOf(over, frameBytes + overheadBytes, traffic.terms, demand),
  };
}

function verdictsOf(
  told: Omit<DemandResult, "verdicts" | "short" | "singlePoints">,
  outage: FoundOutage | undefined,
  passed: readonly Passed[],
  { terms }: Traffic,
): DemandResult["verdicts"] {
  const { demand, route, second, clock } = told;
  const { availabilityPercent, availabilityWithEquipmentPercent, latencyS } = demand;
  const isOpen = passed.some(({ hop }) => hop.groundUnknown);
  const verdict = (of: (one: RouteOutage) => number, percent: number): Verdict => {
    if (outage === undefined) return "open";
    const allowed = (100 - percent) / 100 + 1e-12;
    if (of(outage.least) > allowed) return "missed";
    return of(outage.most) <= allowed && !isOpen ? "met" : "open";
  };
  const limit = terms.clockHops ?? USUAL_CLOCK_HOPS;
  const clockVerdict = (): Verdict => {
    if (clock === undefined || clock.hops > limit) return "missed";
    if (demand.clock === "one-feed") return "met";
    return clock.secondHops !== undefined && clock.secondHops <= limit ? "met" : "missed";
  };
  const slowestS = Math.max(route!.latency.totalS, second?.latency.totalS ?? 0);
  return {
    ...(availabilityPercent !== undefined && {
      availability: verdict(({ propagation }) => propagation, availabilityPercent),
    }),
    ...(availabilityWithEquipmentPercent !== undefined && {
      availabilityWithEquipment:
        outage === undefined || outage.equipmentKnown
          ? verdict(({ all }) => all, availabilityWithEquipmentPercent)
          : verdict(({ propagation }) => propagation, availabilityWithEquipmentPercent) === "missed"
            ? "missed"
            : "open",
    }),
    ...(latencyS !== undefined && { latency: slowestS <= latencyS ? ("met" as const) : ("missed" as const) }),
    ...(demand.clock !== undefined && { clock: clockVerdict() }),
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
