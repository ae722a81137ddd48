/** Rings of an odd number of hops among hops that hang together: a shortest one, and hops that all of them have. */

export interface OddGraph {
  /** Sites of each hop, by numbers below `count`. */
  readonly from: Int32Array;
  readonly to: Int32Array;
  readonly count: number;
  /** Those that hang together. */
  readonly hops: readonly number[];
  /** Hops that join all of the sites without any ring. */
  readonly inForest: Uint8Array;
  /** Hops beside those that close a ring of an odd number with them. */
  readonly isOdd: Uint8Array;
}

function farOf({ from, to }: OddGraph, hop: number, site: number): number {
  return from[hop] === site ? to[hop]! : from[hop]!;
}

function bySite({ from, to }: OddGraph, hops: readonly number[]): ReadonlyMap<number, readonly number[]> {
  const all = new Map<number, number[]>();
  for (const hop of hops)
    for (const site of [from[hop]!, to[hop]!]) {
      const here = all.get(site);
      if (here) here.push(hop);
      else all.set(site, [hop]);
    }
  return all;
}

/**
 * Round a site in growing distance the first hop that joins two sites of one distance closes a ring of at most twice that
 * and one; of all sites those of a shortest ring find it.
 * @returns hops in order round; undefined: no ring is odd
 */
export function shortestOddRing(graph: OddGraph): readonly number[] | undefined {
  const at = bySite(graph, graph.hops);
  const distance = new Int32Array(graph.count).fill(-1);
  const by = new Int32Array(graph.count);
  let best: readonly number[] | undefined;
  for (const start of at.keys()) {
    const reached = [start];
    distance[start] = 0;
    const ring = grown(reached, best?.length ?? Number.POSITIVE_INFINITY);
    for (const site of reached) distance[site] = -1;
    if (ring !== undefined && ring.length < (best?.length ?? Number.POSITIVE_INFINITY)) best = ring;
    if (best?.length === 3) break;
  }
  return best;

  function grown(reached: number[], shorterThan: number): readonly number[] | undefined {
    for (const site of reached) {
      if (2 * distance[site]! + 1 >= shorterThan) return undefined;
      for (const hop of at.get(site)!) {
        const far = farOf(graph, hop, site);
        if (distance[far] === -1) {
          distance[far] = distance[site]! + 1;
          by[far] = hop;
          reached.push(far);
        } else if (distance[far] === distance[site]) return closed(hop);
      }
    }
    return undefined;
  }

  /** The hop with the ways from its ends back to where both meet. */
  function closed(hop: number): readonly number[] {
    const [there, back]: [number[], number[]] = [[], []];
    let [a, b] = [graph.from[hop]!, graph.to[hop]!];
    while (a !== b) {
      there.push(by[a]!);
      back.push(by[b]!);
      [a, b] = [farOf(graph, by[a]!, a), farOf(graph, by[b]!, b)];
    }
    return [hop, ...back, ...there.toReversed()];
  }
}

/**
 * Hops without which no ring is odd. One of the forest splits its sites in two; all is well with one part exchanged
 * where every hop that was odd joins both parts, and none of the others does.
 */
export function opening(graph: OddGraph): ReadonlySet<number> {
  const { hops, inForest, isOdd, count } = graph;
  const at = bySite(
    graph,
    hops.filter((hop) => inForest[hop]),
  );
  const beside = hops.filter((hop) => !inForest[hop]);
  const odd = beside.filter((hop) => isOdd[hop]);
  const depth = new Int32Array(count).fill(-1);
  const up = new Int32Array(count);
  const root = graph.from[hops[0]!]!;
  const reached = [root];
  depth[root] = 0;
  for (const site of reached)
    for (const hop of at.get(site)!) {
      const far = farOf(graph, hop, site);
      if (depth[far] !== -1) continue;
      depth[far] = depth[site]! + 1;
      up[far] = hop;
      reached.push(far);
    }
  /** How many rings each hop of the forest is in, odd ones and others. */
  const rings = new Map<number, { odd: number; even: number }>();
  for (const hop of beside) {
    const kind = isOdd[hop] ? "odd" : "even";
    let [a, b] = [graph.from[hop]!, graph.to[hop]!];
    while (a !== b) {
      if (depth[a]! < depth[b]!) [a, b] = [b, a];
      const passed = up[a]!;
      let known = rings.get(passed);
      if (known === undefined) rings.set(passed, (known = { odd: 0, even: 0 }));
      known[kind] += 1;
      a = farOf(graph, passed, a);
    }
  }
  const opens = new Set(odd.length === 1 ? odd : []);
  for (const [hop, { odd: inOdd, even }] of rings) if (inOdd === odd.length && even === 0) opens.add(hop);
  return opens;
}
