/** What has to be ordered and what comes back: the difference of the parts lists of both sides, site by site. */
import type { Design } from "../design/design.js";
import { type Part, partsOfSite } from "../equipment/parts-list.js";
import { sitePlans } from "../equipment/site-plan.js";
import { trimmed } from "../format/numbers.js";
import { type Renames, siteNow } from "./renames.js";

export interface OrderChange {
  /** For example `antenna DISH60-18` or `unit R18, high half`. */
  readonly part: string;
  /** Above 0: to order; below: to return; 0: only to move from site to site. */
  readonly count: number;
  readonly unit: "pieces" | "m";
  /** Where it is needed (above 0) or left over, by site. */
  readonly sites: readonly { readonly site: string; readonly count: number }[];
}

/** @param touched sites, by their new names, where anything may differ; the others cancel out */
export function orderChanges(
  was: Design,
  is: Design,
  renames: Renames,
  touched: ReadonlySet<string>,
): OrderChange[] {
  const changes = new Map<string, Summed>();
  const add = (whole: Design, sign: 1 | -1, now: (part: Part) => string, site: (name: string) => string) => {
    const design = partOf(whole, (name) => touched.has(site(name)));
    for (const [name, plan] of sitePlans(design)) {
      if (!touched.has(site(name))) continue;
      for (const part of partsOfSite(plan, design)) {
        const unit = part.lengthM === undefined ? "pieces" : "m";
        const key = `${now(part)}\t${unit}`;
        const change = changes.get(key) ?? {
          part: now(part),
          unit,
          sites: new Map(),
          toChoose: part.toChoose,
        };
        const count = sign * (part.lengthM ?? part.quantity);
        change.sites.set(site(name), (change.sites.get(site(name)) ?? 0) + count);
        changes.set(key, change);
      }
    }
  };
  add(
    was,
    -1,
    (part) => labelOf(part, renames),
    (name) => siteNow(name, renames),
  );
  add(
    is,
    1,
    (part) => labelOf(part),
    (name) => name,
  );
  return [...changes.values()]
    .map(({ part, unit, sites, toChoose }): OrderChange => {
      const moved = [...sites]
        // What was never chosen cannot come back.
        .filter(([, count]) => (toChoose ? count : Math.abs(count)) >= LEAST)
        .sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0));
      const total = moved.reduce((sum, [, count]) => sum + count, 0);
      return {
        part,
        unit,
        count: rounded(total),
        sites: moved.map(([site, count]) => ({ site, count: rounded(count) })),
      };
    })
    .filter(({ sites }) => sites.length > 0)
    .sort((a, b) => b.count - a.count || (a.part < b.part ? -1 : 1));
}

interface Summed {
  readonly part: string;
  readonly unit: OrderChange["unit"];
  readonly sites: Map<string, number>;
  readonly toChoose?: true;
}

/** The design with the hops and the equipment of some sites alone: in a large one few are touched. */
function partOf(design: Design, counts: (site: string) => boolean): Design {
  const hops = [...design.hops].filter(([, { ends }]) => ends.some(({ site }) => counts(site.name)));
  const equipment = design.equipment && [...design.equipment].filter(([site]) => counts(site));
  return { ...design, hops: new Map(hops), equipment: equipment && new Map(equipment) };
}

/** A tenth of a metre is the precision of a cable's length; pieces are whole. */
const LEAST = 0.1;

function rounded(count: number): number {
  return Number(trimmed(count, 1));
}

/** A part of the old side goes by the name that its catalogue entry has now. */
function labelOf({ kind, name, detail }: Part, renames?: Renames): string {
  const entry = `${kind === "unit" ? "radio" : kind} ${name}`;
  const now = renames?.entries.get(entry);
  const shown = now === undefined ? name : now.slice(now.indexOf(" ") + 1);
  return `${kind} ${shown}${detail === undefined ? "" : `, ${detail}`}`;
}
