/**
 * One half of a band at each site: which hops to exchange so that no site transmits both, or the ring of an odd number of
 * hops that rules it out. A hop joins two sites that must have opposite halves, so that a band is a graph that must be
 * coloured with two colours. Common practice; graph theory has it that this can be done where no ring is odd.
 */
import type { HalfOfBand } from "../design/design.js";
import { otherHalf } from "./halves.js";

export interface HopOfBand {
  readonly name: string;
  /** Sites with opposite halves: hops of one plan, or of one radio where none is named. */
  readonly band: string;
  readonly sites: readonly [string, string];
  /** What the first site transmits; undefined: still to be chosen. */
  readonly firstHalf?: HalfOfBand;
  /** Exchanged only where nothing else helps: it is built. */
  readonly keeps?: boolean;
}

/** A ring of an odd number of hops: whatever their halves, one of its sites transmits both. */
export interface OddRing {
  /** Names, in order round the ring. */
  readonly hops: readonly string[];
  /** Of these each that opens all that is impossible here, by itself, once it is in another band. */
  readonly opens: readonly string[];
  /** Left out, so that the rest can be settled: one that opens, else any; none that should keep its half, if there is another. */
  readonly leftOut: string;
}

/** Hops of a band that hang together by their sites. */
export interface SettledHalves {
  readonly band: string;
  /** Names. */
  readonly hops: readonly string[];
  /** What the first site of each hop transmits, those left out apart. */
  readonly firstHalf: ReadonlyMap<string, HalfOfBand>;
  /** Hops that state the other half: fewest of those that keep theirs, then fewest in all. */
  readonly exchanged: readonly string[];
  /** Of these those that should keep theirs: what keeps contradicts itself. */
  readonly keptExchanged: readonly string[];
  /** The shortest first; each is one without the hops that earlier ones leave out. None: every site has one half. */
  readonly rings: readonly OddRing[];
}

/** In the order in which their first hops come. A hop that leads back to its own site is left out. */
export function settleHalves(hops: readonly HopOfBand[]): readonly SettledHalves[] {
  return componentsOf(hops.filter(({ sites: [a, b] }) => a !== b)).map(settled);
}

function settled(hops: readonly HopOfBand[]): SettledHalves {
  const rings: OddRing[] = [];
  let left = hops;
  for (let ring = oddRing(left); ring !== undefined; ring = oddRing(left)) {
    const [names, all] = [ring.map(({ name }) => name), left];
    const opens = ring.filter((hop) => colours(without(all, hop)) !== undefined);
    const leftOut = [...opens, ...ring].find(({ keeps }) => !keeps) ?? opens[0] ?? ring[0]!;
    rings.push({ hops: names, opens: opens.map(({ name }) => name), leftOut: leftOut.name });
    left = without(left, leftOut);
  }
  // What is left out may have held two parts together: each has its own smaller side.
  const parts = componentsOf(left).map(smallerSide);
  return {
    band: hops[0]!.band,
    hops: hops.map(({ name }) => name),
    firstHalf: new Map(parts.flatMap(({ firstHalf }) => [...firstHalf])),
    exchanged: parts.flatMap(({ exchanged }) => exchanged.map(({ name }) => name)),
    keptExchanged: parts.flatMap(({ exchanged }) =>
      exchanged.filter(({ keeps }) => keeps).map(({ name }) => name),
    ),
    rings,
  };
}

/** Of the two ways to give halves to hops that hang together the one that exchanges fewer. */
function smallerSide(hops: readonly HopOfBand[]): {
  readonly firstHalf: ReadonlyMap<string, HalfOfBand>;
  readonly exchanged: readonly HopOfBand[];
} {
  const colour = colours(hops)!;
  const [one, other] = (["high", "low"] as const).map((first) => {
    const firstHalf = new Map(
      hops.map(({ name, sites: [a] }) => [name, colour.get(a) ? first : otherHalf(first)] as const),
    );
    const exchanged = hops.filter(
      (hop) => hop.firstHalf !== undefined && hop.firstHalf !== firstHalf.get(hop.name),
    );
    return { firstHalf, exchanged, kept: exchanged.filter(({ keeps }) => keeps).length };
  });
  const more = one!.kept - other!.kept || one!.exchanged.length - other!.exchanged.length;
  return more <= 0 ? one! : other!;
}

