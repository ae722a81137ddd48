/** Figures of demands, hops and failures as tables and pages tell them. */
import {
  areLoadsKnown,
  committedBps,
  sortedFailures,
  type WorstFailure,
} from "../demands/failure-effects.js";
import type { Latency } from "../demands/latency.js";
import type {
  DemandOutage,
  DemandResult,
  DemandsResult,
  ExceededShare,
  HopLoad,
  Route,
} from "../demands/result.js";
import { availabilityBounded, outageBounded } from "../format/bounds.js";
import { apart, availability, bitRate, fixed, kilometres, outage, trimmed } from "../format/numbers.js";
import { elementsWords, elementWords, someOf } from "./demands.js";
import { listed } from "./lists.js";

/** Where nothing is known or asked. */
export const NONE = "–";

/** `MERROW, by handover`: where a demand goes, as far as it is known. */
export function goesTo({ demand: { to }, route }: Pick<DemandResult, "demand" | "route">): string {
  if (to === undefined) return NONE;
  if (to !== "handover") return to.site;
  return route === undefined ? "handover" : route.sites.at(-1)!;
}

/** Every site in turn. */
export function routeWords({ sites, hops, lengthM }: Route): string {
  return `${sites.join(" > ")} (${hops.length} ${hops.length === 1 ? "hop" : "hops"}, ${kilometres(lengthM)})`;
}

/** Two rates, with so many digits that the second does not read as the first. */
export function ratesWords({ taken: { committedBps, peakBps } }: Pick<DemandResult, "taken">): string {
  if (!(peakBps > committedBps)) return bitRate(committedBps);
  const [committed, peak] = apart(bitRate, committedBps, peakBps);
  return committed === peak ? committed : `${committed}, up to ${peak}`;
}

export interface Held {
  readonly found: string;
  readonly asked?: string;
  readonly verdict?: "met" | "missed" | "open";
}

export function availabilityHeld({ demand, outage, verdicts }: DemandResult): Held | undefined {
  const asked = demand.availabilityPercent;
  if (outage === undefined && asked === undefined) return undefined;
  return {
    found: outage === undefined ? NONE : availableWords(outage.propagationPercent, asked),
    ...(asked !== undefined && { asked: availability(asked) }),
    ...(verdicts.availability && { verdict: verdicts.availability }),
  };
}

/** With failures of equipment. */
export function wholeAvailabilityHeld({ demand, outage, verdicts }: DemandResult): Held | undefined {
  const asked = demand.availabilityWithEquipmentPercent;
  if (outage?.allPercent === undefined && asked === undefined) return undefined;
  return {
    found: outage?.allPercent === undefined ? NONE : availableWords(outage.allPercent, asked),
    ...(asked !== undefined && { asked: availability(asked) }),
    ...(verdicts.availabilityWithEquipment && { verdict: verdicts.availabilityWithEquipment }),
  };
}

function availableWords(outPercent: number, asked: number | undefined): string {
  return availabilityBounded({ availabilityPercent: 100 - outPercent }, asked);
}

/** Of the slower of both routes. */
export function slowerLatency({ route, second }: DemandResult): Latency | undefined {
  return second !== undefined && second.latency.totalS > route!.latency.totalS
    ? second.latency
    : route?.latency;
}

export function latencyHeld(one: DemandResult): Held | undefined {
  const { demand, verdicts } = one;
  const slower = slowerLatency(one);
  if (slower === undefined) return undefined;
  const asked = demand.latencyS;
  const { totalS } = slower;
  const found = asked === undefined ? latencyWords(totalS) : apart(latencyWords, totalS, asked)[0];
  return {
    found: slower.isLeast ? `at least ${found}` : found,
    ...(asked !== undefined && { asked: `${trimmed(1000 * asked, 3)} ms` }),
    ...(verdicts.latency && { verdict: verdicts.latency }),
  };
}

function latencyWords(seconds: number, moreDigits = 0): string {
  return `${fixed(1000 * seconds, 2 + moreDigits)} ms`;
}

export function latencyParts({ pathS, radiosS, sitesS, framesS, packetS }: Latency): string {
  const ms = (seconds: number) => `${trimmed(1000 * seconds, 3)} ms`;
  return `path ${ms(pathS)}, radios ${ms(radiosS)}, sites ${ms(sitesS)}, frames ${ms(framesS)}${packetS > 0 ? `, filling of packets ${ms(packetS)}` : ""}`;
}

/** Undefined: it wants none. */
export function clockHeld({ demand, clock, verdicts }: DemandResult): Held | undefined {
  if (demand.clock === undefined) return undefined;
  const hops = (count: number) => `${count} ${count === 1 ? "hop" : "hops"}`;
  const second =
    clock?.secondHops === undefined ? "" : ` (second feed over ${hops(clock.secondHops)}, none shared)`;
  return {
    found:
      clock === undefined ? "none comes there" : `from ${clock.source} over ${hops(clock.hops)}${second}`,
    ...(verdicts.clock && { verdict: verdicts.clock }),
  };
}

