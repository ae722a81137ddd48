/**
 * One half of a band at each site: which hops to exchange so that no site transmits both, or the ring of an odd number of
 * hops that rules it out. A hop joins two sites that must have opposite halves, so that a band is a graph to be coloured
 * with two colours, which can be done where no ring is odd (graph theory); one half a site is common practice.
 */
import type { HalfOfBand } from "../design/design.js";
import { type OddGraph, opening, shortestOddRing } from "./odd-rings.js";

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
interface OddRing {
  /** Names, in order round the ring; it is a shortest one. */
  readonly hops: readonly string[];
  /** Of these each that opens every odd ring that hangs together with it, by itself, once it is in another band. */
  readonly opens: readonly string[];
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
  /** Undefined: every site has one half. */
  readonly ring?: OddRing;
  /** With these in another band all others are settled; those that keep theirs come last. Fewer may do. */
  readonly leftOut: readonly string[];
}

/** In the order in which their first hops come. A hop that leads back to its own site is left out. */
export function settleHalves(all: readonly HopOfBand[]): readonly SettledHalves[] {
  const hops = all.filter(({ sites: [a, b] }) => a !== b);
  const { from, to, count } = numbered(hops);
  const sites = new Parities(count);
  const isLeftOut = new Uint8Array(hops.length);
  const inForest = new Uint8Array(hops.length);
  for (const first of [true, false])
    for (let hop = 0; hop < hops.length; hop++)
      if ((hops[hop]!.keeps ?? false) === first) {
        if (sites.join(from[hop]!, to[hop]!)) inForest[hop] = 1;
        else if (sites.parity(from[hop]!) === sites.parity(to[hop]!)) isLeftOut[hop] = 1;
      }
  const together = Map.groupBy(hops.keys(), (hop) => sites.root(from[hop]!));
  return [...together.values()].map((own) => {
    const left = own.filter((hop) => !isLeftOut[hop]);
    const out = own.filter((hop) => isLeftOut[hop]);
    const graph: OddGraph = { from, to, count, hops: own, inForest, isOdd: isLeftOut };
    const name = (hop: number) => hops[hop]!.name;
    const ring = out.length === 0 ? undefined : shortestOddRing(graph);
    const opens = ring && opening(graph);
    return {
      band: hops[own[0]!]!.band,
      hops: own.map(name),
      ...smallerSide(left.map((hop) => [hops[hop]!, sites.parity(from[hop]!)])),
      ...(ring && { ring: { hops: ring.map(name), opens: ring.filter((hop) => opens!.has(hop)).map(name) } }),
      leftOut: out.map(name),
    };
  });
}

/** Sites of each band by numbers. */
function numbered(hops: readonly HopOfBand[]): {
  readonly from: Int32Array;
  readonly to: Int32Array;
  readonly count: number;
} {
  const bands = new Map<string, Map<string, number>>();
  let count = 0;
  const numberOf = (band: string, site: string) => {
    let sites = bands.get(band);
    if (sites === undefined) bands.set(band, (sites = new Map()));
    const known = sites.get(site);
    if (known !== undefined) return known;
    sites.set(site, count);
    return count++;
  };
  const from = Int32Array.from(hops, ({ band, sites: [site] }) => numberOf(band, site));
  const to = Int32Array.from(hops, ({ band, sites: [, site] }) => numberOf(band, site));
  return { from, to, count };
}

/** Of the two ways to give halves to hops that hang together the one that exchanges fewer. */
function smallerSide(
  hops: readonly (readonly [HopOfBand, parity: number])[],
): Pick<SettledHalves, "firstHalf" | "exchanged" | "keptExchanged"> {
  // Exchanges if a site of parity 0 transmits high, and if it transmits low.
  const costs = [0, 1].map((high) => {
    let [all, kept] = [0, 0];
    for (const [{ firstHalf, keeps }, parity] of hops)
      if (firstHalf !== undefined && firstHalf !== halfAt(parity, high)) {
        all += 1;
        if (keeps) kept += 1;
      }
    return { all, kept };
  });
  const more = costs[0]!.kept - costs[1]!.kept || costs[0]!.all - costs[1]!.all;
  const high = more <= 0 ? 0 : 1;
  const exchanged = hops.flatMap(([hop, parity]) =>
    hop.firstHalf !== undefined && hop.firstHalf !== halfAt(parity, high) ? [hop] : [],
  );
  return {
    firstHalf: new Map(hops.map(([{ name }, parity]) => [name, halfAt(parity, high)])),
    exchanged: exchanged.map(({ name }) => name),
    keptExchanged: exchanged.filter(({ keeps }) => keeps).map(({ name }) => name),
  };
}

function halfAt(parity: number, high: number): HalfOfBand {
  return parity === high ? "high" : "low";
}

/** Sites joined by hops, each with its parity against the first of those it hangs together with (union-find). */
class Parities {
  private readonly above: Int32Array;
  private readonly odd: Uint8Array;

  constructor(count: number) {
    this.above = Int32Array.from({ length: count }, (_, site) => site);
    this.odd = new Uint8Array(count);
  }

  root(site: number): number {
    let root = site;
    let parity = 0;
    while (this.above[root] !== root) {
      parity ^= this.odd[root]!;
      root = this.above[root]!;
    }
    // What was walked over hangs at the root from now on.
    for (let at = site; at !== root; ) {
      const [next, odd] = [this.above[at]!, this.odd[at]!];
      this.above[at] = root;
      this.odd[at] = parity;
      parity ^= odd;
      at = next;
    }
    return root;
  }

  parity(site: number): number {
    this.root(site);
    return this.odd[site]!;
  }

  /** Opposite to each other. @returns false where they hang together already */
  join(one: number, other: number): boolean {
    const [root, far] = [this.root(one), this.root(other)];
    if (root === far) return false;
    // The earlier site stays the root.
    const [stays, goes] = root < far ? [root, far] : [far, root];
    this.odd[goes] = this.odd[one]! ^ this.odd[other]! ^ 1;
    this.above[goes] = stays;
    return true;
  }
}
