/**
 * What runs where: loads of hops normally and while something fails. It rests on routes and rates alone, and stays as it
 * is while hops change in what they can carry.
 */
import type { Demand, TrafficTerms } from "../design/demand.js";
import { mostGrownBps } from "./growth.js";
import { type Carried, type Loads, loadsOf, loadsWithout, type Moved } from "./load.js";
import { type Taken, takenBy } from "./rates.js";
import type { Steps } from "./steps.js";
import type { Ways } from "./ways.js";

/** So many failures are looked at between two stops. */
const AT_ONCE = 256;

/** Demands in the order in which a hop carries them: by priority, then those that may fail least. */
interface Ranked {
  readonly demand: Demand;
  readonly taken: Taken;
  /** Equal for those that go together. */
  readonly rank: number;
}

interface Coming {
  readonly failure: number;
  readonly moved: Moved;
}

export interface Flows {
  readonly key: string;
  readonly ways: Ways;
  readonly ranked: ReadonlyMap<string, Ranked>;
  readonly carried: ReadonlyMap<string, Carried>;
  readonly normal: Loads;
  /** By the number of the hop: names of the demands on it, in order. */
  readonly on: readonly (readonly string[])[];
  /** The same with those that pass it by their second route alone. */
  readonly over: readonly (readonly string[])[];
  /** Of each failure of the ways, in their order: hops that have more to carry then. */
  readonly more: readonly (readonly Moved[])[];
  /** By the number of the hop: what failures bring to it, with their places among all. */
  readonly comingTo: readonly (readonly Coming[])[];
  /** Committed on a hop by demands that go before one of such a rank, or with it. */
  committedUpTo(hop: number, rank: number): number;
}

/** @param known goes on where it holds */
export function* flowsOf(
  ways: Ways,
  demands: ReadonlyMap<string, Demand>,
  terms: TrafficTerms,
  known: Flows | undefined,
): Steps<Flows> {
  const ranked = rankedOf(demands, terms);
  const key = JSON.stringify(
    [...ranked.values()].map(({ demand: { name, growthPercent, growthYears }, taken, rank }) => [
      name,
      rank,
      taken.committedBps,
      taken.peakBps,
      taken.tdmBps,
      growthPercent,
      growthYears,
    ]),
  );
  if (known?.ways === ways && known.key === key) return { ...known, ranked };
  const count = ways.graph.hops.length;
  const carried = new Map<string, Carried>();
  const on: string[][] = Array.from({ length: count }, () => []);
  const over: string[][] = Array.from({ length: count }, () => []);
  const byRank = Array.from({ length: count }, () => new Map<number, number>());
  for (const [name, { first, second }] of ways.routes) {
    const { demand, taken, rank } = ranked.get(name)!;
    if (first === undefined) continue;
    const { committedBps, peakBps, tdmBps } = taken;
    const grownBps = mostGrownBps(demand, taken);
    carried.set(name, { name, way: first, committedBps, peakBps, tdmBps, grownBps });
    for (const hop of new Set([...first.hops, ...(second?.hops ?? [])])) over[hop]!.push(name);
    for (const hop of first.hops) {
      on[hop]!.push(name);
      byRank[hop]!.set(rank, (byRank[hop]!.get(rank) ?? 0) + taken.committedBps);
    }
  }
  const upTo = byRank.map((sums) => {
    let sum = 0;
    return [...sums].sort(([a], [b]) => a - b).map(([rank, bps]) => ({ rank, bps: (sum += bps) }));
  });
  const normal = loadsOf(count, carried.values());
  const more: (readonly Moved[])[] = [];
  const comingTo: Coming[][] = Array.from({ length: count }, () => []);
  for (const [index, failure] of ways.failures.entries()) {
    const all = loadsWithout(failure, normal, carried);
    more.push(all);
    for (const moved of all) comingTo[moved.hop]!.push({ failure: index, moved });
    if (index % AT_ONCE === AT_ONCE - 1) yield;
  }
  return {
    key,
    ways,
    ranked,
    carried,
    normal,
    on: on.map((names) => names.sort()),
    over,
    more,
    comingTo,
    committedUpTo: (hop, rank) => upTo[hop]!.findLast((one) => one.rank <= rank)?.bps ?? 0,
  };
}

type RankKey = readonly [priority: number, mayFail: number];

function keyOf({
  priority = Number.POSITIVE_INFINITY,
  availabilityPercent,
  availabilityWithEquipmentPercent,
}: Demand): RankKey {
  return [priority, -(availabilityPercent ?? availabilityWithEquipmentPercent ?? 0)];
}

/** Whether two are of one rank: neither is carried before the other. */
export function goTogether(a: Demand, b: Demand): boolean {
  return compare(keyOf(a), keyOf(b)) === 0;
}

function rankedOf(demands: ReadonlyMap<string, Demand>, terms: TrafficTerms): ReadonlyMap<string, Ranked> {
  const sorted = [...demands.values()]
    .map((demand) => ({ demand, key: keyOf(demand) }))
    .sort((a, b) => compare(a.key, b.key));
  const ranked = new Map<string, Ranked>();
  let rank = 0;
  for (const [index, { demand, key }] of sorted.entries()) {
    if (index > 0 && compare(sorted[index - 1]!.key, key) !== 0) rank++;
    ranked.set(demand.name, { demand, taken: takenBy(demand, terms), rank });
  }
  return ranked;
}

/** Whether a hop carries one before another, or both together. */
export function goesNoLater(a: Demand, b: Demand): boolean {
  return compare(keyOf(a), keyOf(b)) <= 0;
}

function compare(a: RankKey, b: RankKey): number {
  // Two infinities are alike, and their difference is none.
  return a[0] === b[0] ? a[1] - b[1] : a[0] < b[0] ? -1 : 1;
}
