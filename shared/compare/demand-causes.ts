/**
 * Why a demand, or what a hop must carry, is other than before. What was decided of the demand itself comes first. A hop
 * is named where it came or went on the way, or where, with the same to carry, it does something else to the figures
 * concerned; another demand where it was edited and brings something else to the hops concerned. Nothing else is named.
 */
import { type Capacity, carriedAt, clearAirBps, stepCarrying } from "../demands/capacity.js";
import { goesNoLater } from "../demands/flows.js";
import type { HopChange, SharedChange } from "./change-set.js";
import type { DemandFigureChange } from "./demand-change.js";
import type { DemandSide } from "./demand-side.js";
import type { FindingChange } from "./findings.js";

/** What demands take of a hop. */
export interface HopOffer {
  readonly capacity: Capacity;
  readonly lengthM?: number;
  readonly equipmentPercent?: number;
}

export interface CauseContext {
  readonly was: DemandSide;
  readonly is: DemandSide;
  readonly hops: ReadonlyMap<string, HopChange>;
  readonly shared: readonly SharedChange[];
  /** By its new name; undefined: it is not there, or could not be evaluated. */
  offers?(hop: string): readonly [HopOffer | undefined, HopOffer | undefined];
}

export interface ChangedDemand {
  readonly demand: string;
  readonly figures: readonly DemandFigureChange[];
  readonly findings: readonly FindingChange[];
  /** Hops, by their new names, that the findings are about. */
  readonly about: readonly string[];
}

/** What of a demand is concerned; what its text alone says, or a site has, is none of these. */
type Facet = "way" | "time" | "equipment" | "latency" | "share" | "load";

const OF_FIGURES: Readonly<Record<DemandFigureChange["kind"], Facet>> = {
  route: "way",
  "second-route": "way",
  availability: "time",
  "availability-with-equipment": "equipment",
  latency: "latency",
  stricter: "share",
  load: "load",
  growth: "load",
};

const OF_RULES: ReadonlyMap<string, readonly Facet[]> = new Map([
  ["demand-route", ["way"]],
  ["demand-second-route", ["way"]],
  ["demand-clock", ["way"]],
  ["demand-availability", ["time", "equipment"]],
  ["demand-latency", ["latency"]],
  ["demand-capacity", ["load"]],
  ["demand-growth", ["load"]],
  ["failure-overloads", ["load"]],
  ["failure-growth", ["load"]],
  ["demand-not-judged", ["way"]],
  // Of what it accepts something else is found, or it is told elsewhere.
  ["acceptance-unused", ["way", "time", "load"]],
]);

export function causesOfDemand(changed: ChangedDemand, context: CauseContext): string[] {
  const { demand, figures, findings, about } = changed;
  const facets = new Set([
    ...figures.map(({ kind }) => OF_FIGURES[kind]),
    ...findings.flatMap(({ rule }) => OF_RULES.get(rule) ?? []),
  ]);
  const way = new Set([...context.was.way(demand), ...context.is.way(demand)]);
  const hops = new Set<string>();
  const demands = new Set<string>();
  const put = ({ of, by }: Causes) => {
    for (const hop of of) hops.add(hop);
    for (const name of by) demands.add(name);
  };
  for (const hop of way) {
    if (facets.size > 0 && cameOrWent(hop, context)) hops.add(hop);
    if (facets.has("way") && isOtherWay(context.hops.get(hop))) hops.add(hop);
    if (facets.has("latency") && isOtherLength(hop, context)) hops.add(hop);
    if (facets.has("equipment") && isOtherEquipment(hop, context)) hops.add(hop);
    if (facets.has("share")) put(shareCauses(hop, context));
  }
  if (facets.has("time") || facets.has("equipment")) put(timeCauses(demand, way, context));
  if (facets.has("load")) {
    const told = findings.some(({ rule, is, was }) => OF_RULES.has(rule) && (is ?? was)?.about === undefined);
    for (const hop of new Set([...about, ...(about.length === 0 || told ? way : [])]))
      put(loadCauses(hop, context));
  }
  demands.delete(demand);
  return [
    ...(isDecided(demand, context) ? [`demand ${demand}`] : []),
    ...[...context.hops.values()].filter(({ hop }) => hops.has(hop)).map(hopWords),
    ...[...demands].map((name) => `demand ${name}`).sort(),
  ];
}

