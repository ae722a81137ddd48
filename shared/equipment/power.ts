/** What a site draws: cards, chassis and the units they feed, each with the loss in its cable. */
import type { InstalledChassis } from "../design/equipment.js";
import { cableLength } from "./cable-run.js";
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

export interface SiteLoad {
  readonly totalW: number;
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
  const unknown = new Set<string>();
  const known = (name: string, drawsW: number | undefined) => {
    if (drawsW === undefined) unknown.add(name);
    return drawsW ?? 0;
  };
  const byChassis = new Map<InstalledChassis, { feedW: number; heatW: number }>();
  for (const chassis of plan.equipment?.chassis ?? []) {
    const emptyW = chassis.chassis ? (chassis.chassis.drawsW ?? 0) : 0;
    byChassis.set(chassis, { feedW: emptyW, heatW: emptyW });
  }
  for (const { chassis, card } of plan.placed.cards) {
    const load = byChassis.get(chassis)!;
    const drawsW = known(card.name, card.drawsW);
    load.feedW += drawsW;
    load.heatW += drawsW;
  }
  const ends = new Map(plan.ends.map((one) => [one.hop.name, one]));
  let unitsW = 0;
  const fed = new Map<string, number>();
  for (const { hop, card } of plan.ifPorts.uses) {
    const end = ends.get(hop)!;
    const drawsW = known(end.hop.radio?.name ?? `radio of ${hop}`, unitFeedW(end, plan));
    byChassis.get(card.chassis)!.feedW += drawsW;
    fed.set(hop, (fed.get(hop) ?? 0) + 1);
  }
  // What goes over copper Ethernet comes through the card, as the card's own consumption does not.
  for (const { end, cards, unitW } of ethernetFeeds(plan)) {
    for (const { chassis } of cards) {
      byChassis.get(chassis)!.feedW += known(end.hop.radio?.name ?? `radio of ${end.hop.name}`, unitW);
      fed.set(end.hop.name, (fed.get(end.hop.name) ?? 0) + 1);
    }
  }
  // Units that no port feeds (all-outdoor, or no cards yet) still hang on the plant.
  for (const end of plan.ends) {
    const others = (end.facts?.transceivers ?? 0) - (fed.get(end.hop.name) ?? 0);
    if (others > 0)
      unitsW += others * known(end.hop.radio?.name ?? `radio of ${end.hop.name}`, unitFeedW(end, plan));
  }
  const chassis = [...byChassis].map(([one, load]) => ({ chassis: one, ...load }));
  return {
    totalW: unitsW + chassis.reduce((sum, { feedW }) => sum + feedW, 0),
    chassis,
    unknown: [...unknown],
  };
}

/** One unit with what its cable takes at the lowest voltage of normal service. */
function unitFeedW(end: SiteEnd, plan: SitePlan): number | undefined {
  const drawsW = end.hop.radio?.unit?.drawsW;
  if (drawsW === undefined) return undefined;
  const feed = unitFeed(end, plan);
  return feed?.ok ? drawsW + feed.lossW : drawsW;
}

/** Voltage and loss of the feed to a unit of this end; undefined when consumption, cable or length is not known. */
export function unitFeed(end: SiteEnd, plan: SitePlan) {
  const loadW = end.hop.radio?.unit?.drawsW;
  const ohmPerM = end.end.installation?.cable?.loopOhmPerM;
  const length = cableLength(end.end, plan.equipment);
  if (loadW === undefined || ohmPerM === undefined || length === undefined) return undefined;
  return feedOf({ sourceV: LOWEST_SERVICE_V, loadW, loopOhm: ohmPerM * length.lengthM });
}