type BySite = ReadonlyMap<string, readonly HopOfBand[]>;

function bySite(hops: readonly HopOfBand[]): BySite {
  const all = new Map<string, HopOfBand[]>();
  for (const hop of hops)
    for (const site of hop.sites) {
      const here = all.get(site);
      if (here) here.push(hop);
      else all.set(site, [hop]);
    }
  return all;
}

function farOf({ sites: [a, b] }: HopOfBand, site: string): string {
  return site === a ? b : a;
}

function componentsOf(hops: readonly HopOfBand[]): readonly (readonly HopOfBand[])[] {
  return [...Map.groupBy(hops, ({ band }) => band).values()].flatMap(connected);
}

/** Of one band. */
function connected(hops: readonly HopOfBand[]): readonly (readonly HopOfBand[])[] {
  const at = bySite(hops);
  const groupOf = new Map<string, number>();
  let groups = 0;
  for (const start of at.keys()) {
    if (groupOf.has(start)) continue;
    groupOf.set(start, groups);
    const reached = [start];
    for (const site of reached)
      for (const hop of at.get(site)!) {
        const far = farOf(hop, site);
        if (groupOf.has(far)) continue;
        groupOf.set(far, groups);
        reached.push(far);
      }
    groups += 1;
  }
  return [...Map.groupBy(hops, ({ sites: [a] }) => groupOf.get(a)!).values()];
}

/** Two colours of sites so that no hop joins two of one; the first site has `true`. Undefined: a ring is odd. */
function colours(hops: readonly HopOfBand[]): ReadonlyMap<string, boolean> | undefined {
  const at = bySite(hops);
  const colour = new Map<string, boolean>();
  for (const start of at.keys()) {
    if (colour.has(start)) continue;
    colour.set(start, true);
    const reached = [start];
    for (const site of reached)
      for (const hop of at.get(site)!) {
        const far = farOf(hop, site);
        const known = colour.get(far);
        if (known === colour.get(site)) return undefined;
        if (known !== undefined) continue;
        colour.set(far, !colour.get(site));
        reached.push(far);
      }
  }
  return colour;
}

/**
 * A shortest ring of an odd number of hops. Round a site in growing distance the first hop that joins two sites of one
 * distance closes a ring of twice that and one, and of all sites the shortest one passes through its own.
 */
function oddRing(hops: readonly HopOfBand[]): readonly HopOfBand[] | undefined {
  if (colours(hops) !== undefined) return undefined;
  const at = bySite(hops);
  let best: readonly HopOfBand[] | undefined;
  for (const start of at.keys()) {
    const ring = ringFrom(start, at, best?.length ?? Number.POSITIVE_INFINITY);
    if (ring !== undefined) best = ring;
    if (best?.length === 3) break;
  }
  return best;
}

interface Reached {
  readonly distance: number;
  /** By which it was reached. */
  readonly by?: HopOfBand;
}

function ringFrom(start: string, at: BySite, shorterThan: number): readonly HopOfBand[] | undefined {
  const reached = new Map<string, Reached>([[start, { distance: 0 }]]);
  for (const [site, { distance }] of reached) {
    if (2 * distance + 1 >= shorterThan) return undefined;
    for (const hop of at.get(site)!) {
      const far = farOf(hop, site);
      const known = reached.get(far);
      if (known === undefined) reached.set(far, { distance: distance + 1, by: hop });
      else if (known.distance === distance) return closed(hop, reached);
    }
  }
  return undefined;
}

/** The hop with the ways from its ends back to where both meet, in order round. */
function closed(hop: HopOfBand, reached: ReadonlyMap<string, Reached>): readonly HopOfBand[] {
  const [there, back]: [HopOfBand[], HopOfBand[]] = [[], []];
  let [a, b] = hop.sites;
  while (a !== b) {
    const [byA, byB] = [reached.get(a)!.by!, reached.get(b)!.by!];
    there.push(byA);
    back.push(byB);
    [a, b] = [farOf(byA, a), farOf(byB, b)];
  }
  return [hop, ...back, ...there.toReversed()];
}

function without(hops: readonly HopOfBand[], one: HopOfBand): readonly HopOfBand[] {
  return hops.filter((hop) => hop !== one);
}
