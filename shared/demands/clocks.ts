/** Where sites have their clock from: the nearest source, hop by hop, so that no loop can arise. */
import { across, type Graph } from "./graph.js";
import type { Shortest } from "./shortest.js";
import { twoWays } from "./two-ways.js";

/** Most hops that a clock passes where a network states none: a chain of 20 clocks (ITU-T G.803, from memory). */
export const USUAL_CLOCK_HOPS = 20;

export interface ClockFeed {
  /** By number; the site itself where it is a source. */
  readonly source: number;
  readonly hops: number;
  /** Over which it comes; undefined: it is a source. */
  readonly by?: number;
}

/**
 * The feed of every site that a source reaches, by the number of the site: over the fewest hops.
 * @param sources by number; of two as near the one of the earlier name
 */
export function clockFeeds(graph: Graph, sources: Iterable<number>): ReadonlyMap<number, ClockFeed> {
  const feeds = new Map<number, ClockFeed>();
  let ring = [...sources].sort((a, b) => a - b);
  for (const source of ring) feeds.set(source, { source, hops: 0 });
  while (ring.length > 0) {
    const next: number[] = [];
    for (const site of ring) {
      const { source, hops } = feeds.get(site)!;
      for (let k = graph.first[site]!; k < graph.first[site + 1]!; k++) {
        const by = graph.at[k]!;
        const to = across(graph, by, site);
        if (feeds.has(to)) continue;
        feeds.set(to, { source, hops: hops + 1, by });
        next.push(to);
      }
    }
    ring = next;
  }
  return feeds;
}

/** Hops of the longer of two feeds of a site that share no hop; undefined: there are no two. */
export function secondFeedHops(
  graph: Graph,
  shortest: Shortest,
  site: number,
  sources: ReadonlySet<number>,
): number | undefined {
  if (sources.has(site)) return 0;
  const isSource = (one: number) => sources.has(one);
  const first = shortest.find(site, isSource);
  if (first === undefined) return undefined;
  const second = shortest.find(site, isSource, { hops: new Set(first.hops) });
  if (second !== undefined) return second.hops.length;
  return twoWays(graph, first, isSource, "hop", true)?.[1].hops.length;
}
