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
      if (card === undefined || slotsFrom(slot, card).some((one) => seen.has(one))) continue;
      for (const one of slotsFrom(slot, card)) {
        seen.add(one);
        taken.add(one);
      }
      cards.push({ chassis, slot, card, automatic: false });
    }
    const missing = new Map<Card, number>();
    const rings = new Map<SlotKind, readonly number[]>();
    const isFree = (slot: number) => !taken.has(slot);
    for (const claim of widestFirst(chassis.loose.flatMap(claimsOf))) {
      const { card, key } = claim;
      const kind = slotKindOf(card);
      const ring = rings.get(kind) ?? slotsFor(chassis, kind);
      rings.set(kind, ring);
      const take = (slot: number) => {
        for (const one of slotsFrom(slot, card)) taken.add(one);
        cards.push({ chassis, slot, card, automatic: true });
      };
      const width = slotCountOf(card);
      if (width > 1) {
        const together = claim.count === 2 ? tightestRun(ring, 2 * width, isFree) : undefined;
        for (let i = 0; i < claim.count; i++) {
          const slot = together === undefined ? tightestRun(ring, width, isFree) : together + i * width;
          if (slot === undefined) missing.set(card, (missing.get(card) ?? 0) + 1);
          else take(slot);
        }
        continue;
      }
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

/** What fits in few places before what fits in many. */
function widestFirst(claims: readonly Claim[]): readonly Claim[] {
  const drawn = byDraw(claims);
  if (drawn.every(({ card }) => slotCountOf(card) === 1)) return drawn;
  return drawn.toSorted((a, b) => slotCountOf(b.card) - slotCountOf(a.card));
}

/** The beginning of the shortest run of free slots that holds so many: cards of one width all fit if they fit at all. */
function tightestRun(
  ring: readonly number[],
  width: number,
  isFree: (slot: number) => boolean,
): number | undefined {
  let tightest: { readonly from: number; readonly length: number } | undefined;
  for (let at = 0; at < ring.length; ) {
    const from = ring[at]!;
    let length = 0;
    while (ring[at] === from + length && isFree(from + length)) {
      length++;
      at++;
    }
    if (length === 0) at++;
    else if (length >= width && (tightest === undefined || length < tightest.length))
      tightest = { from, length };
  }
  return tightest?.from;
}

/** Slots that a card covers. */
export function slotCountOf({ slotCount = 1 }: Card): number {
  return slotCount;
}

/** Slots that a card covers, from the one that it is stated in. */
export function slotsFrom(slot: number, card: Card): readonly number[] {
  return Array.from({ length: slotCountOf(card) }, (_, k) => slot + k);
}

/** `3`, of a wide card `3 to 4` */
export function slotNumbers({ slot, card }: Pick<PlacedCard, "slot" | "card">): string {
  const count = slotCountOf(card);
  return count === 1 ? `${slot}` : `${slot} to ${slot + count - 1}`;
}

/** Whether the feed of the chassis comes in at a card. */
export function isInlet({ kind, supplyBuiltIn }: Card): boolean {
  return kind === "power" || supplyBuiltIn === true;
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
