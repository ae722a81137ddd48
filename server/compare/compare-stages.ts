/** Two states of a design compared on each day from which on something of either is other than before. */
import type { ChangeSet } from "../../shared/compare/change-set.js";
import { type StageChanges, type TimedChanges, timedChanges } from "../../shared/compare/times.js";
import { acceptanceDay, daysOf, withinMost } from "../findings/stages.js";
import type { Pace } from "../session/design-session.js";
import { compareStates, type DesignState } from "./compare-designs.js";

export interface ComparedInStages {
  /** Of the last stage. */
  readonly changes: ChangeSet;
  /** The same and what passes before, each with its time. */
  readonly times: readonly TimedChanges[];
  /** Days on which something changes and that were not compared. */
  readonly leftOut: number;
}

/** @param on the one day that is looked at; left out: each from today on. Afterwards both look at the last. */
export async function compareInStages(
  was: DesignState,
  is: DesignState,
  { on, pace }: { readonly on?: string; readonly pace?: Pace },
): Promise<ComparedInStages> {
  const { today } = is.session;
  const models = [was, is].map(({ session }) => session.model);
  const all = on === undefined ? daysOf(models, today) : [on];
  const days = withinMost(all);
  const stages: StageChanges[] = [];
  for (const [index, day] of days.entries()) {
    for (const { session } of [was, is]) {
      session.model.setView({ on: day });
      session.holdAcceptancesOn(acceptanceDay(day, days[index - 1], today));
    }
    stages.push({ from: day, changes: await compareStates(was, is, pace) });
  }
  return {
    changes: stages.at(-1)!.changes,
    times: timedChanges(stages),
    leftOut: all.length - days.length,
  };
}
