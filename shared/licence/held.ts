/** Which licence each transmission of a hop rests on, and what of it the design does not keep. */
import type { Design, Hop } from "../design/design.js";
import type { Licence } from "../design/licence.js";
import type { HopResult } from "../evaluate/account/result.js";
import type { Memory } from "../network/memory.js";
import { type Departure, departuresOf } from "./departures.js";
import { type Transmission, transmissionsOf } from "./transmissions.js";

export interface Held {
  readonly sent: Transmission;
  /** Undefined: the design states none. */
  readonly licence?: Licence;
  readonly departures: readonly Departure[];
}

export interface HeldHop {
  readonly hop: Hop;
  /** One a transmission. */
  readonly held: readonly Held[];
  /** In force, and for nothing that the hop sends. Empty while it is not known what an end sends. */
  readonly spare: readonly Licence[];
  /** From a site that is no end of the hop. */
  readonly notFromEnds: readonly Licence[];
}

/** Its first and its last day count. @param day ISO date */
function inForce({ since, until }: Pick<Licence, "since" | "until">, day: string): boolean {
  return (since === undefined || since <= day) && (until === undefined || day <= until);
}

/**
 * A licence is for the transmission from which it departs least; frequency and polarization count most. One that is in
 * force comes before one that is not, so that an amended licence takes the place of the old one on its first day.
 * @param licences of the hop
 * @param day ISO date that is looked at
 */
export function heldHop(
  hop: Hop,
  result: Pick<HopResult, "carriers" | "geometry"> | undefined,
  licences: readonly Licence[],
  day: string,
): HeldHop {
  const sent = transmissionsOf(hop, result);
  const held: Held[] = [];
  const spare: Licence[] = [];
  for (const { site } of hop.ends) {
    const here = sent.filter((one) => one.site === site.name);
    const granted = licences.filter((one) => one.site === site.name);
    const taken = pairsOf(hop, here, granted, day);
    held.push(...here.map((one) => taken.get(one) ?? { sent: one, departures: [] }));
    const used = new Set([...taken.values()].map(({ licence }) => licence));
    if (here.length > 0) spare.push(...granted.filter((one) => !used.has(one) && inForce(one, day)));
  }
  const ends = new Set(hop.ends.map(({ site }) => site.name));
  return { hop, held, spare, notFromEnds: licences.filter(({ site }) => !ends.has(site)) };
}

/** So many licences of an end are looked at; nobody has more. */
const MOST_AT_AN_END = 200;

interface Pair extends Held {
  readonly licence: Licence;
  readonly cost: number;
}

function pairsOf(
  hop: Hop,
  sent: readonly Transmission[],
  licences: readonly Licence[],
  day: string,
): ReadonlyMap<Transmission, Held> {
  const all = sent.flatMap((one) =>
    licences.slice(0, MOST_AT_AN_END).map((licence) => pairOf(hop, one, licence, day)),
  );
  const pairs = new Map<Transmission, Pair>();
  const used = new Set<Licence>();
  for (const pair of all.toSorted((a, b) => a.cost - b.cost)) {
    if (pairs.has(pair.sent) || used.has(pair.licence)) continue;
    pairs.set(pair.sent, pair);
    used.add(pair.licence);
  }
  return exchanged(hop, pairs, day);
}

function pairOf(hop: Hop, sent: Transmission, licence: Licence, day: string): Pair {
  const departures = departuresOf(hop, sent, licence);
  const cost = costOf(departures, inForce(licence, day)) + openCost(licence) + apartIn(sent, licence);
  return { sent, licence, departures, cost };
}

/** What is nearest to one may be the only one that holds for another: two exchange as long as both together gain. */
function exchanged(hop: Hop, pairs: Map<Transmission, Pair>, day: string): ReadonlyMap<Transmission, Held> {
  const faulty = () => [...pairs.values()].filter(({ departures }) => departures.length > 0);
  // Each exchange lowers the sum of costs; so many are more than there can be.
  for (let left = pairs.size ** 2; left > 0; left--) {
    const better = betterExchange(hop, faulty(), [...pairs.values()], day);
    if (better === undefined) break;
    for (const pair of better) pairs.set(pair.sent, pair);
  }
  return pairs;
}

