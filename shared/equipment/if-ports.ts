/**
 * Which IF port serves which unit: as the ends state, the rest automatically and so that little moves; only where that
 * leaves a unit without a port or parts a pair, all of the rest are placed by a search.
 */
import type { PortClaim } from "../design/equipment.js";
import type { ArrangementFacts } from "../radio/arrangements.js";
import { branchesOf, unitGroups } from "./branches.js";
import { pairFault, type SearchRequest, searchPlacement } from "./if-port-search.js";
import { byDraw, draw, type PlacedCard } from "./placement.js";
import { skip } from "./skip.js";

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

export type ClaimFault = "no unit" | "no card in the slot" | "no such port" | "no IF port" | "taken";

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
  /** Ports of the site for units. */
  readonly ports: number;
  /**
   * Set where ports given one by one leave a unit without one or part a pair: `found` where a search placed all,
   * `given up` where it ended before all was tried.
   */
  readonly search?: "found" | "none" | "given up";
}

/** @param cards of one site */
export function planIfPorts(cards: readonly PlacedCard[], demands: readonly IfDemand[]): IfPortPlan {
  const places = cards.map((card) => ({ card, free: ifPortsOf(card) })).filter(({ free }) => free.length > 0);
  const ports = places.reduce((sum, { free }) => sum + free.length, 0);
  const plan: Plan = { uses: [], faults: [], short: [], ports };
  const takeStated = statedClaims(cards, places, plan);
  for (const demand of demands) takeStated(demand);
  const stated = { uses: [...plan.uses], free: places.map(({ free }) => [...free]) };
  const requests = byDraw(demands.flatMap(openRequests));
  const takeOpen = openPlaces(places, plan);
  const missing = new Map<string, number>();
  for (const request of requests) {
    const lacking = takeOpen(request);
    if (lacking > 0) missing.set(request.hop, (missing.get(request.hop) ?? 0) + lacking);
  }
  for (const { hop, facts } of demands) {
    const lacking = missing.get(hop);
    if (lacking !== undefined) plan.short.push({ hop, needed: facts.ifCables, missing: lacking });
  }
  if (missing.size === 0 && !demands.some((demand) => isParted(demand, plan))) return plan;
  return placedTogether(plan, stated, places, demands, requests);
}

interface Plan extends IfPortPlan {
  readonly uses: IfPortUse[];
  readonly faults: IfPortPlan["faults"][number][];
  readonly short: IfPortPlan["short"][number][];
}

/** Whether a pair with an open port cannot pair where its units are. */
function isParted({ hop, facts }: IfDemand, { uses }: IfPortPlan): boolean {
  if (facts.xpicPairs === 0) return false;
  return partedPairs(
    facts,
    uses.filter((use) => use.hop === hop),
  ).some(({ ports }) => ports.some(({ automatic }) => automatic));
}

/** Pairs whose ports cannot pair for XPIC, and why. @param own ports of the hop at this site */
export function partedPairs(
  facts: ArrangementFacts,
  own: readonly IfPortUse[],
): readonly {
  readonly branches: readonly string[];
  readonly ports: readonly IfPortUse[];
  readonly why: string;
}[] {
  if (facts.xpicPairs === 0) return [];
  return portGroups(facts).flatMap((branches) => {
    const ports = branches.flatMap((branch) => own.find((use) => use.branch === branch) ?? []);
    const [one, other] = ports;
    const why = one && other && pairFault(one.card, other.card);
    return why === undefined ? [] : [{ branches, ports, why }];
  });
}

/** The open requests placed by a search; where it finds nothing, the plan as it was. */
function placedTogether(
  plan: Plan,
  stated: { readonly uses: readonly IfPortUse[]; readonly free: readonly (readonly number[])[] },
  places: readonly Place[],
  demands: readonly IfDemand[],
  requests: readonly Request[],
): IfPortPlan {
  const statedOf = Map.groupBy(stated.uses, ({ hop }) => hop);
  const apart = demands.filter(({ facts }) => wantsTwoCards(facts));
  const outcome = searchPlacement({
    places: places.map(({ card }, index) => ({ card, free: stated.free[index]!.length })),
    requests: requests.map((request) => searchRequest(request, statedOf.get(request.hop) ?? [])),
    apart: new Map(apart.map(({ hop }) => [hop, (statedOf.get(hop) ?? []).map(({ card }) => card)])),
  });
  if (outcome.found === undefined) return { ...plan, search: outcome.gaveUp ? "given up" : "none" };
  const free = stated.free.map((numbers) => [...numbers]);
  const uses = outcome.found.flatMap((at, index) =>
    at.map((place, unit): IfPortUse => {
      const { hop, branches } = requests[index]!;
      return {
        hop,
        branch: branches[unit]!,
        card: places[place]!.card,
        port: free[place]!.shift()!,
        automatic: true,
      };
    }),
  );
  return { ...plan, uses: [...stated.uses, ...uses], short: [], search: "found" };
}

function searchRequest({ hop, key, branches, mate }: Request, stated: readonly IfPortUse[]): SearchRequest {
  const pairsWith = stated.find(({ branch }) => branch === mate)?.card;
  return { hop, key, units: branches.length === 2 ? 2 : 1, pairsWith };
}

/** Main and standby, or the two carriers of frequency diversity: one card that fails should not take both. */
export function wantsTwoCards({ hotStandby, protection, ifCables }: ArrangementFacts): boolean {
  return (hotStandby || protection === "frequency-diversity") && ifCables >= 2;
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
  /** The branch with a stated port that it pairs with. */
  readonly mate?: string;
}

/** Branches whose ports pair for XPIC; the others alone. */
export function portGroups(facts: ArrangementFacts): readonly (readonly string[])[] {
  const branches = branchesOf(facts);
  return unitGroups(facts).map((group) => group.map((index) => branches[index]!.name));
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
      if (index >= facts.ifCables) {
        fault("no unit");
        continue;
      }
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
        plan.uses.push({ hop, branch: branches[index]!.name, card, port: claim.port, automatic: false });
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
    .map((group) => ({
      branches: group.filter((branch) => !stated.has(branch)),
      mate: group.find((branch) => stated.has(branch)),
    }))
    .filter(({ branches }) => branches.length > 0)
    .map(({ branches, mate }) => ({
      hop,
      branches,
      mate,
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
