/** What a site draws: cards, chassis and the units they feed, each with the loss in its cable. */
import type { InstalledChassis } from "../design/equipment.js";
import { type CableLength, cableLength } from "./cable-run.js";
import { feedOf, LOWEST_SERVICE_V } from "./dc-feed.js";
import { ethernetFeeds } from "./ethernet-feeds.js";
import type { SiteEnd, SitePlan } from "./site-plan.js";

interface ChassisLoad {
  readonly chassis: InstalledChassis;
  /** Through its feeds: the chassis, its cards, and the units on its IF ports. */
  readonly feedW: number;
  /** What stays in the room. */
  readonly heatW: number;
}

/** An addend of the sums: a chassis itself, a card, or units of one end that are fed the same way. */
export interface LoadPart {
  readonly kind: "chassis" | "card" | "unit";
  readonly name: string;
  /** The one through whose feed it goes; undefined: by no chassis. */
  readonly chassis?: InstalledChassis;
  /** Of a card. */
  readonly slot?: number;
  /** Of units. */
  readonly hop?: string;
  readonly count: number;
  /** Of each; undefined: the catalogue has no figure, and nothing counts. */
  readonly drawsW?: number;
  /** Of it lost in the cable of each. */
  readonly lossW?: number;
}

export interface SiteLoad {
  readonly totalW: number;
  readonly parts: readonly LoadPart[];
  readonly chassis: readonly ChassisLoad[];
  /** Parts without a consumption in the catalogue: the sums are too small by them. */
  readonly unknown: readonly string[];
}

/** The greatest consumption of everything, as judged for supply, heat, plant and battery. */
export function siteLoad(plan: SitePlan): SiteLoad {
  let known = loads.get(plan);
  if (known === undefined) loads.set(plan, (known = sumOf(plan)));
  return known;
}

const loads = new WeakMap<SitePlan, SiteLoad>();

function sumOf(plan: SitePlan): SiteLoad {
  const parts = [...indoorParts(plan), ...unitParts(plan)];
  const byChassis = new Map<InstalledChassis, { feedW: number; heatW: number }>();
  for (const chassis of plan.equipment?.chassis ?? []) byChassis.set(chassis, { feedW: 0, heatW: 0 });
  const unknown = new Set<string>();
  // Units that no port feeds (all-outdoor, or no cards yet) still hang on the plant.
  let unitsW = 0;
  for (const { kind, name, chassis, count, drawsW } of parts) {
    if (drawsW === undefined) unknown.add(name);
    const sumW = count * (drawsW ?? 0);
    const load = chassis && byChassis.get(chassis);
    if (load === undefined) unitsW += sumW;
    else {
      load.feedW += sumW;
      if (kind !== "unit") load.heatW += sumW;
    }
  }
  const chassis = [...byChassis].map(([one, load]) => ({ chassis: one, ...load }));
  return {
    totalW: unitsW + chassis.reduce((sum, { feedW }) => sum + feedW, 0),
    parts,
    chassis,
    unknown: [...unknown],
  };
}

/** A chassis of which the catalogue says nothing draws nothing by itself. */
function indoorParts({ equipment, placed }: SitePlan): LoadPart[] {
  const empty = (equipment?.chassis ?? []).flatMap((chassis): LoadPart[] => {
    const drawsW = chassis.chassis?.drawsW;
    return drawsW === undefined
      ? []
      : [{ kind: "chassis", name: chassis.chassis!.name, chassis, count: 1, drawsW }];
  });
  const cards = placed.cards.map(({ chassis, slot, card: { name, drawsW } }) => {
    return { kind: "card", name, chassis, slot, count: 1, drawsW } as const;
  });
  return [...empty, ...cards];
}

function unitParts(plan: SitePlan): LoadPart[] {
  const parts: LoadPart[] = [];
  const fed = new Map<string, number>();
  const add = (end: SiteEnd, count: number, drawn: UnitDraw, chassis?: InstalledChassis) => {
    const hop = end.hop.name;
    fed.set(hop, (fed.get(hop) ?? 0) + count);
    const last = parts.at(-1);
    if (last?.hop === hop && last.chassis === chassis && last.drawsW === drawn.drawsW)
      parts[parts.length - 1] = { ...last, count: last.count + count };
    else
      parts.push({
        kind: "unit",
        name: end.hop.radio?.name ?? `radio of ${hop}`,
        chassis,
        hop,
        count,
        ...drawn,
      });
  };
  const ends = new Map(plan.ends.map((one) => [one.hop.name, one]));
  for (const { hop, card } of plan.ifPorts.uses) {
    const end = ends.get(hop)!;
    add(end, 1, overCoax(end, plan), card.chassis);
  }
  // What goes over copper Ethernet comes through the card, as the card's own consumption does not.
  for (const { end, cards, unitW: drawsW } of ethernetFeeds(plan)) {
    const ownW = end.hop.radio?.unit?.drawsW;
    const lossW = drawsW === undefined || ownW === undefined ? undefined : drawsW - ownW;
    for (const { chassis } of cards) add(end, 1, { drawsW, lossW }, chassis);
  }
  for (const end of plan.ends) {
    const others = (end.facts?.transceivers ?? 0) - (fed.get(end.hop.name) ?? 0);
    if (others > 0) add(end, others, overCoax(end, plan));
  }
  return parts;
}

type UnitDraw = Pick<LoadPart, "drawsW" | "lossW">;

/** One unit with what its cable takes at the lowest voltage of normal service. */
function overCoax(end: SiteEnd, plan: SitePlan): UnitDraw {
  const drawsW = end.hop.radio?.unit?.drawsW;
  if (drawsW === undefined) return {};
  const feed = unitFeed(end, plan);
  return feed?.ok ? { drawsW: drawsW + feed.lossW, lossW: feed.lossW } : { drawsW };
}

export interface UnitLine extends CableLength {
  readonly sourceV: number;
  readonly loadW: number;
  readonly loopOhm: number;
}

/** The line to a unit of this end; undefined when consumption, cable or length is not known. */
export function unitLine({ hop, end }: SiteEnd, { equipment }: SitePlan): UnitLine | undefined {
  const loadW = hop.radio?.unit?.drawsW;
  const ohmPerM = end.installation?.cable?.loopOhmPerM;
  const length = cableLength(end, equipment);
  if (loadW === undefined || ohmPerM === undefined || length === undefined) return undefined;
  return { sourceV: LOWEST_SERVICE_V, loadW, loopOhm: ohmPerM * length.lengthM, ...length };
}

/** Voltage and loss of the feed to a unit of this end; undefined when its line is not known. */
export function unitFeed(end: SiteEnd, plan: SitePlan) {
  const line = unitLine(end, plan);
  return line && feedOf(line);
}
