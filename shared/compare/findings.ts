/** Which findings are new, fixed, still there, or newly accepted. */
import type { Address } from "../design/address.js";
import type { Finding } from "../design/finding.js";
import type { Severity } from "../design/severity.js";

export type FindingStatus =
  | "new"
  /** An acceptance that excused it is gone or has ended. */
  | "no longer accepted"
  | "graver"
  | "still there"
  /** Less grave than it was, or, without a counterpart, what is left of something graver about the same that is gone. */
  | "milder"
  | "newly accepted"
  /** Its rule says nothing now: what it needs is not known, or a cause is told instead. Nothing is mended by that. */
  | "no longer judged"
  /** Judged, and not found any more. */
  | "fixed";

export interface FindingChange {
  readonly status: FindingStatus;
  readonly rule: string;
  /** Of the new side; of the old one where it is not there. */
  readonly severity: Severity;
  readonly message: string;
  /** Undefined when it is fixed or no longer judged. */
  readonly is?: Finding;
  /** Undefined when it is new. */
  readonly was?: Finding;
}

export interface FindingOptions {
  addressNow(address: Address): Address;
  /** The same of what a finding is about. */
  aboutNow(about: string): string;
  /** What the new side has in place of a finding without a counterpart; undefined: nothing, it is fixed. */
  remaining?(was: Finding): Finding | "no longer judged" | undefined;
  /** Whether the old side has no counterpart only since something graver about the same was told in its place. */
  isLeft?(is: Finding): boolean;
}

/**
 * A finding is known by its rule and what it is about, or else by its rule and address; never by its message alone,
 * which holds figures. Where several are alike otherwise, those that say the same go first, then those of the same
 * number: an obstacle put in before others renumbers them. What is said once for many places is known by what it is
 * about: the weaker direction, a hop more, or another order of files, moves it from place to place.
 */
export function findingChanges(
  was: readonly Finding[],
  is: readonly Finding[],
  { addressNow, aboutNow, remaining = () => undefined, isLeft = () => false }: FindingOptions,
): FindingChange[] {
  const open = new Set(is);
  const pairs = new Map<Finding, Finding>();
  type Now = (name: string) => string;
  const pair = (keyOf: (finding: Finding, now: Now) => string | undefined, nowOf: Now = addressNow) => {
    const free = Map.groupBy(open, (finding) => keyOf(finding, (at) => at));
    for (const finding of was) {
      const key = pairs.has(finding) ? undefined : keyOf(finding, nowOf);
      const list = key === undefined ? undefined : free.get(key);
      // One that both sides tell of something is no counterpart of one that is told of something else.
      const index = list?.findIndex((other) => !isOfOther(finding, other, aboutNow)) ?? -1;
      if (index < 0) continue;
      const [found] = list!.splice(index, 1);
      pairs.set(finding, found!);
      open.delete(found!);
    }
  };
  const unnumbered = (at: Address) => at.replace(/#\d+/g, "");
  pair(({ rule, about }, now) => about && `${rule} ${now(about)}`, aboutNow);
  pair(({ rule, at, message }, now) => `${rule} ${unnumbered(now(at))} ${message}`);
  pair(({ rule, at }, now) => `${rule} ${now(at)}`);
  pair(({ rule, at }, now) => `${rule} ${unnumbered(now(at))}`);
  const kept = was.map((finding) => {
    const found = pairs.get(finding) ?? remaining(finding);
    return found === "no longer judged"
      ? { ...changeOf(finding, undefined), status: found }
      : changeOf(finding, found);
  });
  const come = [...open].map((finding) => {
    const change = changeOf(undefined, finding);
    return change.status === "new" && isLeft(finding) ? { ...change, status: "milder" as const } : change;
  });
  return [...come, ...kept];
}

function isOfOther(was: Finding, is: Finding, now: (about: string) => string): boolean {
  return was.about !== undefined && is.about !== undefined && now(was.about) !== is.about;
}

const RANK: Readonly<Record<Severity, number>> = { error: 2, warning: 1, info: 0 };

function changeOf(was: Finding | undefined, is: Finding | undefined): FindingChange {
  const { rule, severity, message } = (is ?? was)!;
  return { status: statusOf(was, is), rule, severity, message, is, was };
}

function statusOf(was: Finding | undefined, is: Finding | undefined): FindingStatus {
  if (!is) return "fixed";
  if (!was) return is.accepted ? "newly accepted" : "new";
  if (is.accepted && !was.accepted) return "newly accepted";
  if (was.accepted && !is.accepted) return "no longer accepted";
  const rise = RANK[is.severity] - RANK[was.severity];
  // More, or less, is left unjudged than was.
  if (rise > 0 || leavesMore(is, was)) return "graver";
  return rise < 0 || leavesMore(was, is) ? "milder" : "still there";
}

function leavesMore({ notJudged = [] }: Finding, { notJudged: others = [] }: Finding): boolean {
  return notJudged.some((rule) => !others.includes(rule));
}

/** Something to look at that was not there, or not so grave. */
export function isOpened({ status }: FindingChange): boolean {
  return status === "new" || status === "graver" || status === "no longer accepted";
}

/** Whether it makes the design worse; a remark alone does not. */
export function isWorse(change: FindingChange): boolean {
  return isOpened(change) && change.severity !== "info";
}

/** Whether something to mend is gone, or something that was accepted although it should be mended. */
export function isMended({ status, severity, was }: FindingChange): boolean {
  return status === "fixed" && (severity !== "info" || was?.accepted !== undefined);
}

/** Whether a remark is gone. */
export function isRemarkGone(change: FindingChange): boolean {
  return change.status === "fixed" && !isMended(change);
}
