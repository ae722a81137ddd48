/** Hops that carried too much in a failure, or were outgrown, before and after: by how much, and when. */
import type { Outgrown } from "../demands/growth.js";
import type { DemandsResult, HopLoad } from "../demands/result.js";
import { bitRate, signed } from "../format/numbers.js";
import { causesOfLoad } from "./demand-causes.js";
import type { DemandFigureChange, LoadChange } from "./demand-change.js";
import { type ChangesBeside, causeContext } from "./demand-context.js";
import { hopNow, type Renames } from "./renames.js";

/** Of what is committed beyond what a hop carries; a smaller change is not told. Ours. */
const NOTABLE_LOAD = 0.005;

/** Where both sides have a finding, which alone would be still there. It is the hop's: many demands bring it. */
export function loadChanges(
  was: DemandsResult | undefined,
  is: DemandsResult | undefined,
  renames: Renames,
  beside: ChangesBeside,
): LoadChange[] {
  const context = causeContext(was, is, renames, beside);
  const before = new Map([...(was?.hops.values() ?? [])].map((load) => [hopNow(load.hop, renames), load]));
  return [...(is?.hops.values() ?? [])].flatMap((now): LoadChange[] => {
    const then = before.get(now.hop);
    if (then === undefined) return [];
    const figures = [
      overloadChange(then, now),
      yearChange("Outgrown", then.outgrown, now.outgrown),
      yearChange("Outgrown in a failure", then.outgrownWithout, now.outgrownWithout),
    ].filter((one) => one !== undefined);
    if (figures.length === 0) return [];
    const worse = figures.some(({ verdict }) => verdict === "worse");
    return [{ hop: now.hop, figures, because: causesOfLoad(now.hop, context), worse }];
  });
}

function overloadChange(was: HopLoad, is: HopLoad): DemandFigureChange | undefined {
  if (!was.worst?.overloaded || !is.worst?.overloaded) return undefined;
  const beyond = (load: HopLoad) => load.worst!.committedBps - load.carriedBps!;
  const by = beyond(is) - beyond(was);
  if (Math.abs(by) < NOTABLE_LOAD * is.worst.committedBps) return undefined;
  const words = (load: HopLoad) => `${bitRate(load.worst!.committedBps)} of ${bitRate(load.carriedBps!)}`;
  return {
    kind: "load",
    label: "Committed in its worst failure",
    was: words(was),
    is: words(is),
    by,
    difference: signed(bitRate, by),
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
