/** What a change does, and when: each thing that changed with the time in which it is so. */
import { type Span, spanOf } from "../design/state.js";
import { RULES } from "../rules/index.js";
import { type ChangeSet, type HopChange, isEmpty, type SharedChange, type SiteChange } from "./change-set.js";
import { summed } from "./compare.js";
import type { DemandChange, LoadChange } from "./demand-change.js";
import { type FindingChange, isWorse } from "./findings.js";
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

const ALWAYS = spanOf(undefined);

/**
 * Each thing that changed is told once for an unbroken run of stages in which it is the same, beside all others of the
 * same time: what is so at all times first, then what is so at the end, then what passes.
 * @param stages in order; of one alone everything is so at all times
 */
export function timedChanges(stages: readonly StageChanges[]): TimedChanges[] {
  if (stages.length === 1) return [...atAllTimes(stages[0]!.changes)];
  const bySpan = new Map<string, { span: Span; lists: Record<Kind, unknown[]> }>();
  const put = (span: Span, kind: Kind, item: unknown) => {
    const key = `${span.from} ${span.until}`;
    let found = bySpan.get(key);
    if (!found) bySpan.set(key, (found = { span, lists: emptyLists() }));
    found.lists[kind].push(item);
  };
  for (const kind of KINDS) {
    for (const item of ofText(kind, stages)) put(ALWAYS, kind, item);
    for (const { item, first, end } of runsOf(kind, stages)) {
      const from = first === 0 ? ALWAYS.from : stages[first]!.from;
      const until = stages[end + 1]?.from ?? ALWAYS.until;
      const span = kind === "orders" ? ALWAYS : { from, until };
      put(span, kind, item);
    }
  }
  return [...bySpan.values()]
    .sort((a, b) => descending(a.span.until, b.span.until) || ascending(a.span.from, b.span.from))
    .map(({ span, lists }) => ({ span, changes: changeSetOf(lists as unknown as Lists) }))
    .filter(({ changes }) => !isEmpty(changes));
}

/** Of two states that are compared as they are. */
export function atAllTimes(changes: ChangeSet): readonly TimedChanges[] {
  const hops = changes.hops.map((hop) => ({ ...hop, figures: figuresTold(hop) }));
  return [{ span: ALWAYS, changes: { ...changes, hops } }];
}

/** Whether a time is that of the last stage. */
export function goesOn({ span }: TimedChanges): boolean {
  return span.until === ALWAYS.until;
}

const KINDS = [
  "hops",
  "sites",
  "shared",
  "findings",
  "demands",
  "loads",
  "orders",
  "ports",
  "licences",
] as const;
type Kind = (typeof KINDS)[number];
type Lists = Pick<ChangeSet, Kind>;

type Owner = HopChange | SiteChange | SharedChange;

/** What is wrong with the text is so at all times, whatever stands: by what it is told of. */
function ofText(kind: Kind, stages: readonly StageChanges[]): readonly unknown[] {
  if (kind === "orders" || kind === "ports" || kind === "licences" || kind === "demands" || kind === "loads")
    return [];
  const all = stages.flatMap(({ changes }) => changes[kind] as readonly unknown[]);
  if (kind === "findings") {
    // Told with its hop, its site or its entry, where a stage has that.
    const owners = stages.flatMap(({ changes }) => [...changes.hops, ...changes.sites, ...changes.shared]);
    const told = new Set(owners.flatMap(({ findings }) => findings.filter(isOfText).map(saying)));
    return once((all as FindingChange[]).filter((one) => isOfText(one) && !told.has(saying(one))));
  }
  const owners = Map.groupBy(all as Owner[], nameOf);
  return [...owners.values()].flatMap((own) => {
    const findings = once(own.flatMap((one) => one.findings.filter(isOfText)).filter(isPrinted));
    const bare = { decisions: [], figures: [], causes: [], worse: findings.some(isWorse) };
    return findings.length === 0 ? [] : [{ ...own.at(-1)!, status: "changed", ...bare, findings }];
  });
}

/** Remarks that stay are not printed, and what they rest on differs with what else stands. */
function isPrinted({ status, severity }: FindingChange): boolean {
  return status !== "still there" || severity !== "info";
}

function isOfText({ rule }: FindingChange): boolean {
  return !RULES.has(rule);
}

function nameOf(owner: Owner): string {
  return "hop" in owner ? owner.hop : "site" in owner ? owner.site : owner.entry;
}

function once(findings: readonly FindingChange[]): FindingChange[] {
  return [...new Map(findings.map((one) => [saying(one), one])).values()];
}

