/** Hops that carried too much in a failure, or were outgrown, before and after: by how much, and when. */
import type { Outgrown } from "../demands/growth.js";
import type { DemandsResult, HopLoad } from "../demands/result.js";
import { bitRate } from "../format/numbers.js";
import type { DemandFigureChange } from "./demand-change.js";
import { hopNow, type Renames } from "./renames.js";

/** Of what is committed beyond what a hop carries; a smaller change is not told. Ours. */
const NOTABLE_LOAD = 0.005;

/** Where both sides have a finding, which alone would be still there. By the demand that it is told of. */
export function loadChanges(
  was: DemandsResult | undefined,
  is: DemandsResult | undefined,
  renames: Renames,
): ReadonlyMap<string, readonly DemandFigureChange[]> {
  const before = new Map([...(was?.hops.values() ?? [])].map((load) => [hopNow(load.hop, renames), load]));
  const by = new Map<string, DemandFigureChange[]>();
  const tell = (demand: string | undefined, change: DemandFigureChange | undefined) => {
    if (demand !== undefined && change) by.set(demand, [...(by.get(demand) ?? []), change]);
  };
  for (const now of is?.hops.values() ?? []) {
    const then = before.get(now.hop);
    if (then === undefined) continue;
    tell(now.worst?.demands[0], overloadChange(then, now));
    tell(now.outgrown?.mostBy, yearChange(`${now.hop} outgrown`, then.outgrown, now.outgrown));
    const label = `${now.hop} outgrown in a failure`;
    tell(now.outgrownWithout?.mostBy, yearChange(label, then.outgrownWithout, now.outgrownWithout));
  }
  return by;
}

function overloadChange(was: HopLoad, is: HopLoad): DemandFigureChange | undefined {
  if (!was.worst?.overloaded || !is.worst?.overloaded) return undefined;
  const beyond = (load: HopLoad) => load.worst!.committedBps - load.carriedBps!;
  const by = beyond(is) - beyond(was);
  if (Math.abs(by) < NOTABLE_LOAD * is.worst.committedBps) return undefined;
  const words = (load: HopLoad) => `${bitRate(load.worst!.committedBps)} of ${bitRate(load.carriedBps!)}`;
  return {
    kind: "load",
    label: `Committed on ${is.hop} in its worst failure`,
    was: words(was),
    is: words(is),
    by,
    difference: `${by > 0 ? "+" : "-"}${bitRate(Math.abs(by))}`,
    verdict: by > 0 ? "worse" : "better",
  };
}

function yearChange(
  label: string,
  was: Outgrown | undefined,
  is: Outgrown | undefined,
): DemandFigureChange | undefined {
  if (was === undefined || is === undefined || was.year === is.year) return undefined;
  const words = ({ year }: Outgrown) => `in year ${year}`;
  const verdict = is.year < was.year ? "worse" : "better";
  return { kind: "growth", label, was: words(was), is: words(is), verdict };
}
