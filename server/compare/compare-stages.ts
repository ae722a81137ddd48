/** Two states of a design compared on each day from which on something of either is other than before. */
import type { ChangeSet } from "../../shared/compare/change-set.js";
import { type EarlierChanges, earlierChanges, type StageChanges } from "../../shared/compare/earlier.js";
import { ALL_BUILT, stagesFrom } from "../../shared/design/state.js";
import { acceptanceDay, withinMost } from "../findings/stages.js";
import type { Pace } from "../session/design-session.js";
import { compareStates, type DesignState } from "./compare-designs.js";

export interface ComparedInStages {
  /** Of the last stage. */
  readonly changes: ChangeSet;
  readonly earlier: readonly EarlierChanges[];
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
  const all = on === undefined ? daysOf(was, is, today) : [on];
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
    earlier: earlierChanges(stages),
    leftOut: all.length - days.length,
  };
}

function daysOf(was: DesignState, is: DesignState, today: string): readonly string[] {
  const days = stagesFrom(today, [...was.session.model.spans(), ...is.session.model.spans()]);
  return days.length === 1 ? [ALL_BUILT] : days;
}
