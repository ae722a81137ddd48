/**
 * IF ports for units that cannot be placed one after the other: all open requests of a site are placed anew together,
 * trying in a fixed order and going back where something is left over. Bounded in steps, so that the answer is the same
 * everywhere.
 */
import { draw, type PlacedCard, slotCountOf, slotsFrom } from "./placement.js";

/** A card with the number of its IF ports that are open. */
interface SearchPlace {
  readonly card: PlacedCard;
  readonly free: number;
}

export interface SearchRequest {
  readonly key: string;
  readonly hop: string;
  /** Two that pair for XPIC, or one. */
  readonly units: 1 | 2;
  /** Card of a stated port that the unit has to pair with. */
  readonly pairsWith?: PlacedCard;
}

export interface SearchInput {
  readonly places: readonly SearchPlace[];
  readonly requests: readonly SearchRequest[];
  /** Hops whose units should not all hang on one card, each with the cards of its stated ports. */
  readonly apart: ReadonlyMap<string, readonly PlacedCard[]>;
}

/** Places of each request's units, in the order of the requests: indexes of `places`. */
type Placement = readonly (readonly number[])[];

export type SearchOutcome =
  | { readonly found: Placement }
  | { readonly found?: undefined; readonly gaveUp: boolean };

/** Options looked at before a search is given up. */
const MOST_STEPS = 20_000;

/**
 * A placement that gives every unit a port and lets every pair pair; if there is one, also with the units of a protected
 * hop on more than one card.
 * @returns without a placement: whether the search was given up before all was tried
 */
export function searchPlacement(input: SearchInput): SearchOutcome {
  const places = withLinks(input.places);
  const { requests, apart } = input;
  const units = requests.reduce((sum, request) => sum + request.units, 0);
  const pairs = requests.filter(isPair).length;
  const ports = places.reduce((sum, { free }) => sum + free, 0);
  if (units > ports || pairs > pairsPossible(places)) return { gaveUp: false };
  const order = inOrder(input);
  const kept = attempt(places, order, apart);
  const outcome = kept.found || apart.size === 0 ? kept : attempt(places, order, new Map());
  if (outcome.found === undefined) return outcome;
  const at = new Map(order.map((request, index) => [request, outcome.found[index]!]));
  return { found: requests.map((request) => at.get(request)!) };
}

/** What is bound to a card first, then pairs, units of protected hops, and all others, which fit anywhere. */
function inOrder({ requests, apart }: SearchInput): readonly SearchRequest[] {
  return requests
    .map((request) => {
      const { pairsWith, units, hop, key } = request;
      const rank = pairsWith ? 0 : units === 2 ? 1 : apart.has(hop) ? 2 : 3;
      return { request, rank, group: draw(`rank ${apart.has(hop) ? hop : key}`) };
    })
    .sort((a, b) => a.rank - b.rank || a.group - b.group || (a.request.key < b.request.key ? -1 : 1))
    .map(({ request }) => request);
}

/** A card of the search, with what it pairs with. */
interface Place {
  readonly card: PlacedCard;
  free: number;
  readonly xpic: boolean;
  /** Indexes of linked cards in neighbouring slots. */
  readonly linked: readonly number[];
}

function withLinks(places: readonly SearchPlace[]): readonly Place[] {
  const chassis = new Map<PlacedCard["chassis"], Map<number, number>>();
  for (const [index, { card }] of places.entries()) {
    const slots = chassis.get(card.chassis) ?? new Map<number, number>();
    for (const slot of slotsFrom(card.slot, card.card)) slots.set(slot, index);
    chassis.set(card.chassis, slots);
  }
  return places.map(({ card, free }) => ({
    card,
    free,
    xpic: card.card.xpic !== false,
    linked: [card.slot - 1, card.slot + slotCountOf(card.card)].flatMap((slot) => {
      const index = chassis.get(card.chassis)!.get(slot);
      return index !== undefined && pairFault(card, places[index]!.card) === undefined ? [index] : [];
    }),
  }));
}