export function causesOfLoad(hop: string, context: CauseContext): string[] {
  const { of, by } = loadCauses(hop, context);
  return [
    ...[...by].map((name) => `demand ${name}`).sort(),
    ...[...context.hops.values()].filter((one) => of.has(one.hop)).map(hopWords),
    ...context.shared.filter(({ entry }) => entry === "traffic").map(({ entry }) => entry),
  ];
}

function hopWords({ hop, status, byState }: HopChange): string {
  if (status === "changed") return `hop ${hop}`;
  if (status === "not judged") return `hop ${hop}, not judged any more`;
  return `hop ${hop} ${byState ? (status === "added" ? "stands" : "does not stand") : status}`;
}

function isDecided(demand: string, { shared }: CauseContext): boolean {
  const own = shared.find(({ entry }) => entry === `demand ${demand}`);
  return (
    own !== undefined && (own.status !== "changed" || own.decisions.some(({ word }) => word !== "title"))
  );
}

function cameOrWent(hop: string, { hops }: CauseContext): boolean {
  const change = hops.get(hop);
  return change !== undefined && change.status !== "changed";
}

/** Routes rest on where hops end, and how long they are. */
function isOtherWay(change: HopChange | undefined): boolean {
  return (
    change !== undefined &&
    (change.decisions.some(({ word }) => word === "end") ||
      change.figures.some(({ kind }) => kind === "length"))
  );
}

function isOtherLength(hop: string, { offers }: CauseContext): boolean {
  const [was, is] = offers?.(hop) ?? [];
  return was?.lengthM !== is?.lengthM || was?.capacity[0]?.bps !== is?.capacity[0]?.bps;
}

function isOtherEquipment(hop: string, { offers }: CauseContext): boolean {
  const [was, is] = offers?.(hop) ?? [];
  return was?.equipmentPercent !== is?.equipmentPercent;
}

interface Causes {
  readonly of: ReadonlySet<string>;
  readonly by: ReadonlySet<string>;
}

/** The one that leaves a hop least is another, or leaves it something else. */
function shareCauses(hop: string, context: CauseContext): Causes {
  const [then, now] = [context.was.load(hop)?.share, context.is.load(hop)?.share];
  const isOther = then?.stricter !== now?.stricter || then?.demand !== now?.demand;
  const names = isOther ? [then?.demand, now?.demand].filter((name) => name !== undefined) : [];
  const isAskedElse = then !== undefined && now !== undefined && then.ownPercent !== now.ownPercent;
  return {
    of: new Set(isAskedElse ? [hop] : []),
    by: new Set(names.filter((name) => isDecided(name, context))),
  };
}

/** Of what the demand loses on all hops together; what is less is none of its causes. Ours. */
const NOTABLE_PART = 0.05;