function betterExchange(
  hop: Hop,
  faulty: readonly Pair[],
  all: readonly Pair[],
  day: string,
): readonly [Pair, Pair] | undefined {
  for (const one of faulty)
    for (const other of all) {
      if (other === one) continue;
      const mine = pairOf(hop, one.sent, other.licence, day);
      const theirs = pairOf(hop, other.sent, one.licence, day);
      if (mine.cost + theirs.cost < one.cost + other.cost - 1e-9) return [mine, theirs];
    }
  return undefined;
}

function costOf(departures: readonly Departure[], holds: boolean): number {
  const figures = departures.reduce((sum, { figure }) => sum + (WEIGHT[figure] ?? 1), 0);
  return figures + (holds ? 0 : 1000);
}

/** One that does not say its frequency comes behind those that do. */
function openCost({ frequencyHz }: Licence): number {
  return frequencyHz === undefined ? 50 : 0;
}

/** Less than one figure: of carriers that are alike but for their power each has its own. */
function apartIn({ greatestEirpDbm }: Transmission, { eirpDbm }: Licence): number {
  if (greatestEirpDbm === undefined || eirpDbm === undefined) return 0;
  return Math.min(Math.abs(greatestEirpDbm - eirpDbm), 100) / 1000;
}

const WEIGHT: { readonly [Figure in Departure["figure"]]?: number } = { frequency: 100, polarization: 10 };

const grouped = new WeakMap<readonly Licence[], ReadonlyMap<string, readonly Licence[]>>();
const NONE: readonly Licence[] = [];

/** Those of a hop; the same list as long as the design states the same. */
export function licencesFor({ licences = NONE }: Pick<Design, "licences">, hop: string): readonly Licence[] {
  let byHop = grouped.get(licences);
  if (!byHop) grouped.set(licences, (byHop = Map.groupBy(licences, (one) => one.hop)));
  return byHop.get(hop) ?? NONE;
}

interface Known {
  readonly result: HopResult | undefined;
  readonly licences: readonly Licence[];
  readonly day: string;
  readonly held: HeldHop;
}

const STEP = {};

/** Of hops that have a licence, and of those that are asked for one; worked out anew only where something changed. */
export function heldInNetwork(
  design: Design,
  results: ReadonlyMap<string, HopResult>,
  day: string,
  memory: Memory,
): ReadonlyMap<string, HeldHop> {
  const all = new Map<string, HeldHop>();
  if (design.licences === undefined && !design.licenceTerms?.required) return all;
  for (const hop of design.hops.values()) {
    const licences = licencesFor(design, hop.name);
    if (licences.length === 0 && !asksForOne(design, hop)) continue;
    const result = results.get(hop.name);
    const { held } = memory.renew(STEP, hop, (known: Known | undefined): Known => {
      if (known && known.result === result && known.day === day) {
        if (known.licences === licences) return known;
        if (isSame(known.licences, licences)) return { ...known, licences };
      }
      return { result, licences, day, held: heldHop(hop, result, licences, day) };
    });
    all.set(hop.name, held);
  }
  return all;
}

/** An edit of one licence makes all of them anew; those of other hops say the same. */
function isSame(known: readonly Licence[], now: readonly Licence[]): boolean {
  if (known === now) return true;
  return (
    known.length === now.length &&
    known.every((one, index) => JSON.stringify(one) === JSON.stringify(now[index]))
  );
}

/**
 * Whether a hop that has none is told: where the network requires one, each that is not merely planned; else one that
 * is stated as built, in a design that states licences.
 */
export function asksForOne({ licences, licenceTerms }: Design, { state }: Hop): boolean {
  if (licenceTerms?.required) return state?.word !== "planned";
  return licences !== undefined && state?.word === "built";
}