function saying({ status, rule, message }: FindingChange): string {
  return `${status} ${rule} ${message}`;
}

function emptyLists(): Record<Kind, unknown[]> {
  return {
    hops: [],
    sites: [],
    shared: [],
    findings: [],
    demands: [],
    loads: [],
    orders: [],
    ports: [],
    licences: [],
  };
}

interface Run {
  item: unknown;
  readonly first: number;
  end: number;
}

function runsOf(kind: Kind, stages: readonly StageChanges[]): readonly Run[] {
  const content = contentComparison();
  // Who else changed at that time makes it no other change.
  const same = (one: unknown, other: unknown) => content(withoutCauses(one), withoutCauses(other));
  const runs: Run[] = [];
  const last = stages.length - 1;
  for (const [index, { changes }] of stages.entries()) {
    for (const change of itemsOf(kind, changes, index === last)) {
      const item = withoutText(shown(change));
      if (item === undefined) continue;
      const run = runs.find(({ item: known, end }) => end === index - 1 && same(known, item));
      if (run) [run.item, run.end] = [withMostUsers(run.item, item), index];
      else runs.push({ item, first: index, end: index });
    }
  }
  return kind === "hops" ? withoutQuiet(runs) : runs;
}

/**
 * What has to be ordered and licensed in all is what the end asks for; that a thing stands later or sooner orders
 * nothing and cancels nothing. Of what stands for a time, what a licence says may still become untrue.
 */
function itemsOf(kind: Kind, changes: ChangeSet, last: boolean): readonly unknown[] {
  if (last || (kind !== "orders" && kind !== "licences")) return changes[kind];
  if (kind === "orders") return [];
  const moved = new Set(changes.hops.flatMap(({ hop, byState }) => (byState ? hop : [])));
  return changes.licences.filter(({ hop }) => !moved.has(hop));
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

/** @returns undefined where nothing else is left to tell */
function withoutText(change: unknown): unknown {
  if (isFinding(change)) return isOfText(change) ? undefined : change;
  if (!isOwner(change) || !change.findings.some(isOfText)) return change;
  const findings = change.findings.filter((one) => !isOfText(one));
  const figures = isHop(change) ? change.figures.length : 0;
  const isBare = change.status === "changed" && change.decisions.length + figures + findings.length === 0;
  if (isBare) return undefined;
  if (!isHop(change)) return { ...change, findings };
  const worse =
    change.status === "not judged" ||
    findings.some(isWorse) ||
    change.figures.some(({ verdict }) => verdict === "worse");
  return { ...change, findings, worse };
}

function isFinding(change: unknown): change is FindingChange {
  return typeof change === "object" && change !== null && "rule" in change;
}

function isOwner(change: unknown): change is Owner {
  return typeof change === "object" && change !== null && "findings" in change;
}

function withoutCauses(change: unknown): unknown {
  if (isDemand(change)) return { ...change, because: [] };
  // How many use it is no change of it.
  if (isShared(change)) return { ...change, usedBy: 0, affects: 0 };
  return isHop(change) ? { ...change, causes: [] } : change;
}

/** Hops come and go while it is so: of those that use it as many are told as there are at most. */
function withMostUsers(known: unknown, now: unknown): unknown {
  if (!isShared(known) || !isShared(now)) return known;
  const [usedBy, affects] = [Math.max(known.usedBy, now.usedBy), Math.max(known.affects, now.affects)];
  return { ...known, usedBy, affects };
}

/** As it is told for a time. */
function shown(change: unknown): unknown {
  return isHop(change) ? hopForATime(change) : change;
}

function hopForATime(change: HopChange): HopChange {
  return { ...change, findings: change.findings.filter(isPrinted), figures: figuresTold(change) };
}

/** Of a hop that stands on one side only and is written on both, the state says it all. */
function figuresTold({ byState, figures }: HopChange): HopChange["figures"] {
  return byState ? [] : figures;
}

function isHop(change: unknown): change is HopChange {
  return typeof change === "object" && change !== null && "edited" in change;
}

function isDemand(change: unknown): change is DemandChange | LoadChange {
  return typeof change === "object" && change !== null && "because" in change && "figures" in change;
}

function isShared(change: unknown): change is SharedChange {
  return typeof change === "object" && change !== null && "usedBy" in change;
}

function changeSetOf(lists: Lists): ChangeSet {
  return { ...lists, ...summed(lists) };
}

function ascending(one: string, other: string): number {
  return one < other ? -1 : one > other ? 1 : 0;
}

function descending(one: string, other: string): number {
  return ascending(other, one);
}
