/** Findings of a comparison as lines of a list: what became of it, then what it says. */
import type { Inline, Tone } from "../../report/document/document.js";
import { type FindingChange, isOpened, isRemarkGone } from "../findings.js";

export interface Placing {
  where?(change: FindingChange): string | undefined;
}

/** What got worse first; what was mended last; remarks that stay are left out. @param on named before the message where no heading does so */
export function findingItems(findings: readonly FindingChange[], { where }: Placing, on?: string): Inline[] {
  return findings
    .filter(({ status, severity, is }) => status !== "still there" || severity !== "info" || is?.accepted)
    .toSorted((a, b) => ORDER.indexOf(a.status) - ORDER.indexOf(b.status) || rank(a) - rank(b))
    .map((change) => {
      const { status, rule, message, is } = change;
      const place = is === undefined ? undefined : where?.(change);
      const accepted = status === "newly accepted" ? is?.accepted : undefined;
      const until = accepted?.until === undefined ? "" : ` until ${accepted.until}`;
      const reason = accepted?.reason === undefined ? "" : `: ${accepted.reason}`;
      return [
        { text: statusWords(change), mark: toneOf(change) },
        ` ${on === undefined ? "" : `${on}: `}${message} `,
        { text: rule, mark: "code" },
        ...(accepted ? [` accepted${until}${reason}`] : []),
        ...(place === undefined ? [] : [{ text: ` ${place}`, mark: "quiet" as const }]),
      ];
    });
}

/** What makes it worse or better with how much it weighs, so that the lines add up to what the head counts. */
function statusWords(change: FindingChange): string {
  const { status, severity, was } = change;
  if (isOpened(change)) return `${status} ${severity}`;
  if (status === "milder" && was === undefined) return "milder (left of a graver one)";
  if (isRemarkGone(change)) return `${status} info`;
  return status === "fixed" && was?.accepted ? "fixed (was accepted)" : status;
}

const ORDER: readonly FindingChange["status"][] = [
  "new",
  "no longer accepted",
  "graver",
  "newly accepted",
  "still there",
  "milder",
  "no longer judged",
  "fixed",
];

function rank({ severity }: FindingChange): number {
  return severity === "error" ? 0 : severity === "warning" ? 1 : 2;
}

function toneOf(change: FindingChange): Tone {
  if (isOpened(change)) return change.severity;
  switch (change.status) {
    case "fixed":
    case "milder":
      return "good";
    case "newly accepted":
      return "accepted";
    default:
      return "info";
  }
}
