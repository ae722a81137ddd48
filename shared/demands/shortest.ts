/** The shortest way from a site to one of several others. */
import { across, type Graph } from "./graph.js";
import { Heap } from "./heap.js";

/** Sites and hops that a way passes, by number: one site more than hops. */
export interface Way {
  readonly sites: readonly number[];
  readonly hops: readonly number[];
}

/** What a way may not pass. */
export interface Without {
  readonly hops?: ReadonlySet<number>;
  readonly sites?: ReadonlySet<number>;
}

/** A hop counts as much as so many metres of path: fewest hops first, then the shortest. No way on the Earth is longer. */
export const HOP_M = 100_000_000;

/**
 * Dijkstra's algorithm on the numbers of a graph; it ends at the first of the goals, so that near goals cost little however
 * large the network is. Of ways alike the one over the earlier names.
 */
export class Shortest {
  private readonly costM: Float64Array;
  private readonly by: Int32Array;
  /** Sites with a cost of this search: of earlier ones it is stale. */
  private readonly seen: Int32Array;
  private readonly done: Int32Array;
  private search = 0;
  private readonly heap: Heap;

  constructor(private readonly graph: Graph) {
    const sites = graph.sites.length;
    this.costM = new Float64Array(sites);
    this.by = new Int32Array(sites);
    this.seen = new Int32Array(sites);
    this.done = new Int32Array(sites);
    this.heap = new Heap(this.costM);
  }

  /** @returns undefined where none is reached */
  find(from: number, isGoal: (site: number) => boolean, without: Without = {}): Way | undefined {
    const { graph, costM, by, seen, done, heap } = this;
    const { hops: noHops, sites: noSites } = without;
    if (noSites?.has(from)) return undefined;
    const search = ++this.search;
    heap.clear();
    costM[from] = 0;
    by[from] = -1;
    seen[from] = search;
    heap.push(from);
    for (let site = heap.pop(); site >= 0; site = heap.pop()) {
      if (done[site] === search) continue;
      done[site] = search;
      if (isGoal(site)) return this.wayTo(site);
      const end = graph.first[site + 1]!;
      for (let k = graph.first[site]!; k < end; k++) {
        const hop = graph.at[k]!;
        if (noHops?.has(hop)) continue;
        const next = across(graph, hop, site);
        if (done[next] === search || noSites?.has(next)) continue;
        const cost = costM[site]! + HOP_M + graph.lengthM[hop]!;
        if (seen[next] === search && !(cost < costM[next]!)) continue;
        costM[next] = cost;
        by[next] = hop;
        seen[next] = search;
        heap.push(next);
      }
    }
    return undefined;
  }

  private wayTo(goal: number): Way {
    const sites = [goal];
    const hops: number[] = [];
    for (let site = goal; this.by[site]! >= 0; ) {
      const hop = this.by[site]!;
      hops.push(hop);
      site = across(this.graph, hop, site);
      sites.push(site);
    }
    return { sites: sites.reverse(), hops: hops.reverse() };
  }
}
