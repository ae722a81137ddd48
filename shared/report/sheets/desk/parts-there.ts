/** What of the parts is there already, so that nobody orders it again. */
import type { Design } from "../../../design/design.js";
import { type Part, partsOfEnd } from "../../../equipment/parts-list.js";
import type { SiteEnd, SitePlan } from "../../../equipment/site-plan.js";

interface SiteParts {
  readonly plan: SitePlan;
  readonly parts: readonly Part[];
}

export interface PartsThere {
  /** By {@link keyOf}; parts of one key are to be added up. */
  readonly parts: ReadonlyMap<string, readonly Part[]>;
  /** Keys of parts of which some are there by a measurement or a serial number alone. */
  readonly found: ReadonlySet<string>;
  /** Hops that those parts belong to, in order. */
  readonly hops: readonly string[];
}

/** Delivered or ordered, or of an end of a hop that is stated as built or that somebody has found there. */
export function thereAlready(sites: readonly SiteParts[], design: Design): PartsThere {
  const ends = sites.flatMap(({ plan }) => plan.ends.map((end) => ({ end, plan })));
  const undelivered = (those: typeof ends) =>
    those
      .flatMap(({ end, plan }) => partsOfEnd(end, plan, design))
      .filter(({ delivery, toChoose }) => delivery === undefined && !toChoose);
  const stated = ends.filter(({ end }) => end.hop.state?.word === "built");
  const found = ends.filter(({ end }) => end.hop.state?.word !== "built" && isFound(end));
  const foundParts = undelivered(found);
  const delivered = sites.flatMap(({ parts }) => parts.filter(({ delivery }) => delivery !== undefined));
  return {
    parts: Map.groupBy([...delivered, ...undelivered(stated), ...foundParts], keyOf),
    found: new Set(foundParts.map(keyOf)),
    hops: [...new Set(found.map(({ end }) => end.hop.name))].sort(),
  };
}

/** A level is received where both ends stand; a serial number was read off a unit that is there. */
function isFound({ hop, end }: SiteEnd): boolean {
  return (
    (hop.measured ?? []).some((one) => one !== undefined) ||
    (end.asBuilt?.serials ?? []).some(({ of }) => of === "unit")
  );
}

/** What is left of a part, in pieces and metres; undefined: nothing. */
export function leftOf(part: Part, there: readonly Part[]): Part | undefined {
  const quantity = part.quantity - there.reduce((sum, one) => sum + one.quantity, 0);
  if (quantity <= 0) return undefined;
  if (part.lengthM === undefined) return { ...part, quantity };
  const lengthM = Math.max(0, part.lengthM - there.reduce((sum, one) => sum + (one.lengthM ?? 0), 0));
  return { ...part, quantity, lengthM };
}

/** As lists add parts up. */
export function keyOf({ kind, name, detail }: Part): string {
  return [kind, name, detail].join("\n");
}
