/** What a change does, and when: each thing that changed with the time in which it is so. */
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

/** What is so in one span of time. */
export interface TimedChanges {
  /** Without an end it goes on; without a beginning it is so from today on. */
  readonly span: Span;
  readonly changes: ChangeSet;
}

/** Before the first day, and behind the last one. */
const ALWAYS: Span = { from: "", until: "~" };

/**
 * Each thing that changed is told once for an unbroken run of stages in which it is the same, beside all others of the
 * same time: what is so at all times first, then what is so at the end, then what passes.
 * @param stages in order; of one alone everything is so at all times
 */
export function timedChanges(stages: readonly StageChanges[]): TimedChanges[] {
  if (stages.length === 1) return [...atAllTimes(stages[0]!.changes)];
  const bySpan = new Map<string, { span: Span; lists: Record<Kind, unknown[]> }>();
  for (const kind of KINDS) {
    for (const { item, first, end } of runsOf(kind, stages)) {
      const from = first === 0 ? ALWAYS.from : stages[first]!.from;
      const span = { from, until: stages[end + 1]?.from ?? ALWAYS.until };
      const key = `${span.from} ${span.until}`;
      let found = bySpan.get(key);
      if (!found) bySpan.set(key, (found = { span, lists: emptyLists() }));
      found.lists[kind].push(...(kind === "orders" ? (item as unknown[]) : [item]));
    }
  }
  return [...bySpan.values()]
    .sort((a, b) => descending(a.span.until, b.span.until) || ascending(a.span.from, b.span.from))
    .map(({ span, lists }) => ({ span, changes: changeSetOf(lists as unknown as Lists) }))
    .filter(({ changes }) => !isEmpty(changes));
}

/** Of two states that are compared as they are. */
export function atAllTimes(changes: ChangeSet): readonly TimedChanges[] {
  return [{ span: ALWAYS, changes }];
}

/** Whether a time is that of the last stage. */
export function goesOn({ span }: TimedChanges): boolean {
  return span.until === ALWAYS.until;
}

const KINDS = ["hops", "sites", "shared", "findings", "orders", "licences"] as const;
type Kind = (typeof KINDS)[number];
type Lists = Pick<ChangeSet, Kind>;

function emptyLists(): Record<Kind, unknown[]> {
  return { hops: [], sites: [], shared: [], findings: [], orders: [], licences: [] };
}

interface Run {
  readonly item: unknown;
  readonly first: number;
  end: number;
}

function runsOf(kind: Kind, stages: readonly StageChanges[]): readonly Run[] {
  const content = contentComparison();
  // Who else changed at that time makes it no other change.
  const same = (one: unknown, other: unknown) => content(withoutCauses(one), withoutCauses(other));
  const runs: Run[] = [];
  for (const [index, { changes }] of stages.entries()) {
    for (const change of itemsOf(kind, changes)) {
      const item = shown(change);
      const run = runs.find(({ item: known, end }) => end === index - 1 && same(known, item));
      if (run) run.end = index;
      else runs.push({ item, first: index, end: index });
    }
  }
  return kind === "hops" ? withoutQuiet(runs) : runs;
}

/** What has to be ordered is one list: a part of it alone would not be all that it takes. */
function itemsOf(kind: Kind, changes: ChangeSet): readonly unknown[] {
  if (kind !== "orders") return changes[kind];
  return changes.orders.length === 0 ? [] : [changes.orders];
}

/** That the words of a hop differ without a consequence is told where nothing else is told of it, once. */
function withoutQuiet(runs: readonly Run[]): readonly Run[] {
  const byHop = Map.groupBy(runs, ({ item }) => (item as HopChange).hop);
  return [...byHop.values()].flatMap((own) => {
    const loud = own.filter(({ item }) => !isQuiet(item as HopChange));
    return loud.length > 0 ? loud : [own.at(-1)!];
  });
}

function isQuiet({ status, figures, findings }: HopChange): boolean {
  return (
    status === "changed" && figures.length === 0 && findings.every((one) => one.status === "still there")
  );
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

/** Of a hop that stands on one side only and is written on both, the state says it all. */
function hopForATime(change: HopChange): HopChange {
  // Remarks that stay are not printed, and what they rest on differs with what else stands.
  const findings = change.findings.filter((one) => one.status !== "still there" || one.severity !== "info");
  return change.byState ? { ...change, findings, figures: [] } : { ...change, findings };
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

function ascending(one: string, other: string): number {
  return one < other ? -1 : one > other ? 1 : 0;
}

function descending(one: string, other: string): number {
  return ascending(other, one);
}
