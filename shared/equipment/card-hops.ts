/** Which hops a card takes with it when it fails. */
import type { SitePlan } from "./site-plan.js";
import { siteWiring } from "./wiring/site-wiring.js";

export interface CardHops {
  /** `KELD/A/3`: site, chassis, slot. */
  readonly name: string;
  /** All their units at the site are on it; by name. */
  readonly hops: readonly string[];
  /** They have units on other cards too. */
  readonly partly: readonly string[];
}

/** Cards that units are joined to, in the order of the site; stated or proposed ports alike. */
export function cardHops(plan: SitePlan): readonly CardHops[] {
  if (plan.placed.cards.length === 0) return NONE;
  let found = known.get(plan);
  if (found === undefined) known.set(plan, (found = find(plan)));
  return found;
}

const NONE: readonly CardHops[] = [];
const known = new WeakMap<SitePlan, readonly CardHops[]>();

function find(plan: SitePlan): readonly CardHops[] {
  const { parts, joints, site } = siteWiring(plan);
  /** By hop its units, by unit the cards it is joined to. */
  const cardsOf = new Map<string, Map<string, Set<string>>>();
  for (const { id, kind, of } of parts.values()) {
    if (kind !== "unit" || of === undefined) continue;
    const units = cardsOf.get(of.hop) ?? new Map<string, Set<string>>();
    units.set(id, new Set());
    cardsOf.set(of.hop, units);
  }
  for (const { ends } of joints) {
    const [one, other] = ends.map(({ part }) => parts.get(part));
    const [card, unit] = one?.kind === "card" ? [one, other] : [other, one];
    if (card?.kind !== "card" || unit?.kind !== "unit" || unit.of === undefined) continue;
    cardsOf.get(unit.of.hop)?.get(unit.id)?.add(card.id);
  }
  return [...parts.values()].flatMap(({ id, kind, place }): CardHops[] => {
    if (kind !== "card" || place?.slot === undefined) return [];
    const on = [...cardsOf].filter(([, units]) => [...units.values()].some((cards) => cards.has(id)));
    if (on.length === 0) return [];
    const [hops, partly] = [true, false].map((whole) =>
      on
        .filter(
          ([, units]) => [...units.values()].every((cards) => cards.size === 1 && cards.has(id)) === whole,
        )
        .map(([hop]) => hop)
        .sort(),
    ) as [string[], string[]];
    return [{ name: `${site}/${place.chassis}/${place.slot}`, hops, partly }];
  });
}