/** Hops that are down for longer or shorter with the same to carry; demands that make them carry more or less. */
function timeCauses(demand: string, way: ReadonlySet<string>, context: CauseContext): Causes {
  const { was, is } = context;
  const lost = [was, is].map((side) => side.demand(demand)?.outage?.propagationPercent);
  const whole = lost[0] === undefined || lost[1] === undefined ? undefined : Math.abs(lost[1] - lost[0]);
  // On a long way each hop may have little of it.
  if (whole !== undefined && whole <= NOTABLE_PART * Math.max(...(lost as number[])))
    return { of: new Set(), by: new Set() };
  const least =
    whole === undefined ? Number.POSITIVE_INFINITY : whole * Math.min(NOTABLE_PART, 0.5 / way.size);
  const notable = (a: number | undefined, b: number | undefined) =>
    a === undefined || b === undefined ? a !== b : a !== b && Math.abs(a - b) >= least;
  const [of, by] = [new Set<string>(), new Set<string>()];
  for (const hop of way) {
    const [then, now] = [was.onWay(demand, hop), is.onWay(demand, hop)];
    const [before, after] = context.offers?.(hop) ?? [];
    const needed = now?.neededBps ?? then!.neededBps;
    if (notable(outPercent(before?.capacity, needed), outPercent(after?.capacity, needed))) of.add(hop);
    if (then === undefined || now === undefined || then.neededBps === now.neededBps) continue;
    const out = (bps: number) => outPercent(after?.capacity, bps);
    if (after !== undefined && !notable(out(then.neededBps), out(needed))) continue;
    const own = [was.demand(demand)?.demand, is.demand(demand)?.demand] as const;
    const brought = (side: DemandSide, name: string, before = own[side === was ? 0 : 1]) => {
      const other = side.demand(name);
      const counts = other && before && side.passing(hop).has(name) && goesNoLater(other.demand, before);
      return counts ? String(other.taken.committedBps) : "";
    };
    addBringing(hop, brought, context, { of, by });
  }
  return { of, by };
}

function outPercent(capacity: Capacity | undefined, bps: number): number | undefined {
  if (capacity === undefined || capacity.length === 0) return undefined;
  const step = stepCarrying(capacity, bps);
  if (step === undefined) return 100;
  const { multipathFraction, rainFraction } = step;
  return multipathFraction === undefined || rainFraction === undefined
    ? undefined
    : 100 * Math.min(1, multipathFraction + rainFraction);
}

/** What a hop carries, and what is brought to it, normally and in its worst failure. */
function loadCauses(hop: string, context: CauseContext): Causes {
  const { was, is, offers } = context;
  const [of, by] = [new Set<string>(), new Set<string>()];
  if (cameOrWent(hop, context)) of.add(hop);
  const [then, now] = [was.load(hop), is.load(hop)];
  const [before, after] = (offers?.(hop) ?? []).map((offer) => offer?.capacity);
  for (const percent of new Set([then?.percent, now?.percent]))
    if (carriedFor(before, percent) !== carriedFor(after, percent)) of.add(hop);
  const isAskedElse = then?.percent !== now?.percent && then?.carriedBps !== now?.carriedBps;
  // What it carries goes by the one that asks most of it, or asked most where less is asked now.
  const setting = (now?.percent ?? 0) >= (then?.percent ?? 0) ? is : was;
  const shareOf = (side: DemandSide, name: string) =>
    side.passing(hop).has(name) ? side.onWay(name, hop)?.sharePercent : undefined;
  const asked = (side: DemandSide, name: string) => {
    const share = isAskedElse ? shareOf(setting, name) : undefined;
    return share !== undefined && 100 - share === setting.load(hop)?.percent
      ? shareOf(side, name)
      : undefined;
  };
  const brought = (side: DemandSide, name: string) => {
    const other = side.coming(hop).has(name) ? side.demand(name) : undefined;
    const grows = other && [other.taken.committedBps, other.demand.growthPercent, other.demand.growthYears];
    return JSON.stringify([grows, asked(side, name)]);
  };
  addBringing(hop, brought, context, { of, by });
  return { of, by };
}

function carriedFor(capacity: Capacity | undefined, percent: number | undefined): number | undefined {
  if (capacity === undefined) return undefined;
  return percent === undefined ? clearAirBps(capacity) : carriedAt(capacity, percent)?.bps;
}

/** Demands that bring something else to a hop: by their own edit, or since a hop of their way came or went. */
function addBringing(
  hop: string,
  brought: (side: DemandSide, name: string) => string,
  context: CauseContext,
  { of, by }: { readonly of: Set<string>; readonly by: Set<string> },
): void {
  const { was, is } = context;
  for (const name of new Set([...was.coming(hop), ...is.coming(hop)])) {
    if (brought(was, name) === brought(is, name)) continue;
    if (isDecided(name, context)) by.add(name);
    for (const passed of [...was.way(name), ...is.way(name)]) if (cameOrWent(passed, context)) of.add(passed);
  }
}
