/**
 * Which slot takes a card whose slot is left open, and which IF port a unit, so that little moves when the design
 * changes. Each claim has a place of its own, drawn from its name, and goes on from there to the first that is free:
 * when another claim comes or goes, only claims that met it on the way move.
 */
import type { Card, InstalledChassis, SlotKind } from "../design/equipment.js";

export interface PlacedCard {
  readonly chassis: InstalledChassis;
  readonly slot: number;
  readonly card: Card;
  /** Placed here, not by the design. */
  readonly automatic: boolean;
}

export interface PlacedCards {
  readonly cards: readonly PlacedCard[];
  /** Cards for which no free slot of their kind is left. */
  readonly left: readonly {
    readonly chassis: InstalledChassis;
    readonly card: Card;
    readonly count: number;
  }[];
}

/** Cards of all chassis of a site: those with slots, and the loose ones around them. */
export function placeCards(installed: readonly InstalledChassis[]): PlacedCards {
  const cards: PlacedCard[] = [];
  const left: { chassis: InstalledChassis; card: Card; count: number }[] = [];
  for (const chassis of installed) {
    const taken = new Set(chassis.slots.map(({ slot }) => slot));
    const seen = new Set<number>();
    for (const { slot, card } of chassis.slots) {
      // The first in a doubled slot counts; a rule tells the other.
      if (card === undefined || seen.has(slot)) continue;
      seen.add(slot);
      cards.push({ chassis, slot, card, automatic: false });
    }
    const missing = new Map<Card, number>();
    const rings = new Map<SlotKind, readonly number[]>();
    for (const claim of byDraw(chassis.loose.flatMap(claimsOf))) {
      const { card, key } = claim;
      const kind = slotKindOf(card);
      const ring = rings.get(kind) ?? slotsFor(chassis, kind);
      rings.set(kind, ring);
      const isFree = (slot: number) => !taken.has(slot);
      const take = (slot: number) => {
        taken.add(slot);
        cards.push({ chassis, slot, card, automatic: true });
      };
      const beside = (slot: number) => ring.includes(slot + 1) && isFree(slot) && isFree(slot + 1);
      const pair = claim.count === 2 ? firstFree(ring, key, beside) : undefined;
      if (pair !== undefined) {
        take(pair);
        take(pair + 1);
        continue;
      }
      for (let i = 0; i < claim.count; i++) {
        const slot = firstFree(ring, i === 0 ? key : `${key} second`, isFree);
        if (slot === undefined) missing.set(card, (missing.get(card) ?? 0) + 1);
        else take(slot);
      }
    }
    for (const [card, count] of missing) left.push({ chassis, card, count });
  }
  return { cards, left };
}

interface Claim {
  readonly card: Card;
  readonly key: string;
  /** Two for cards that pair with their neighbour: they go side by side where there is room. */
  readonly count: 1 | 2;
}

function claimsOf({ card, count }: InstalledChassis["loose"][number]): Claim[] {
  const together = card.pairs === "neighbour" ? 2 : 1;
  return Array.from({ length: Math.ceil(count / together) }, (_, index) => ({
    card,
    key: `${card.name} ${index * together}`,
    count: count - index * together >= 2 && together === 2 ? 2 : 1,
  }));
}

/** Slots that take a card: as its entry says, else as its kind usually goes. */
export function slotKindOf(card: Card): SlotKind {
  if (card.slotKind !== undefined) return card.slotKind;
  switch (card.kind) {
    case "controller":
    case "fan":
    case "power":
      return card.kind;
    default:
      return "traffic";
  }
}

/** Numbers of the slots of a kind, ascending. */
function slotsFor({ chassis }: InstalledChassis, kind: SlotKind): readonly number[] {
  const numbers = (chassis?.slots ?? [])
    .filter((slot) => slot.kind === kind)
    .flatMap(({ from, to }) => Array.from({ length: to - from + 1 }, (_, i) => from + i));
  return numbers.sort((a, b) => a - b);
}

function firstFree(
  ring: readonly number[],
  key: string,
  isFree: (slot: number) => boolean,
): number | undefined {
  const start = ring.length === 0 ? 0 : draw(key) % ring.length;
  for (let step = 0; step < ring.length; step++) {
    const slot = ring[(start + step) % ring.length]!;
    if (isFree(slot)) return slot;
  }
  return undefined;
}

/** Claims in an order that does not depend on who else claims. */
export function byDraw<T extends { readonly key: string }>(claims: readonly T[]): T[] {
  return claims
    .map((claim) => ({ claim, rank: draw(`rank ${claim.key}`) }))
    .sort((a, b) => a.rank - b.rank || (a.claim.key < b.claim.key ? -1 : 1))
    .map(({ claim }) => claim);
}

/** A number that a name always gives: FNV-1a with a final mix, 32 bits. */
export function draw(name: string): number {
  let hash = 0x811c9dc5;
  for (let i = 0; i < name.length; i++) hash = Math.imul(hash ^ name.charCodeAt(i), 0x01000193);
  hash = Math.imul(hash ^ (hash >>> 15), 0x2c1b3c6d);
  return (hash ^ (hash >>> 13)) >>> 0;
}
