/** Everything at a site that its rules, its papers and its parts list speak of, put together once. */
import type { Design, Hop, HopEnd, Site } from "../design/design.js";
import type { SiteEquipment } from "../design/equipment.js";
import { factsAt } from "../radio/arrangement-pairs.js";
import type { ArrangementFacts } from "../radio/arrangements.js";
import { type IfPortPlan, planIfPorts } from "./if-ports.js";
import { type PlacedCards, placeCards } from "./placement.js";

export interface SiteEnd {
  readonly hop: Hop;
  readonly end: HopEnd;
  readonly far: HopEnd;
  /** What the end is built as; undefined for words that name no arrangement. */
  readonly facts?: ArrangementFacts;
}

export interface SitePlan {
  readonly site: Site;
  readonly equipment?: SiteEquipment;
  readonly ends: readonly SiteEnd[];
  readonly placed: PlacedCards;
  readonly ifPorts: IfPortPlan;
}

/**
 * Plans of all sites that have a hop or equipment, by name. A design is immutable: they are made once, and a site whose
 * hops and equipment are the same as in an earlier design keeps its plan.
 */
export function sitePlans(design: Design): ReadonlyMap<string, SitePlan> {
  let known = plans.get(design);
  if (known === undefined) plans.set(design, (known = makePlans(design)));
  return known;
}

const plans = new WeakMap<Design, ReadonlyMap<string, SitePlan>>();

function makePlans(design: Design): ReadonlyMap<string, SitePlan> {
  const all = new Map<string, SitePlan>();
  for (const [name, hops] of siteOrder(design)) {
    const plan = sitePlanOf(design, name, hops);
    if (plan) all.set(name, plan);
  }
  return all;
}

/**
 * Sites that have a hop or equipment, with the names of their hops in order: which port an end gets must not depend on
 * the file that its hop stands in.
 */
export function siteOrder({ hops, sites, equipment }: Design): ReadonlyMap<string, readonly string[]> {
  const order = new Map<string, string[]>();
  for (const { name, ends } of hops.values()) {
    for (const { site } of ends) {
      const here = order.get(site.name);
      if (here) here.push(name);
      else order.set(site.name, [name]);
    }
  }
  for (const here of order.values()) if (here.length > 1) here.sort();
  for (const name of equipment?.keys() ?? []) if (sites.has(name) && !order.has(name)) order.set(name, []);
  return order;
}

/**
 * @param hops names of those that end at the site, in order
 * @returns undefined where the site is not declared and no hop ends there
 */
export function sitePlanOf(design: Design, name: string, hops: readonly string[]): SitePlan | undefined {
  // A hop that leads back to its own site has both ends here.
  const ends = hops.map((hop, index) => siteEndOf(design.hops.get(hop)!, name, hops[index - 1] === hop));
  const site = design.equipment?.has(name) ? design.sites.get(name) : undefined;
  const at = site ?? ends.at(-1)?.end.site;
  return at && keptPlan(at, design.equipment?.get(name), ends);
}

function siteEndOf(hop: Hop, site: string, second: boolean): SiteEnd {
  const [a, b] = hop.ends;
  const [end, far] = a.site.name === site && !second ? [a, b] : [b, a];
  return { hop, end, far, facts: factsAt(hop, end) };
}

const kept = new WeakMap<Site, SitePlan>();

function keptPlan(site: Site, equipment: SiteEquipment | undefined, ends: readonly SiteEnd[]): SitePlan {
  const before = kept.get(site);
  const same =
    before !== undefined &&
    before.equipment === equipment &&
    before.ends.length === ends.length &&
    before.ends.every(({ hop }, index) => hop === ends[index]!.hop);
  if (same) return before;
  const plan = planOf(site, equipment, ends);
  kept.set(site, plan);
  return plan;
}

const NOTHING_PLACED: PlacedCards = { cards: [], left: [] };
const NO_PORTS: IfPortPlan = { uses: [], faults: [], short: [], ports: 0 };

function planOf(site: Site, equipment: SiteEquipment | undefined, ends: readonly SiteEnd[]): SitePlan {
  // Most sites of a young design have no indoor unit yet: nothing to place.
  if (equipment === undefined || equipment.chassis.length === 0) {
    return { site, equipment, ends, placed: NOTHING_PLACED, ifPorts: NO_PORTS };
  }
  const placed = placeCards(equipment.chassis);
  const demands = ends.flatMap(({ hop, end, facts }) =>
    facts === undefined ? [] : [{ hop: hop.name, facts, claims: end.installation?.ifPorts ?? [] }],
  );
  return { site, equipment, ends, placed, ifPorts: planIfPorts(placed.cards, demands) };
}
