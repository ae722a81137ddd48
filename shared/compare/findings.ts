/** Which findings are new, fixed, still there, or newly accepted. */
import type { Address } from "../design/address.js";
import type { Finding, Severity } from "../design/finding.js";

export type FindingStatus =
  | "new"
  /** An acceptance that excused it is gone or has ended. */
  | "no longer accepted"
  | "graver"
  | "still there"
  | "milder"
  | "newly accepted"
  | "fixed";

export interface FindingChange {
  readonly status: FindingStatus;
  readonly rule: string;
  /** Of the new side; of the old one where it is fixed. */
  readonly severity: Severity;
  readonly message: string;
  /** Undefined when it is fixed. */
  readonly is?: Finding;
  /** Undefined when it is new. */
  readonly was?: Finding;
}

/**
 * A finding is known by its rule and address, never by its message, which holds figures. Where several are alike
 * otherwise, those of the same number go first: an obstacle put in before others renumbers them. What is said once
 * for many is known by what it is about: a hop more, or another order of files, moves it from hop to hop.
 */
export function findingChanges(
  was: readonly Finding[],
  is: readonly Finding[],
  addressNow: (address: Address) => Address,
): FindingChange[] {
  const open = new Set(is);
  const pairs = new Map<Finding, Finding>();
  const pair = (keyOf: (finding: Finding, now: (at: Address) => Address) => string | undefined) => {
    const free = Map.groupBy(open, (finding) => keyOf(finding, (at) => at));
    for (const finding of was) {
      const key = pairs.has(finding) ? undefined : keyOf(finding, addressNow);
      const found = key === undefined ? undefined : free.get(key)?.shift();
      if (!found) continue;
      pairs.set(finding, found);
      open.delete(found);
    }
  };
  pair(({ rule, at }, now) => `${rule} ${now(at)}`);
  pair(({ rule, at }, now) => `${rule} ${now(at).replace(/#\d+/g, "")}`);
  pair(({ rule, about }, now) => about && `${rule} ${now(about)}`);
  const kept = was.map((finding) => changeOf(finding, pairs.get(finding)));
  return [...[...open].map((finding) => changeOf(undefined, finding)), ...kept];
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
  // More is left unjudged than was.
  if (is.notJudged?.some((rule) => !was.notJudged?.includes(rule))) return "graver";
  return rise > 0 ? "graver" : rise < 0 ? "milder" : "still there";
}

/** Something to look at that was not there, or not so grave. */
export function isOpened({ status }: FindingChange): boolean {
  return status === "new" || status === "graver" || status === "no longer accepted";
}

/** Whether it makes the design worse; a remark alone does not. */
export function isWorse(change: FindingChange): boolean {
  return isOpened(change) && change.severity !== "info";
}

/** Whether something to mend is gone. */
export function isMended({ status, severity }: FindingChange): boolean {
  return status === "fixed" && severity !== "info";
}
