/** What causes of changed demands are looked for in. */
import { capacityOf } from "../demands/capacity.js";
import type { DemandsResult } from "../demands/result.js";
import type { ComparedSide, HopChange, SharedChange } from "./change-set.js";
import type { CauseContext, HopOffer } from "./demand-causes.js";
import { demandSide } from "./demand-side.js";
import { hopNow, type Renames } from "./renames.js";

/** What else changed. */
export interface ChangesBeside extends Pick<CauseContext, "offers"> {
  readonly hops: readonly HopChange[];
  readonly shared: readonly SharedChange[];
}

export function causeContext(
  was: DemandsResult | undefined,
  is: DemandsResult | undefined,
  renames: Renames,
  { hops, shared, offers }: ChangesBeside,
): CauseContext {
  return {
    was: demandSide(was, renames),
    is: demandSide(is, undefined),
    hops: new Map(hops.map((change) => [change.hop, change])),
    shared,
    offers,
  };
}

/** What demands take of each hop on both sides, by its new name. */
export function offersOf(was: ComparedSide, is: ComparedSide, renames: Renames): CauseContext["offers"] {
  const before = new Map([...was.hops.keys()].map((name) => [hopNow(name, renames), name]));
  const known = new Map<string, readonly [HopOffer | undefined, HopOffer | undefined]>();
  return (hop) => {
    let both = known.get(hop);
    if (both === undefined) known.set(hop, (both = [offerOf(was, before.get(hop)), offerOf(is, hop)]));
    return both;
  };
}

function offerOf({ hops }: ComparedSide, name: string | undefined): HopOffer | undefined {
  const found = name === undefined ? undefined : hops.get(name);
  if (found === undefined) return undefined;
  const { hop, result } = found;
  return {
    capacity: capacityOf(hop, result),
    lengthM: result.distanceM,
    equipmentPercent: result.availability?.equipment?.unavailabilityPercent,
  };
}
