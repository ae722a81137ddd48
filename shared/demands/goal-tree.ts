/**
 * The shortest ways of all sites to the nearest of some goals, as a tree; and those that remain when something fails.
 *
 * What fails concerns only what hangs below it in the tree. Its sites are brought to the rest anew, nearest first, and the
 * rest stays as it is: all failures of a network together cost little more than the tree is deep.
 */
import { across, type Graph } from "./graph.js";
import { Heap } from "./heap.js";
import { HOP_M, type Way } from "./shortest.js";

/** Ways that remain; undefined: none. */
export type Remaining = (from: number) => Way | undefined;

export class GoalTree {
  /** Cost to the goal, and the hop towards it: -1 at a goal, and where none is reached. */
  private readonly costM: Float64Array;
  private readonly next: Int32Array;
  /** Sites that go over each site: those of site s are `below[first[s]]` up to `below[first[s + 1]]`. */
  private readonly first: Int32Array;
  private readonly below: Int32Array;
  /** Of the failure looked at last. */
  private readonly cutOff: Int32Array;
  private readonly newCostM: Float64Array;
  private readonly newNext: Int32Array;
  private looks = 0;

  constructor(
    private readonly graph: Graph,
    private readonly goals: ReadonlySet<number>,
  ) {
    const count = graph.sites.length;
    this.costM = new Float64Array(count).fill(Number.POSITIVE_INFINITY);
    this.next = new Int32Array(count).fill(-1);
    this.cutOff = new Int32Array(count);
    this.newCostM = new Float64Array(count);
    this.newNext = new Int32Array(count);
    const heap = new Heap(this.costM);
    for (const goal of goals) {
      this.costM[goal] = 0;
      heap.push(goal);
    }
    this.spread(heap, this.costM, this.next, () => true);
    this.first = new Int32Array(count + 1);
    for (let site = 0; site < count; site++)
      if (this.next[site]! >= 0) this.first[across(graph, this.next[site]!, site) + 1]!++;
    for (let site = 0; site < count; site++) this.first[site + 1]! += this.first[site]!;
    this.below = new Int32Array(this.first[count]!);
    const free = this.first.slice();
    for (let site = 0; site < count; site++)
      if (this.next[site]! >= 0) this.below[free[across(graph, this.next[site]!, site)]!++] = site;
  }

  wayFrom(from: number): Way | undefined {
    if (this.costM[from] === Number.POSITIVE_INFINITY) return undefined;
    return this.follow(from, () => this.next);
  }

  /** Holds until it is asked for another failure. */
  without(hops: ReadonlySet<number>, sites: ReadonlySet<number>): Remaining {
    const { graph, next, cutOff, newCostM, newNext, costM } = this;
    const look = ++this.looks;
    const isCut = (site: number) => cutOff[site] === look;
    const cut: number[] = [];
    const hang = (root: number) => {
      if (isCut(root) || sites.has(root)) return;
      const stack = [root];
      cutOff[root] = look;
      while (stack.length > 0) {
        const site = stack.pop()!;
        cut.push(site);
        for (let k = this.first[site]!; k < this.first[site + 1]!; k++) {
          const other = this.below[k]!;
          if (isCut(other) || sites.has(other)) continue;
          cutOff[other] = look;
          stack.push(other);
        }
      }
    };
    for (const hop of hops)
      for (const site of [graph.one[hop]!, graph.other[hop]!]) if (next[site] === hop) hang(site);
    for (const site of sites)
      for (let k = this.first[site]!; k < this.first[site + 1]!; k++) hang(this.below[k]!);
    const heap = new Heap(newCostM);
    for (const site of cut) {
      newCostM[site] = Number.POSITIVE_INFINITY;
      newNext[site] = -1;
      for (let k = graph.first[site]!; k < graph.first[site + 1]!; k++) {
        const hop = graph.at[k]!;
        const to = across(graph, hop, site);
        if (hops.has(hop) || sites.has(to) || isCut(to)) continue;
        const cost = costM[to]! + HOP_M + graph.lengthM[hop]!;
        if (!(cost < newCostM[site]!)) continue;
        newCostM[site] = cost;
        newNext[site] = hop;
      }
      if (newNext[site]! >= 0) heap.push(site);
    }
    this.spread(heap, newCostM, newNext, (hop, to) => isCut(to) && !hops.has(hop));
    return (from) => {
      if (sites.has(from)) return undefined;
      if ((isCut(from) ? newCostM : costM)[from] === Number.POSITIVE_INFINITY) return undefined;
      return this.follow(from, (site) => (isCut(site) ? newNext : next));
    };
  }

  /** Dijkstra's algorithm from what is in the heap. */
  private spread(
    heap: Heap,
    costM: Float64Array,
    next: Int32Array,
    may: (hop: number, to: number) => boolean,
  ): void {
    const { graph } = this;
    for (let site = heap.pop(); site >= 0; site = heap.pop()) {
      const here = costM[site]!;
      for (let k = graph.first[site]!; k < graph.first[site + 1]!; k++) {
        const hop = graph.at[k]!;
        const to = across(graph, hop, site);
        const cost = here + HOP_M + graph.lengthM[hop]!;
        if (!(cost < costM[to]!) || !may(hop, to)) continue;
        costM[to] = cost;
        next[to] = hop;
        heap.push(to);
      }
    }
  }

  private follow(from: number, nextOf: (site: number) => Int32Array): Way {
    const sites = [from];
    const hops: number[] = [];
    for (let site = from; !this.goals.has(site) || hops.length === 0; ) {
      const hop = nextOf(site)[site]!;
      if (hop < 0) break;
      hops.push(hop);
      site = across(this.graph, hop, site);
      sites.push(site);
    }
    return { sites, hops };
  }
}
