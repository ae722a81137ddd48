/** Which IF port serves which unit: as the ends state, the rest automatically and so that little moves. */
import type { PortClaim } from "../design/equipment.js";
import type { ArrangementFacts } from "../radio/arrangements.js";
import { branchesOf } from "./branches.js";
import { byDraw, draw, type PlacedCard } from "./placement.js";

/** What one end of a hop asks for. */
export interface IfDemand {
  readonly hop: string;
  readonly facts: ArrangementFacts;
  readonly claims: readonly PortClaim[];
}

export interface IfPortUse {
  readonly hop: string;
  readonly branch: string;
  readonly card: PlacedCard;
  /** From 1. */
  readonly port: number;
  readonly automatic: boolean;
}

export type ClaimFault = "no card in the slot" | "no such port" | "no IF port" | "taken";

export interface IfPortPlan {
  readonly uses: readonly IfPortUse[];
  readonly faults: readonly {
    readonly hop: string;
    readonly index: number;
    readonly claim: PortClaim;
    readonly fault: ClaimFault;
    /** Who has it, when it is taken. */
    readonly by?: string;
  }[];
  /** Ports that an end lacks. */
  readonly short: readonly { readonly hop: string; readonly needed: number; readonly missing: number }[];
  /** Ports of the site for units, and those in use. */
  readonly ports: number;
}

/** @param cards of one site */
export function planIfPorts(cards: readonly PlacedCard[], demands: readonly IfDemand[]): IfPortPlan {
  const places = cards.map((card) => ({ card, free: ifPortsOf(card) })).filter(({ free }) => free.length > 0);
  const plan: Plan = {
    uses: [],
    faults: [],
    short: [],
    ports: places.reduce((sum, { free }) => sum + free.length, 0),
  };
  const takeStated = statedClaims(cards, places, plan);
  for (const demand of demands) takeStated(demand);
  const requests = demands.flatMap(openRequests);
  const takeOpen = openPlaces(places, plan);
  const missing = new Map<string, number>();
  for (const request of byDraw(requests)) {
    const lacking = takeOpen(request);
    if (lacking > 0) missing.set(request.hop, (missing.get(request.hop) ?? 0) + lacking);
  }
  for (const { hop, facts } of demands) {
    const lacking = missing.get(hop);
    if (lacking !== undefined) plan.short.push({ hop, needed: facts.ifCables, missing: lacking });
  }
  return plan;
}

interface Plan extends IfPortPlan {
  readonly uses: IfPortUse[];
  readonly faults: IfPortPlan["faults"][number][];
  readonly short: IfPortPlan["short"][number][];
}

interface Place {
  readonly card: PlacedCard;
  /** Numbers of the IF ports that are left. */
  readonly free: number[];
}

/** Units that belong on one card (an XPIC pair), or one unit. */
interface Request {
  readonly hop: string;
  readonly key: string;
  readonly branches: readonly string[];
  readonly xpic: boolean;
}

/** Branches whose ports pair for XPIC; the others alone. */
export function portGroups(facts: ArrangementFacts): readonly (readonly string[])[] {
  const branches = branchesOf(facts);
  if (facts.xpicPairs === 0) return branches.map(({ name }) => [name]);
  // Main with main, standby with standby; carriers as they stand, two on a channel.
  const order = facts.hotStandby && branches.length === 4 ? [0, 2, 1, 3] : branches.map((_, index) => index);
  const groups: string[][] = [];
  for (let i = 0; i < order.length; i += 2) {
    groups.push(order.slice(i, i + 2).map((index) => branches[index]!.name));
  }
  return groups;
}

