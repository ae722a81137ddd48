/** Cards and slots of what stands at a site. */
import { address, nth } from "../../design/address.js";
import type { Card, InstalledChassis, PortType } from "../../design/equipment.js";
import type { Fix } from "../../design/fact-change.js";
import { chassisLacks } from "../../equipment/chassis-needs.js";
import { placeCards, slotKindOf, slotsFrom } from "../../equipment/placement.js";
import { decision, type Fixes, type Mending } from "./mending.js";

interface ChassisHere {
  readonly installed: InstalledChassis;
  /** Of its block. */
  readonly at: string;
}

/** Puts a card into the first slot that takes it and is not stated for another. */
export const otherSlot: Fixes = (mending) => {
  const here = chassisHere(mending);
  const index = indexIn(mending.finding.at, "slot");
  const card = here?.installed.slots[index]?.card;
  const chassis = here?.installed.chassis;
  if (!here || !card || !chassis) return [];
  const others = here.installed.slots.filter((_, other) => other !== index);
  const taken = new Set([
    ...here.installed.slots.map(({ slot }) => slot),
    ...others.flatMap((one) => (one.card ? slotsFrom(one.slot, one.card) : [])),
  ]);
  const slots = chassis.slots.flatMap(({ from, to, kind }) =>
    kind === slotKindOf(card) ? Array.from({ length: to - from + 1 }, (_, step) => from + step) : [],
  );
  const free = slots.find((slot) =>
    slotsFrom(slot, card).every((one) => slots.includes(one) && !taken.has(one)),
  );
  if (free === undefined) return [];
  return [
    decision(`Put ${card.name} into slot ${free}`, {
      do: "replace",
      at: `${here.at} / ${nth("slot", index)}`,
      argument: "number",
      by: String(free),
    }),
  ];
};

/** One more controller: of the kind that the chassis has before the others of the catalogue. */
export const addController: Fixes = (mending) => {
  const here = chassisHere(mending);
  if (!here) return [];
  return cardsLike(mending, [here.installed], ({ kind }) => kind === "controller").map((card) =>
    addCards(here, card, 1),
  );
};

/** The fan and power cards that a chassis lacks, of each kind the first that suits. */
export const addNeeded: Fixes = (mending) => {
  const here = chassisHere(mending);
  const lacks = here ? chassisLacks(here.installed, placeCards([here.installed]).cards) : [];
  if (!here || lacks.length === 0) return [];
  const added = lacks.map(({ kind, needed, has }) => {
    const [card] = cardsLike(mending, [here.installed], (one) => one.kind === kind);
    return card && addCards(here, card, needed - has);
  });
  if (added.some((fix) => fix === undefined)) return [];
  const fixes = added as readonly Fix[];
  return fixes.length === 1
    ? fixes
    : [
        decision(
          "Add the fan and power cards that are missing (changes the equipment)",
          ...fixes.flatMap(({ changes }) => changes),
        ),
      ];
};

/** @param countOf how many of a card would do; not finite: none would */
export function addToSite(mending: Mending, countOf: (card: Card) => number): readonly Fix[] {
  const site = siteHere(mending);
  const chassis = mending.equipmentAt(site)?.chassis ?? [];
  const [first] = chassis;
  if (!first) return [];
  const here = { installed: first, at: address("site", site, "chassis") };
  return cardsLike(mending, chassis, (card) => Number.isFinite(countOf(card))).map((card) =>
    addCards(here, card, countOf(card)),
  );
}

export function portsOf({ ports }: Card, wanted: PortType): number {
  return ports.reduce((sum, { count, type }) => sum + (type === wanted ? count : 0), 0);
}

/** The site that an address is about: its own, or that of an end. */
export function siteHere({ finding }: Mending): string {
  const [top = "", step = ""] = finding.at.split(" / ");
  return top.startsWith("site ") ? top.slice("site ".length) : step;
}

/** Which one of several of a name an address goes through, from 0. */
function indexIn(at: string, name: string): number {
  const step = at.split(" / ").find((one) => one === name || one.startsWith(`${name}#`));
  return Number(step?.split("#")[1] ?? 0);
}

/** The chassis that the finding's address lies in, the first of its site where it names none. */
function chassisHere(mending: Mending): ChassisHere | undefined {
  const site = siteHere(mending);
  const index = indexIn(mending.finding.at, "chassis");
  const installed = mending.equipmentAt(site)?.chassis[index];
  return installed && { installed, at: address("site", site, nth("chassis", index)) };
}

/** Cards of a kind: those that the chassis have already before the others of the catalogue. */
function cardsLike(
  { catalogue }: Mending,
  chassis: readonly InstalledChassis[],
  wanted: (card: Card) => boolean,
): readonly Card[] {
  const there = chassis.flatMap(({ slots, loose }) => [
    ...slots.flatMap(({ card }) => card ?? []),
    ...loose.map(({ card }) => card),
  ]);
  const own = [...new Map(there.filter(wanted).map((card) => [card.name, card])).values()];
  return [...own, ...catalogue.cards.filter((card) => wanted(card) && !own.includes(card))];
}

/** Counts up the line of the card where it has one, else writes one. */
function addCards({ installed, at }: ChassisHere, { name }: Card, count: number): Fix {
  const there = installed.loose.find(({ card }) => card.name === name)?.count ?? 0;
  const total = there + count;
  const title = `Add ${count > 1 ? `${count} cards` : "card"} ${name} (changes the equipment)`;
  return decision(title, {
    do: "state",
    in: at,
    line: `card ${name}${total > 1 ? ` ${total}` : ""}`,
    where: { argument: "card", is: name },
  });
}
