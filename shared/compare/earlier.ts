/** What a change does before all that is planned stands: what the comparison of the last stage does not tell already. */
import type { Span } from "../design/state.js";
import { type ChangeSet, findingsIn, type HopChange, isEmpty, type SharedChange } from "./change-set.js";
import { countsOf } from "./compare.js";
import { isWorse } from "./findings.js";
import { contentComparison } from "./same.js";

/** Both sides compared as they stand from a day on. */
export interface StageChanges {
  /** ISO date of its first day. */
  readonly from: string;
  readonly changes: ChangeSet;
}

export interface EarlierChanges {
  readonly span: Span;
  readonly changes: ChangeSet;
}

const KINDS = ["hops", "sites", "shared", "findings", "orders", "licences"] as const;
type Kind = (typeof KINDS)[number];

/**
 * Each thing that changed is told once for an unbroken run of stages in which it is the same, beside all others of the
 * same time.
 * @param stages in order; the last is told by itself
 */
export function earlierChanges(stages: readonly StageChanges[]): EarlierChanges[] {
  const last = stages.at(-1);
  if (!last || stages.length === 1) return [];
  const bySpan = new Map<string, { span: Span; lists: Record<Kind, unknown[]> }>();
  for (const kind of KINDS) {
    for (const { item, first, end } of runsOf(kind, stages.slice(0, -1), last.changes)) {
      const span = { from: first === 0 ? "" : stages[first]!.from, until: stages[end + 1]!.from };
      const key = `${span.from} ${span.until}`;
      let found = bySpan.get(key);
      if (!found) bySpan.set(key, (found = { span, lists: emptyLists() }));
      found.lists[kind].push(item);
    }
  }
  return [...bySpan.values()]
    .sort((a, b) => compare(a.span.from, b.span.from) || compare(a.span.until, b.span.until))
    .map(({ span, lists }) => ({ span, changes: changeSetOf(lists as unknown as Lists) }))
    .filter(({ changes }) => !isEmpty(changes));
}

type Lists = Pick<ChangeSet, Kind>;

function emptyLists(): Record<Kind, unknown[]> {
  return { hops: [], sites: [], shared: [], findings: [], orders: [], licences: [] };
}

interface Run {
  readonly item: unknown;
  readonly first: number;
  end: number;
}

function runsOf(kind: Kind, stages: readonly StageChanges[], last: ChangeSet): Run[] {
  const content = contentComparison();
  // Who else changed at that time makes it no other change.
  const same = (one: unknown, other: unknown) => content(withoutCauses(one), withoutCauses(other));
  const toldLast = last[kind].map(shown);
  const runs: Run[] = [];
  for (const [index, { changes }] of stages.entries()) {
    for (const change of changes[kind]) {
      const item = shown(change);
      if (toldLast.some((known) => same(known, item))) continue;
      if (kind === "hops" && isTold(change as HopChange, last, runs)) continue;
      const run = runs.find(({ item: known, end }) => end === index - 1 && same(known, item));
      if (run) run.end = index;
      else runs.push({ item, first: index, end: index });
    }
  }
  return runs;
}

function withoutCauses(change: unknown): unknown {
  return isHop(change) ? { ...change, causes: [] } : change;
}

/** As it is told for a time. */
function shown(change: unknown): unknown {
  if (isHop(change)) return hopForATime(change);
  if (!isShared(change)) return change;
  // How many use it is no change of it.
  return { ...change, usedBy: 0, affects: 0 };
}

/** Of a hop that is written on both sides and stands for a time on one only, the state says it all. */
function hopForATime(change: HopChange): HopChange {
  const { status, decisions } = change;
  const goesOn = status === "changed" || status === "not judged";
  // Remarks that stay are not printed, and what they rest on differs with what else stands.
  const findings = change.findings.filter((one) => one.status !== "still there" || one.severity !== "info");
  return goesOn || decisions.length === 0 ? { ...change, findings } : { ...change, findings, figures: [] };
}

/** Whether only its words differ, which are told with the last stage or an earlier one. */
function isTold(
  { hop, status, figures, findings }: HopChange,
  { hops }: ChangeSet,
  runs: readonly Run[],
): boolean {
  const isQuiet =
    status === "changed" && figures.length === 0 && findings.every((one) => one.status === "still there");
  if (!isQuiet) return false;
  return hops.some((other) => other.hop === hop) || runs.some(({ item }) => (item as HopChange).hop === hop);
}

function isHop(change: unknown): change is HopChange {
  return typeof change === "object" && change !== null && "edited" in change;
}

function isShared(change: unknown): change is SharedChange {
  return typeof change === "object" && change !== null && "usedBy" in change;
}

function changeSetOf(lists: Lists): ChangeSet {
  const all = findingsIn(lists);
  return {
    ...lists,
    counts: countsOf(lists.hops, all),
    worse: lists.hops.some(({ worse }) => worse) || all.some(isWorse),
    newFindings: all.some(isWorse),
  };
}

function compare(one: string, other: string): number {
  return one < other ? -1 : one > other ? 1 : 0;
}
