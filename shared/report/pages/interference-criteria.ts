/** What a receiver is allowed, beside what it gets, with how it stands. */
import { decibels } from "../../format/numbers.js";
import { ROUNDING_DB, USUAL_DEGRADATION_DB, USUAL_TOWARD_OTHERS_DB } from "../../interference/limits.js";
import type { InterferenceAt } from "../../interference/receiver-result.js";
import { isOwn } from "../../interference/station.js";
import type { Inline, Table } from "../document/document.js";

export interface InterferenceCriterion {
  readonly asked: string;
  readonly isDb: number;
  readonly mostDb: number;
  /** Stated by the network; undefined: what planners allow as a rule, and only a warning. */
  readonly stated?: true;
  /** An antenna at the same place has no stated coupling loss: it is open, unless it is missed already. */
  readonly open?: true;
}

/** Each that concerns the receiver; where the network states none the usual one. */
export function criteriaAt(at: InterferenceAt): readonly InterferenceCriterion[] {
  const { terms, receiver, toNoiseDb = NOTHING, shortToNoiseDb = NOTHING } = at;
  const open = at.coLocated.some((near) => near.toNoiseDb === undefined) ? { open: true as const } : {};
  const row = (asked: string, isDb: number, mostDb: number | undefined): readonly InterferenceCriterion[] =>
    mostDb === undefined ? [] : [{ asked, isDb, mostDb, stated: true, ...open }];
  const stated = isOwn(receiver.of)
    ? [
        ...row("degradation by one transmitter", at.singleDegradationDb, terms.singleEntryDegradationDb),
        ...row("degradation by all together", at.degradationDb, terms.aggregateDegradationDb),
        ...row("degradation for a short time", at.shortDegradationDb, terms.shortTermDegradationDb),
      ]
    : [
        ...row("I/N by the hops of this design", toNoiseDb, terms.towardOthersLongTermDb),
        ...row("I/N for a short time", shortToNoiseDb, terms.towardOthersShortTermDb),
      ];
  if (stated.length > 0) return stated;
  return isOwn(receiver.of)
    ? [
        {
          asked: "degradation by all together",
          isDb: at.degradationDb,
          mostDb: USUAL_DEGRADATION_DB,
          ...open,
        },
      ]
    : [{ asked: "I/N by the hops of this design", isDb: toNoiseDb, mostDb: USUAL_TOWARD_OTHERS_DB, ...open }];
}

/** There is none: far below anything that is allowed. */
const NOTHING = Number.NEGATIVE_INFINITY;

export function isMissed({ isDb, mostDb }: InterferenceCriterion): boolean {
  return isDb > mostDb + ROUNDING_DB;
}

export function criterionMark(one: InterferenceCriterion): Inline {
  if (isMissed(one))
    return one.stated ? { text: "not met", mark: "error" } : { text: "more than is usual", mark: "warning" };
  if (one.open) return { text: "open", mark: "unjudged" };
  return { text: one.stated ? "met" : "as is usual", mark: "good" };
}

export function mostWords({ mostDb, stated }: InterferenceCriterion): string {
  return stated ? decibels(mostDb) : `${decibels(mostDb)}, usual, from memory`;
}

export function isWords({ isDb }: InterferenceCriterion): string {
  return Number.isFinite(isDb) ? decibels(isDb) : "none";
}

export function criteriaTable(criteria: readonly InterferenceCriterion[]): Table {
  return {
    type: "table",
    columns: [
      { title: "Criterion" },
      { title: "Is", align: "right" },
      { title: "At most", align: "right" },
      { title: "" },
    ],
    rows: criteria.map((one) => ({
      cells: [one.asked, isWords(one), mostWords(one), criterionMark(one)],
    })),
  };
}
