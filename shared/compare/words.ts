/** A decision that changed, and what others decided, in one line: the same words on a page and in a history. */
import type { Cause } from "./change-set.js";
import type { DecisionChange } from "./decisions.js";
import { isOthersList } from "./facts.js";

/** `KELD: antenna DISH60-18 at 40 m → DISH120-18 at 40 m`; `+` what was not stated, `-` what is not any more. */
export function decisionWords({ site, within, word, was, is }: DecisionChange, arrow: string): string {
  const place = [site, within].filter((part) => part !== undefined).join(" / ");
  const what = place === "" ? "" : `${place}: `;
  if (was === undefined) return `${what}+ ${is}`;
  if (is === undefined) return `${what}- ${was}`;
  // The word stands in both; once is enough.
  return `${what}${was} ${arrow} ${is.startsWith(`${word} `) ? is.slice(word.length + 1) : is}`;
}

/** So many decisions of one cause are told; all stand where it is told itself. */
const TOLD = 4;

/** What was decided there, from what to what. */
export function causeWords({ status, renamedTo, decisions, ground = [] }: Cause): string {
  if (status === "renamed") return `renamed to ${renamedTo}`;
  if (status === "not judged") return "not judged any more";
  if (status !== "changed") return status;
  const told = [
    ...decisions.map((one) => decisionWords(one, "→")),
    ...ground.map(({ label, was, is }) => `${label} ${was ?? "unknown"} → ${is ?? "unknown"}`),
  ];
  const more = told.length - TOLD;
  return more > 0 ? `${told.slice(0, TOLD).join("; ")}; and ${more} more` : told.join("; ");
}

/** A declaration as readers know it: what a network agrees on about its rules has no word of its own, a list its file. */
export function entryWords(entry: string): string {
  if (isOthersList(entry)) return entry.slice("others ".length);
  return entry === "policy" ? "rules agreed on" : entry;
}