function statedClaims(cards: readonly PlacedCard[], places: readonly Place[], plan: Plan) {
  const bySlot = new Map<string, PlacedCard>();
  for (const card of cards) {
    bySlot.set(`${card.chassis.name} ${card.slot}`, card);
    // A claim without a chassis means the first one.
    if (card.chassis.name === cards[0]?.chassis.name) bySlot.set(` ${card.slot}`, card);
  }
  const placeOf = new Map(places.map((place) => [place.card, place]));
  const owner = new Map<string, string>();
  return ({ hop, facts, claims }: IfDemand) => {
    const branches = branchesOf(facts);
    for (const [index, claim] of claims.entries()) {
      const card = bySlot.get(`${claim.chassis ?? ""} ${claim.slot}`);
      const fault = (what: ClaimFault, by?: string) =>
        plan.faults.push({ hop, index, claim, fault: what, by });
      if (card === undefined) {
        fault("no card in the slot");
        continue;
      }
      const type = portTypeOf(card, claim.port);
      const key = `${card.chassis.name} ${card.slot} ${claim.port}`;
      if (type === undefined) fault("no such port");
      else if (type !== "IF") fault("no IF port");
      else if (owner.has(key)) fault("taken", owner.get(key));
      else {
        owner.set(key, hop);
        const free = placeOf.get(card)!.free;
        free.splice(free.indexOf(claim.port), 1);
        const branch = branches[index]?.name ?? `unit ${index + 1}`;
        plan.uses.push({ hop, branch, card, port: claim.port, automatic: false });
      }
    }
  };
}

/** What the design leaves open: all of an end, or those behind the stated ones. */
function openRequests({ hop, facts, claims }: IfDemand): Request[] {
  if (facts.ifCables === 0) return [];
  const stated = new Set(
    branchesOf(facts)
      .slice(0, claims.length)
      .map(({ name }) => name),
  );
  return portGroups(facts)
    .map((group) => group.filter((branch) => !stated.has(branch)))
    .filter((group) => group.length > 0)
    .map((branches) => ({
      hop,
      branches,
      key: `${hop} ${branches[0]}`,
      xpic: facts.xpicPairs > 0 && branches.length > 1,
    }));
}

/**
 * Gives a request ports of one card, if possible not one that already serves the same end; else it is parted.
 * Cards that can no longer serve a kind of request are passed over for good, so that many requests stay linear.
 */
function openPlaces(places: readonly Place[], plan: Plan): (request: Request) => number {
  const rings = new Map<string, number[]>();
  const usedBy = new Map<string, Set<Place>>();
  const serves = (place: Place, need: number, xpic: boolean) =>
    place.free.length >= need && (!xpic || place.card.card.xpic !== false);

  const find = (key: string, need: number, xpic: boolean, not: ReadonlySet<Place>): Place | undefined => {
    const count = places.length;
    if (count === 0) return undefined;
    const kind = `${need} ${xpic}`;
    let next = rings.get(kind);
    if (next === undefined) rings.set(kind, (next = Array.from({ length: count + 1 }, (_, i) => i)));
    const start = draw(key) % count;
    let shared: Place | undefined;
    for (const [from, to] of [
      [start, count],
      [0, start],
    ] as const) {
      for (let at = skip(next, from); at < to; at = skip(next, at + 1)) {
        const place = places[at]!;
        if (!serves(place, need, xpic)) next[at] = at + 1;
        else if (!not.has(place)) return place;
        else shared ??= place;
      }
    }
    return shared;
  };

  const give = (request: Request, branches: readonly string[], xpic: boolean): number => {
    const used = usedBy.get(request.hop) ?? new Set();
    usedBy.set(request.hop, used);
    const place = find(request.key, branches.length, xpic, used);
    if (place === undefined) {
      if (branches.length === 1) return 1;
      return branches.reduce((lacking, branch) => lacking + give(request, [branch], false), 0);
    }
    used.add(place);
    for (const branch of branches) {
      plan.uses.push({
        hop: request.hop,
        branch,
        card: place.card,
        port: place.free.shift()!,
        automatic: true,
      });
    }
    return 0;
  };
  return (request) => give(request, request.branches, request.xpic);
}

/** The first place at or behind `at` that may still serve, with the way there shortened. */
function skip(next: number[], at: number): number {
  let to = at;
  while (next[to]! > to) to = next[to]!;
  for (let i = at; next[i]! > i; ) {
    const then = next[i]!;
    next[i] = to;
    i = then;
  }
  return to;
}

function ifPortsOf({ card }: PlacedCard): number[] {
  const numbers: number[] = [];
  let first = 1;
  for (const { count, type } of card.ports) {
    if (type === "IF") for (let i = 0; i < count; i++) numbers.push(first + i);
    first += count;
  }
  return numbers;
}

/** Ports are numbered from 1 in the order of the card's lines. */
function portTypeOf({ card }: PlacedCard, port: number): string | undefined {
  let first = 1;
  for (const { count, type } of card.ports) {
    if (port >= first && port < first + count) return type;
    first += count;
  }
  return undefined;
}
