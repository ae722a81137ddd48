/** What a hop does to the receivers of other hops and of others. */
import type { Hop } from "../design/design.js";
import { inverse } from "../geodesy/geodesic.js";
import type { Entry } from "./entry.js";
import type { InterferenceFound } from "./network.js";
import type { CoLocated, InterferenceAt } from "./receiver-result.js";
import { isOwn } from "./station.js";

/** At one receiver, what comes of one hop. */
export interface Caused {
  readonly at: InterferenceAt;
  readonly entries: readonly Entry[];
  readonly coLocated: readonly CoLocated[];
}

/** By the hop that causes it; each receiver once. */
export type CausedBy = ReadonlyMap<string, readonly Caused[]>;

/** @param hops those whose receivers are looked at, beside those of others */
export function causedIn(hops: Iterable<string>, found: InterferenceFound): CausedBy {
  const by = new Map<string, Caused[]>();
  const look = (at: InterferenceAt) => {
    const here = new Map<string, { entries: Entry[]; coLocated: CoLocated[] }>();
    const of = (name: string) => {
      let one = here.get(name);
      if (one === undefined) here.set(name, (one = { entries: [], coLocated: [] }));
      return one;
    };
    for (const entry of at.entries) if (isOwn(entry.sender.of)) of(entry.sender.of.hop).entries.push(entry);
    for (const near of at.coLocated) if (isOwn(near.sender.of)) of(near.sender.of.hop).coLocated.push(near);
    for (const [name, one] of here) {
      const all = by.get(name);
      if (all) all.push({ at, ...one });
      else by.set(name, [{ at, ...one }]);
    }
  };
  for (const hop of hops) for (const at of found.of(hop)) look(at);
  for (const at of found.ofOthers()) look(at);
  return by;
}

/** Nearer than this, hops of one plan are told as neighbours. Ours; what reaches further is rare. */
const NEIGHBOUR_M = 100_000;

/** Other hops near a hop that are to be on a channel of the same plan and have none yet: they send nothing so far. */
export function openNeighbours(hop: Hop, hops: Iterable<Hop>): readonly string[] {
  const plan = (hop.channel ?? hop.openChannel)?.plan;
  const places = (of: Hop) => of.ends.flatMap(({ site }) => site.position ?? []);
  const here = places(hop);
  return [...hops]
    .filter(
      (other) =>
        other.name !== hop.name &&
        other.openChannel !== undefined &&
        (plan === undefined || other.openChannel.plan === plan) &&
        places(other).some((to) => here.some((from) => inverse({ from, to }).distanceM < NEIGHBOUR_M)),
    )
    .map(({ name }) => name);
}
