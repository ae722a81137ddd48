/**
 * Hops and sites without which a network falls apart: bridges and cut points, and the rings and meshes between them.
 * Depth first, after Hopcroft and Tarjan (1973), without recursion: a chain may be ten thousand hops long.
 */
import { across, type Graph } from "./graph.js";

/** Hops among whose sites any one hop may fail and all still reach each other: a ring where there are as many sites as hops. */
export interface Block {
  readonly hops: readonly number[];
  readonly sites: readonly number[];
}

export interface Separation {
  /** By number: 1 where the failure of the hop parts the network. */
  readonly bridge: Uint8Array;
  /** 1 where that of the site does. */
  readonly cutSite: Uint8Array;
  /** Of two hops and more, by the first name in each; two hops side by side are one too. */
  readonly blocks: readonly Block[];
}

export function separationOf(graph: Graph): Separation {
  const sites = graph.sites.length;
  const bridge = new Uint8Array(graph.hops.length);
  const cutSite = new Uint8Array(sites);
  const blocks: Block[] = [];
  const order = new Int32Array(sites).fill(-1);
  const low = new Int32Array(sites);
  const byHop = new Int32Array(sites).fill(-1);
  const next = graph.first.slice();
  const open: number[] = [];
  let count = 0;
  for (let root = 0; root < sites; root++) {
    if (order[root]! >= 0) continue;
    order[root] = low[root] = count++;
    let branches = 0;
    const stack = [root];
    while (stack.length > 0) {
      const site = stack.at(-1)!;
      if (next[site]! < graph.first[site + 1]!) {
        const hop = graph.at[next[site]!++]!;
        if (hop === byHop[site]) continue;
        const to = across(graph, hop, site);
        if (order[to]! < 0) {
          byHop[to] = hop;
          order[to] = low[to] = count++;
          open.push(hop);
          stack.push(to);
        } else if (order[to]! < order[site]!) {
          open.push(hop);
          low[site] = Math.min(low[site]!, order[to]!);
        }
        continue;
      }
      stack.pop();
      const above = stack.at(-1);
      if (above === undefined) continue;
      low[above] = Math.min(low[above]!, low[site]!);
      if (above === root) branches++;
      if (low[site]! < order[above]!) continue;
      // What hangs below this hop comes back no further than its upper site.
      if (above !== root) cutSite[above] = 1;
      const hops = open.splice(open.lastIndexOf(byHop[site]!));
      if (hops.length === 1) bridge[hops[0]!] = 1;
      else blocks.push(blockOf(graph, hops));
    }
    if (branches > 1) cutSite[root] = 1;
  }
  blocks.sort((a, b) => a.sites[0]! - b.sites[0]! || a.hops[0]! - b.hops[0]!);
  return { bridge, cutSite, blocks };
}

function blockOf({ one, other }: Graph, hops: number[]): Block {
  const sites = new Set(hops.flatMap((hop) => [one[hop]!, other[hop]!]));
  return { hops: hops.sort((a, b) => a - b), sites: [...sites].sort((a, b) => a - b) };
}

/**
 * The sites of a ring in turn, from its first name towards the earlier of its neighbours; undefined: it is a mesh.
 */
export function ringOf(
  graph: Graph,
  { hops, sites }: Block,
): { readonly sites: readonly number[]; readonly hops: readonly number[] } | undefined {
  if (hops.length !== sites.length) return undefined;
  const within = new Set(hops);
  const begin = sites[0]!;
  const round = [begin];
  const passed: number[] = [];
  for (let site = begin; ; ) {
    let found = -1;
    for (let k = graph.first[site]!; k < graph.first[site + 1]!; k++) {
      const hop = graph.at[k]!;
      if (!within.has(hop)) continue;
      if (found < 0 || across(graph, hop, site) < across(graph, found, site)) found = hop;
    }
    within.delete(found);
    passed.push(found);
    site = across(graph, found, site);
    if (site === begin) return { sites: round, hops: passed };
    round.push(site);
  }
}
