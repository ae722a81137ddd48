/** What hops carry, normally and when something fails. */
import type { Failure } from "./failures.js";
import type { Way } from "./shortest.js";

/** What a demand takes of each hop of its route. */
export interface Carried {
  readonly name: string;
  readonly way: Way;
  readonly committedBps: number;
  readonly peakBps: number;
  /** Of `committedBps`. */
  readonly tdmBps: number;
  /** The most that is committed within the horizon of its growth. */
  readonly grownBps: number;
}

/** By the number of the hop, each direction the same, bit/s. */
export interface Loads {
  readonly committedBps: Float64Array;
  readonly peakBps: Float64Array;
  readonly grownBps: Float64Array;
}

export function loadsOf(count: number, demands: Iterable<Carried>): Loads {
  const committedBps = new Float64Array(count);
  const peakBps = new Float64Array(count);
  const grownBps = new Float64Array(count);
  for (const { way, committedBps: committed, peakBps: peak, grownBps: grown } of demands)
    for (const hop of way.hops) {
      committedBps[hop]! += committed;
      peakBps[hop]! += peak;
      grownBps[hop]! += grown;
    }
  return { committedBps, peakBps, grownBps };
}

/** More committed traffic on a hop than it normally has, since an element failed. */
export interface Moved {
  readonly hop: number;
  readonly committedBps: number;
  /** The most that growth makes of it. */
  readonly grownBps: number;
  /** Demands that have come to it, and those that have left it. */
  readonly names: readonly string[];
  readonly left: readonly string[];
}

/** Hops that have more to carry while an element is down; what is lost with it and what leaves a hop is taken off. */
export function loadsWithout(
  { lost, moved }: Failure,
  normal: Loads,
  carried: ReadonlyMap<string, Carried>,
): readonly Moved[] {
  const changes = new Map<number, { bps: number; grownBps: number; names: string[]; left: string[] }>();
  const at = (hop: number) => {
    let known = changes.get(hop);
    if (known === undefined) changes.set(hop, (known = { bps: 0, grownBps: 0, names: [], left: [] }));
    return known;
  };
  for (const name of [...lost, ...moved.keys()]) {
    const demand = carried.get(name);
    if (demand === undefined) continue;
    const { way, committedBps, grownBps } = demand;
    const [before, now] = [new Set(way.hops), new Set(moved.get(name)?.hops)];
    for (const hop of before) {
      if (now.has(hop)) continue;
      const change = at(hop);
      change.bps -= committedBps;
      change.grownBps -= grownBps;
      change.left.push(name);
    }
    for (const hop of now) {
      if (before.has(hop)) continue;
      const change = at(hop);
      change.bps += committedBps;
      change.grownBps += grownBps;
      change.names.push(name);
    }
  }
  return [...changes]
    .filter(([, { names }]) => names.length > 0)
    .map(([hop, { bps, grownBps, names, left }]) => ({
      hop,
      committedBps: normal.committedBps[hop]! + bps,
      grownBps: normal.grownBps[hop]! + grownBps,
      names: names.sort(),
      left,
    }))
    .sort((a, b) => a.hop - b.hop);
}
