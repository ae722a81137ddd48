import type { DemandResult, DemandsResult } from "./result.js";

/** Those that pass each hop, normally or by a second route, in the order in which they are carried. */
export function demandsByHop({
  demands,
}: Pick<DemandsResult, "demands">): ReadonlyMap<string, readonly DemandResult[]> {
  const by = new Map<string, DemandResult[]>();
  for (const one of demands.values())
    for (const { hop } of one.hops) {
      const known = by.get(hop);
      if (known) known.push(one);
      else by.set(hop, [one]);
    }
  return by;
}