/** Undefined: it asks for none. */
export function secondRouteHeld({ demand, second, verdicts }: DemandResult): Held | undefined {
  const { secondRoute } = verdicts;
  if (secondRoute === undefined) return undefined;
  const count = second?.hops.length ?? 0;
  return {
    found: `${second === undefined ? "none" : `over ${count} ${count === 1 ? "hop" : "hops"}`}, no ${demand.secondRoute!.disjoint} shared`,
    verdict: secondRoute,
  };
}

/** What a cause takes of the year; rain between as if on each hop by itself and as if on all at once. */
export function causesOf(outage: DemandOutage): readonly (readonly [cause: string, share: string])[] {
  const { multipathPercent, rainIndependentPercent, rainTogetherPercent, mixedPercent, equipmentPercent } =
    outage;
  const share = (timePercent: number) => (timePercent > 0 ? outageBounded({ timePercent }) : "0 %");
  const rain = [rainIndependentPercent, rainTogetherPercent].sort((a, b) => a - b).map(share);
  return [
    ["multipath", share(multipathPercent)],
    ["rain", rain[0] === rain[1] ? rain[0]! : `${rain[0]} to ${rain[1]}`],
    ...(mixedPercent > 0 ? ([["both routes, different causes", share(mixedPercent)]] as const) : []),
    ["equipment", equipmentPercent === undefined ? "not known" : share(equipmentPercent)],
  ];
}

export function worstFailureWords(worst: WorstFailure | undefined, most = 3): string {
  switch (worst?.effect) {
    case undefined:
      return NONE;
    case "lost":
      return `lost without ${elementsWords(worst.elements, most)}`;
    case "overloads":
      return `moves without ${elementWords(worst.element)}; then ${someOf(worst.hops, most)} ${worst.hops.length === 1 ? "is" : "are"} overloaded`;
    case "moves":
      return "moves, overloads nothing";
  }
}

/** `41 %` of what is carried; undefined: that is not known. */
export function loadShare(committedBps: number, carriedBps: number | undefined): number | undefined {
  return carriedBps !== undefined && carriedBps > 0 ? (100 * committedBps) / carriedBps : undefined;
}

/** Never the full hundred for what is a little more or less. */
export function loadWords(sharePercent: number | undefined): string {
  if (sharePercent === undefined) return NONE;
  return `${apart((value, more = 0) => trimmed(value, more), sharePercent, 100)[0]} %`;
}

/** What a hop carries, and for which share of the year. */
export function carriedWords(load: Pick<HopLoad, "carriedBps" | "percent" | "carriedAs">): string {
  if (load.carriedBps === undefined) return NONE;
  // The share of time is what is asked: the mode itself may stand for longer.
  const asked = load.carriedAs === "share" ? " asked" : "";
  return `${bitRate(load.carriedBps)} ${carriedWhen(load, "for")}${asked}`;
}

/** `for 99.99 %`, `in clear air`: when it carries what it is said to carry. */
export function carriedWhen(
  { percent, carriedAs }: Pick<HopLoad, "percent" | "carriedAs">,
  preposition: "for" | "at",
): string {
  switch (carriedAs) {
    case "share":
      return `${preposition} ${availability(percent!)}`;
    case "in use":
      return "in the mode in use";
    default:
      return "in clear air";
  }
}

/** `98.7 Mbit/s in year 5, 52 %` of what it carries; undefined: it is never more than today. */
export function grownWords({ grown, carriedBps }: Pick<HopLoad, "grown" | "carriedBps">): string | undefined {
  if (grown === undefined) return undefined;
  const { year, committedBps } = grown;
  return `${bitRate(committedBps)} in year ${year}, ${loadWords(loadShare(committedBps, carriedBps))}`;
}

/** What outgrows a hop first, as the network is and when an element fails; none: within all horizons nothing does. */
export function outgrownWords({ outgrown, outgrownWithout }: HopLoad): readonly string[] {
  return [
    ...(outgrown === undefined ? [] : [`outgrown in year ${outgrown.year}`]),
    ...(outgrownWithout === undefined
      ? []
      : [`outgrown in year ${outgrownWithout.year} without ${elementWords(outgrownWithout.element)}`]),
  ];
}

/** What its own objective and its demands leave a hop, and which of them holds. */
export function shareHeldWords({
  demand,
  leftPercent,
  ownPercent,
  stricter,
}: NonNullable<HopLoad["share"]>): string {
  const [left, own] = apart(outage, leftPercent, ownPercent ?? leftPercent);
  if (ownPercent === undefined) return `${demand} leaves it ${left}, by length`;
  return stricter === "demand"
    ? `${demand} leaves it ${left}, by length, stricter than the ${own} of its own objective`
    : `its own objective leaves it ${own}, which is no less strict than the ${left} of ${demand}, by length`;
}

