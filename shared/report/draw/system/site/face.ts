/** The face of a chassis as data: its slots in the order of their numbers, what is in them and what is on each port. */
import { type Address, address, nth } from "../../../../design/address.js";
import type { Card, Chassis, InstalledChassis, SlotKind } from "../../../../design/equipment.js";
import { cardFact } from "../../../../equipment/card-fact.js";
import { type PlacedCard, slotsFrom } from "../../../../equipment/placement.js";
import { siteLoad } from "../../../../equipment/power.js";
import type { SitePlan } from "../../../../equipment/site-plan.js";
import { cardId, chassisId } from "../../../../equipment/wiring/ids.js";
import { type PortRow, portPlan } from "../../../../equipment/wiring/port-plan.js";
import type { Wiring } from "../../../../equipment/wiring/wiring.js";

export interface ChassisFace {
  /** At its site. */
  readonly name: string;
  /** The fact that states it. */
  readonly at: Address;
  /** Its entry in the catalogue; undefined: nothing is known of it. */
  readonly chassis?: Chassis;
  /** Through its feeds, and what stays in the room; too small where a consumption is not stated. */
  readonly feedW: number;
  readonly heatW: number;
  readonly slots: readonly FaceSlot[];
  /** Its own ports. */
  readonly ports: readonly PortRow[];
  /** Cards for which no slot is left. */
  readonly left: readonly { readonly card: Card; readonly count: number }[];
}

export interface FaceSlot {
  readonly slot: number;
  /** What it takes; undefined: the chassis has no such slot. */
  readonly takes?: SlotKind;
  /** Undefined: the slot is free. */
  readonly card?: Card;
  /** The fact that states the card. */
  readonly at?: Address;
  readonly proposed?: boolean;
  readonly ports: readonly PortRow[];
}

/** More slots than any chassis has: a slip of the keyboard is not drawn. */
const MOST_SLOTS = 100;

export function facesOf(plan: SitePlan, wiring: Wiring): readonly ChassisFace[] {
  const rows = Map.groupBy(portPlan(wiring), ({ part }) => part.id);
  const cards = Map.groupBy(plan.placed.cards, ({ chassis }) => chassis);
  const loads = new Map(siteLoad(plan).chassis.map((load) => [load.chassis, load]));
  return (plan.equipment?.chassis ?? []).map((installed, index) => {
    const at = address("site", plan.site.name, nth("chassis", index));
    const { feedW = 0, heatW = 0 } = loads.get(installed) ?? {};
    return {
      name: installed.name,
      at,
      chassis: installed.chassis,
      feedW,
      heatW,
      slots: slotsOf(installed, at, cards.get(installed) ?? [], rows),
      ports: portsOf(rows.get(chassisId(installed.name))),
      left: plan.placed.left.flatMap(({ chassis, card, count }) =>
        chassis === installed ? [{ card, count }] : [],
      ),
    };
  });
}

function slotsOf(
  { name, chassis }: InstalledChassis,
  at: Address,
  cards: readonly PlacedCard[],
  rows: ReadonlyMap<string, readonly PortRow[]>,
): FaceSlot[] {
  const takes = new Map<number, SlotKind>();
  for (const { from, to, kind } of chassis?.slots ?? [])
    for (let slot = from; slot <= to && takes.size < MOST_SLOTS; slot++) takes.set(slot, kind);
  const placed = new Map(cards.map((card) => [card.slot, card]));
  // What a wide card covers is its own row.
  const covered = new Set(cards.flatMap(({ slot, card }) => slotsFrom(slot, card).slice(1)));
  return [...new Set([...takes.keys(), ...placed.keys()])]
    .filter((slot) => !covered.has(slot))
    .sort((a, b) => a - b)
    .map((slot): FaceSlot => {
      const here = placed.get(slot);
      const { card, automatic } = here ?? {};
      return {
        slot,
        takes: takes.get(slot),
        card,
        at: here && `${at} / ${cardFact(here)}`,
        proposed: automatic,
        ports: card ? portsOf(rows.get(cardId(name, slot))) : [],
      };
    });
}

/** Without what it is plugged into: that is the face itself. */
function portsOf(rows: readonly PortRow[] | undefined): PortRow[] {
  return (rows ?? []).filter(({ port }) => port.type !== "backplane");
}

/** Neighbouring ports of one type that are free alike, or that one service takes in its order. */
export interface PortRun {
  readonly first: PortRow;
  readonly last: PortRow;
  readonly count: number;
}

export function runsOf(ports: readonly PortRow[]): readonly PortRun[] {
  const runs: { first: PortRow; last: PortRow; count: number }[] = [];
  for (const row of ports) {
    const run = runs.at(-1);
    if (run && goesOn(run.last, row)) {
      run.last = row;
      run.count++;
    } else runs.push({ first: row, last: row, count: 1 });
  }
  return runs;
}

function goesOn({ port, joined, lacks }: PortRow, next: PortRow): boolean {
  if (port.type !== next.port.type || lacks !== next.lacks) return false;
  if (joined === undefined || next.joined === undefined) return joined === next.joined;
  const [one, other] = [joined.carries, next.joined.carries];
  return (
    one.kind === "service" &&
    other.kind === "service" &&
    one.title === other.title &&
    one.index + 1 === other.index &&
    joined.proposed === next.joined.proposed
  );
}
