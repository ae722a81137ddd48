/** Everything at a site that its rules, its papers and its parts list speak of, put together once. */
import type { Design, Hop, HopEnd, Site } from "../design/design.js";
import type { SiteEquipment } from "../design/equipment.js";
import { type ArrangementFacts, arrangementByName } from "../radio/arrangements.js";
import { type IfPortPlan, planIfPorts } from "./if-ports.js";
import { type PlacedCards, placeCards } from "./placement.js";

export interface SiteEnd {
  readonly hop: Hop;
  readonly end: HopEnd;
  readonly far: HopEnd;
  /** Undefined for words that name no arrangement. */
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
  const ends = new Map<string, SiteEnd[]>();
  const sites = new Map<string, Site>();
  for (const hop of design.hops.values()) {
    const facts = arrangementByName(hop.arrangement.name);
    for (const [end, far] of [hop.ends, [hop.ends[1], hop.ends[0]]] as const) {
      const name = end.site.name;
      sites.set(name, end.site);
      const here = ends.get(name);
      if (here) here.push({ hop, end, far, facts });
      else ends.set(name, [{ hop, end, far, facts }]);
    }
  }
  // Which port an end gets must not depend on the file that its hop stands in.
  for (const here of ends.values()) here.sort(byHop);
  for (const name of design.equipment?.keys() ?? []) {
    const site = design.sites.get(name);
    if (site) sites.set(name, site);
  }
  return new Map(
    [...sites].map(([name, site]) => [
      name,
      keptPlan(site, design.equipment?.get(name), ends.get(name) ?? []),
    ]),
  );
}

function byHop({ hop: a }: SiteEnd, { hop: b }: SiteEnd): number {
  return a.name < b.name ? -1 : a.name > b.name ? 1 : 0;
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
