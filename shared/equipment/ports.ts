/** Ports that are there at a site: of its chassis themselves and of the cards in them. */
import type { PortType } from "../design/equipment.js";
import type { SitePlan } from "./site-plan.js";

/** How many ports of each kind a site has; a kind without one is left out. */
export function portsThere({ equipment, placed }: SitePlan): ReadonlyMap<PortType, number> {
  const there = new Map<PortType, number>();
  const parts = [
    ...(equipment?.chassis ?? []).map(({ chassis }) => chassis?.ports ?? []),
    ...placed.cards.map(({ card }) => card.ports),
  ];
  for (const { type, count } of parts.flat()) there.set(type, (there.get(type) ?? 0) + count);
  return there;
}
