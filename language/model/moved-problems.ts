/** Problems that resolving found, where their text stands now: with its words unchanged it may have moved since. */
import type { TextProblem } from "../facts/fact.js";
import type { ResolveProblem } from "../resolve/lookup.js";
import type { Declaration } from "./source-file.js";

export function foundIn(
  entry: Declaration,
  resolved: { readonly problems: readonly ResolveProblem[]; readonly from: number } | undefined,
): readonly ResolveProblem[] {
  const moved = entry.fact.statement.start - (resolved?.from ?? 0);
  return (resolved?.problems ?? []).map(({ problem }) => ({
    file: entry.file,
    problem: shifted(problem, moved),
  }));
}

function shifted(problem: TextProblem, by: number): TextProblem {
  if (by === 0) return problem;
  const fixes = problem.fixes?.map((fix) => ({ ...fix, start: fix.start + by, end: fix.end + by }));
  return { ...problem, start: problem.start + by, end: problem.end + by, fixes };
}
