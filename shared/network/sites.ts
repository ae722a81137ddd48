/** Each site with all that is judged there: what stands and hangs, and what was computed for the hops that end there. */
import type { Design, Hop } from "../design/design.js";
import { type SitePlan, siteOrder, sitePlanOf } from "../equipment/site-plan.js";
import type { HopResult } from "../evaluate/account/result.js";
import type { Memory } from "./memory.js";

export interface SiteInNetwork {
  readonly plan: SitePlan;
  /** Of the ends of the plan, one by one; undefined: the hop is not evaluated. */
  readonly results: readonly (HopResult | undefined)[];
  /** The other hop of a dual-band pair, of the ends one by one; undefined: there is none. */
  readonly pairs: readonly (Hop | undefined)[];
}

type Results = ReadonlyMap<string, HopResult>;
type Sites = ReadonlyMap<string, SiteInNetwork>;

interface Judged {
  readonly design: Design;
  /** In the order of the design, and the result of each. */
  readonly hops: readonly Hop[];
  readonly results: readonly (HopResult | undefined)[];
}

interface Known extends Judged {
  /** Names of the hops that end at each site. */
  readonly hopsAt: ReadonlyMap<string, readonly string[]>;
  readonly sites: Sites;
}

const STEP = {};

/**
 * Sites that have a hop or equipment, by name. One of which nothing changed is the same object as before: what was made
 * of it holds.
 */
export function sitesInNetwork(design: Design, results: Results, memory: Memory): Sites {
  return memory.renew(STEP, STEP, (known: Known | undefined): Known => {
    const hops = [...design.hops.values()];
    // The results of a session change in place.
    const resultOfEach = hops.map(({ name }) => results.get(name));
    const touched = known && touchedSites(known, { design, hops, results: resultOfEach });
    const hopsAt = touched ? known.hopsAt : siteOrder(design);
    const sites = new Map<string, SiteInNetwork>(touched && known.sites);
    for (const name of touched ?? hopsAt.keys()) {
      const plan = sitePlanOf(design, name, hopsAt.get(name) ?? []);
      if (plan) sites.set(name, kept(plan, design, results, known?.sites.get(name)));
    }
    return { design, hops, results: resultOfEach, hopsAt, sites };
  }).sites;
}

function kept(plan: SitePlan, { hops }: Design, results: Results, known: SiteInNetwork | undefined) {
  const own = plan.ends.map(({ hop }) => results.get(hop.name));
  const pairs = plan.ends.map(({ hop: { pairedWith } }) =>
    pairedWith === undefined ? undefined : hops.get(pairedWith),
  );
  const same = known?.plan === plan && isSame(known.results, own) && isSame(known.pairs, pairs);
  return same ? known : { plan, results: own, pairs };
}

/** Of the same plan, so that there are as many. */
function isSame(one: readonly unknown[], other: readonly unknown[]): boolean {
  return one.every((value, index) => value === other[index]);
}

/**
 * Sites at which something is another than it was; undefined: hops or sites came, went or moved, and all is put together
 * anew.
 */
function touchedSites(known: Known, { design, hops, results }: Judged): Set<string> | undefined {
  const was = known.design;
  const { sites, equipment } = design;
  if (hops.length !== known.hops.length || !sameKeys(was.sites, sites)) return undefined;
  if (!sameKeys(was.equipment ?? NONE, equipment ?? NONE)) return undefined;
  const touched = new Set<string>();
  const changed = new Set<string>();
  for (const [place, hop] of hops.entries()) {
    const before = known.hops[place]!;
    if (before === hop && known.results[place] === results[place]) continue;
    if (before.name !== hop.name) return undefined;
    if (before !== hop) changed.add(hop.name);
    for (const [index, { site }] of hop.ends.entries()) {
      if (before.ends[index]!.site.name !== site.name) return undefined;
      touched.add(site.name);
    }
  }
  if (changed.size > 0)
    for (const { pairedWith, ends } of hops)
      if (pairedWith !== undefined && changed.has(pairedWith))
        for (const { site } of ends) touched.add(site.name);
  if (was.sites !== sites)
    for (const [name, site] of sites) if (site !== was.sites.get(name)) touched.add(name);
  if (was.equipment !== equipment)
    for (const [name, stands] of equipment ?? []) if (stands !== was.equipment?.get(name)) touched.add(name);
  return touched;
}

const NONE: ReadonlyMap<string, unknown> = new Map();

function sameKeys(one: ReadonlyMap<string, unknown>, other: ReadonlyMap<string, unknown>): boolean {
  if (one === other) return true;
  if (one.size !== other.size) return false;
  const keys = other.keys();
  for (const key of one.keys()) if (key !== keys.next().value) return false;
  return true;
}
