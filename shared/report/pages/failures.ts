/** What is lost, moves or is overloaded when one hop, site or card fails. */
import { areLoadsKnown, committedBps, sortedFailures } from "../../demands/failure-effects.js";
import type { DemandsResult, FailureResult } from "../../demands/result.js";
import { bitRate } from "../../format/numbers.js";
import { milderFailures, NONE } from "../../words/demand-figures.js";
import { someOf } from "../../words/demands.js";
import type { Block, Inline, Section, TableRow } from "../document/document.js";
import { type DemandsPageOf, linkedElement } from "./demand-links.js";

export function failuresSection(result: DemandsResult, pageOf: DemandsPageOf): Section {
  const { grave } = sortedFailures(result);
  const milder = milderFailures(result);
  const blocks: Block[] = [];
  if (grave.length + milder.length > 0)
    blocks.push({
      type: "table",
      searched: true,
      columns: [
        { title: "Fails" },
        { title: "Lost" },
        { title: "Committed, lost", align: "right" },
        { title: "Moves" },
        { title: "Overloaded" },
      ],
      rows: [
        ...grave.map((failure) => failureRow(failure, result, pageOf)),
        ...milder.map((words): TableRow => ({ cells: [{ text: words, mark: "quiet" }, "", "", "", ""] })),
      ],
    });
  const unknown = areLoadsKnown(result)
    ? ""
    : " Of some hops it is not known what they carry: they are never told as overloaded.";
  blocks.push({ type: "paragraph", text: `${FAILURES_TOLD}${unknown}` });
  return { id: "failures", title: "What fails when something fails", blocks };
}

const FAILURES_TOLD =
  "One hop, site or card at a time, of those that a route passes. A demand takes its own second route as long as that is whole, else the shortest way that remains where the network reroutes. Overloaded: hops with more committed on them then than they carry.";

function failureRow(
  { element, lost, moved, overloaded }: FailureResult,
  { demands }: DemandsResult,
  pageOf: DemandsPageOf,
): TableRow {
  const lostBps = committedBps(lost.map((name) => demands.get(name)!));
  return {
    find: [...lost, ...moved].join(" "),
    cells: [
      linkedElement(element, pageOf),
      someOf(lost, 4) || NONE,
      lost.length === 0 ? NONE : bitRate(lostBps),
      someOf(moved, 4) || NONE,
      overloadedCell(overloaded),
    ],
  };
}

function overloadedCell(overloaded: FailureResult["overloaded"]): Inline {
  if (overloaded.length === 0) return NONE;
  const told = overloaded.map(
    ({ hop, committedBps: then, carriedBps }) => `${hop} (${bitRate(then)} of ${bitRate(carriedBps)})`,
  );
  return [{ text: String(overloaded.length), mark: "warning" }, ` ${someOf(told, 2)}`];
}