/** The one of both that holds, as an availability. */
export function stricterWords({
  demand,
  leftPercent,
  ownPercent,
  stricter,
}: NonNullable<HopLoad["share"]>): string {
  return stricter === "objective"
    ? `its own objective, ${availability(100 - ownPercent!)}`
    : `the share of ${demand}, ${availability(100 - leftPercent)}`;
}

/** What it takes of the year in the mode that carries the demand, and who makes up for it. */
export function exceededWords({
  leftPercent,
  outagePercent,
  modulation,
  othersMakeUp,
}: ExceededShare): string {
  const [takes, left] = apart(outage, outagePercent, leftPercent);
  const mode = modulation === undefined ? "no mode carries it" : `with ${modulation}, which carries it`;
  return `${takes} ${mode}, ${left} are left${othersMakeUp ? "; other hops on its way take less than theirs and make up for it" : ""}`;
}

/** Hops that carry something, or would when something fails; the fullest in the worst failure first. */
export function loadedHops({ hops }: Pick<DemandsResult, "hops">): readonly HopLoad[] {
  const fullness = ({ committedBps, worst, carriedBps = 0 }: HopLoad) =>
    (worst?.committedBps ?? committedBps) / Math.max(1, carriedBps);
  return [...hops.values()]
    .filter(({ demands, worst }) => demands.length > 0 || worst !== undefined)
    .sort((a, b) => fullness(b) - fullness(a));
}

/** What is not told one by one, a sentence each. */
export function milderFailures(result: DemandsResult): readonly string[] {
  const { ownOnly, movedOnly } = sortedFailures(result);
  const known = areLoadsKnown(result) ? "" : ", as far as it is known what hops carry";
  return [
    ...(movedOnly === 0
      ? []
      : [`${movedOnly} more: traffic moves, nothing is lost and no hop is overloaded${known}`]),
    ...(ownOnly === 0
      ? []
      : [`${ownOnly} ${ownOnly === 1 ? "site" : "sites"}: only what comes from there is lost`]),
  ];
}

/** Rings and meshes by their sites, a sentence each. */
export function ringsWords({ rings, meshes }: Pick<DemandsResult, "rings" | "meshes">): readonly string[] {
  return [
    ...rings.map(({ sites }) => `ring ${sites.join(" - ")}`),
    ...meshes.map(
      ({ sites, hops }) => `mesh of ${sites.length} sites and ${hops.length} hops: ${someOf(sites, 8)}`,
    ),
  ];
}

/** How many, how much, and how many of them miss something. */
export function demandsWords({ demands }: Pick<DemandsResult, "demands">): string {
  const all = [...demands.values()];
  const missed = all.filter(missesSomething).length;
  const asked = missed === 0 ? "" : `, ${missed} of them ${missed === 1 ? "misses" : "miss"} something`;
  return `${all.length} ${all.length === 1 ? "demand" : "demands"}, ${bitRate(committedBps(all))} committed${asked}`;
}

/** It has no route, or not all that it asks. */
export function missesSomething({ problem, short, verdicts }: DemandResult): boolean {
  return problem !== undefined || short.length > 0 || Object.values(verdicts).includes("missed");
}

/** What the figures rest on, for whoever reads them: what the network leaves to us is told where we took it. */
export function demandsRestOn({ demands, hops, defaults }: DemandsResult): readonly string[] {
  const taken = [
    ...(defaults.hopLatency ? ["200 us for both radios of a hop"] : []),
    ...(defaults.siteLatency ? ["20 us for a site"] : []),
    ...(defaults.frameBytes ? ["frames of 512 bytes"] : []),
  ];
  const own = taken.length === 0 ? "" : ` Not stated, so figures of our own are taken: ${listed(taken)}.`;
  const clocks = defaults.clockHops
    ? " Clocks pass at most 20 hops, after ITU-T G.803, from memory, since the network states no number."
    : "";
  const all = [...demands.values()];
  const grows = all.some(({ demand }) => demand.growthPercent !== undefined)
    ? " Growth goes from today's figures, year 0, to the horizon of each demand, and stays there; hops carry then what they carry today."
    : "";
  const inUse = [...hops.values()].some(({ carriedAs }) => carriedAs === "in use")
    ? " In the mode in use: demands that hold end to end run in a mode that carries more than the strictest share on the hop would leave."
    : "";
  return [
    `Committed counts with what the network adds to each frame, and TDM as it is carried. Each hop counts in the lowest mode that carries all that is committed on it up to the demand: by demands of higher priority, of the same priority by those that may fail less, and by those alike in both, which go together.${inUse}${grows}`,
    "Multipath of neighbouring hops follows Rec. ITU-R P.530-18 section 2.3.7, from memory, not checked against it; rain is told as if on each hop by itself and as if on all at once, the truth lies between, and the worse of both counts. A second route of its own counts, rerouting does not.",
    `The share of a hop in what a demand may lose goes by its length along the route: common practice, no source; of two routes each may lose the square root, as both are seldom down at once. Frames take the time of the lowest mode of each hop, which a fade may leave; of TDM in packets the filling of a packet counts, the buffer that evens them out does not.${own}${clocks}`,
  ];
}
