/** What hops carry, normally and when something fails. */
import type { Failure } from "./failures.js";
import type { Way } from "./shortest.js";

/** What a demand takes of each hop of its route. */
export interface Carried {
  readonly name: string;
  readonly way: Way;
  readonly committedBps: number;
  readonly peakBps: number;
}

/** By the number of the hop, each direction the same, bit/s. */
export interface Loads {
  readonly committedBps: Float64Array;
  readonly peakBps: Float64Array;
}

export function loadsOf(count: number, demands: Iterable<Carried>): Loads {
  const committedBps = new Float64Array(count);
  const peakBps = new Float64Array(count);
  for (const { way, committedBps: committed, peakBps: peak } of demands)
    for (const hop of way.hops) {
      committedBps[hop]! += committed;
      peakBps[hop]! += peak;
    }
  return { committedBps, peakBps };
}

/** More committed traffic on a hop than it normally has, since an element failed. */
export interface Moved {
  readonly hop: number;
  readonly committedBps: number;
  /** Demands that have come to it. */
  readonly names: readonly string[];
}

/** Hops that have more to carry while an element is down; what is lost with it and what leaves a hop is taken off. */
export function loadsWithout(
  { lost, moved }: Failure,
  normal: Loads,
  carried: ReadonlyMap<string, Carried>,
): readonly Moved[] {
  const changes = new Map<number, { bps: number; names: string[] }>();
  const change = (hop: number, bps: number, name?: string) => {
    let known = changes.get(hop);
    if (known === undefined) changes.set(hop, (known = { bps: 0, names: [] }));
    known.bps += bps;
    if (name !== undefined) known.names.push(name);
  };
  for (const name of [...lost, ...moved.keys()]) {
    const demand = carried.get(name);
    if (demand === undefined) continue;
    const { way, committedBps } = demand;
    const now = moved.get(name);
    const before = new Set(way.hops);
    for (const hop of way.hops) change(hop, -committedBps);
    for (const hop of now?.hops ?? []) change(hop, committedBps, before.has(hop) ? undefined : name);
  }
  return [...changes]
    .filter(([, { names }]) => names.length > 0)
    .map(([hop, { bps, names }]) => ({
      hop,
      committedBps: normal.committedBps[hop]! + bps,
      names: names.sort(),
    }))
    .sort((a, b) => a.hop - b.hop);
}