/** Why units on two cards cannot pair for XPIC; undefined: they can. */
export function pairFault(one: PlacedCard, other: PlacedCard): string | undefined {
  for (const { card } of [one, other]) if (card.xpic === false) return `${card.name} has no XPIC`;
  if (one === other) return undefined;
  const [low, high] = [one.slot, other.slot].sort((a, b) => a - b);
  const slots = `slots ${low} and ${high}`;
  if (one.chassis !== other.chassis) return "they are on cards of different chassis";
  if (one.card.pairs !== "neighbour" || other.card.pairs !== "neighbour")
    return `they are on two cards, in ${slots}, that do not pair`;
  const [before] = one.slot === low ? [one] : [other];
  return low! + slotCountOf(before.card) === high ? undefined : `${slots} are not neighbours`;
}

function attempt(
  start: readonly Place[],
  order: readonly SearchRequest[],
  apart: SearchInput["apart"],
): SearchOutcome {
  const places = start.map((place) => ({ ...place }));
  const ofHop = Map.groupBy(order.keys(), (index) => order[index]!.hop);
  const pairsBehind: number[] = [];
  for (let index = order.length - 1, pairs = 0; index >= 0; index--) {
    pairsBehind[index] = pairs;
    if (isPair(order[index]!)) pairs++;
  }
  const options: (readonly (readonly number[])[])[] = [];
  const next: number[] = [];
  const chosen: (readonly number[])[] = [];
  let steps = 0;
  let at = 0;
  while (at < order.length) {
    const request = order[at]!;
    options[at] ??= optionsFor(request, places);
    next[at] ??= 0;
    const option = options[at]![next[at]!];
    if (option === undefined) {
      // Nothing left to try here: the one before has to make room.
      delete options[at];
      delete next[at];
      if (--at < 0) return { gaveUp: false };
      for (const index of chosen[at]!) places[index]!.free++;
      chosen.length = at;
      continue;
    }
    next[at]!++;
    if (++steps > MOST_STEPS) return { gaveUp: true };
    for (const index of option) places[index]!.free--;
    chosen[at] = option;
    const stated = apart.get(request.hop);
    const own = ofHop.get(request.hop)!;
    const onOneCard = () =>
      new Set([...stated!, ...own.flatMap((index) => chosen[index]!.map((place) => places[place]!.card))])
        .size === 1;
    const isLast = own.at(-1) === at;
    if (pairsPossible(places) >= pairsBehind[at]! && !(stated && isLast && onOneCard())) at++;
    else {
      for (const index of option) places[index]!.free++;
      chosen.length = at;
    }
  }
  return { found: chosen };
}

function isPair({ units }: SearchRequest): boolean {
  return units === 2;
}

/** From a place drawn from its name on, as where ports are given one by one. */
function optionsFor(
  { key, units, pairsWith }: SearchRequest,
  places: readonly Place[],
): (readonly number[])[] {
  const first = places.length === 0 ? 0 : draw(key) % places.length;
  const ring = places.map((_, index) => (first + index) % places.length).filter((at) => places[at]!.free > 0);
  if (units === 1)
    return ring
      .filter((at) => pairsWith === undefined || pairFault(pairsWith, places[at]!.card) === undefined)
      .map((at) => [at]);
  const within = ring.filter((at) => places[at]!.xpic && places[at]!.free >= 2).map((at) => [at, at]);
  const across = ring.flatMap((at) =>
    places[at]!.linked.filter((other) => other > at && places[other]!.free > 0).map((other) => [at, other]),
  );
  return [...within, ...across];
}

/**
 * The most pairs that the open ports still take: of cards that are linked in a row without a full one between them, any
 * two ports in the order of the slots pair.
 */
function pairsPossible(places: readonly Place[]): number {
  const seen = new Set<number>();
  let pairs = 0;
  for (const [index, { free, xpic }] of places.entries()) {
    if (seen.has(index) || !xpic || free === 0) continue;
    let sum = 0;
    const row = [index];
    seen.add(index);
    for (let at = row.pop(); at !== undefined; at = row.pop()) {
      sum += places[at]!.free;
      for (const other of places[at]!.linked) {
        if (seen.has(other) || places[other]!.free === 0) continue;
        seen.add(other);
        row.push(other);
      }
    }
    pairs += Math.floor(sum / 2);
  }
  return pairs;
}
