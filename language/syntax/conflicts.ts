/**
 * What an unfinished merge leaves in a file. Both sides stand in the text; to read both would double every fact and
 * hide what happened, so the first side is read, and the place is told once.
 */
import type { SyntaxProblem } from "./tree.js";

const MARKER = /^(<{7}|\|{7}|={7}|>{7})(?:[ \t][^\r\n]*)?$/gm;

/** The text with blanks in place of the marks of each conflict and of all but its first side; offsets stay. */
export function withoutConflicts(text: string, problems: SyntaxProblem[]): string {
  if (!text.includes("<<<<<<<") && !text.includes(">>>>>>>")) return text;
  const kept: string[] = [];
  let from = 0;
  /** The mark before which the conflict is read; behind `|||||||` or `=======` it is passed over. */
  let open: { readonly start: number; readonly end: number } | undefined;
  let passedOverFrom: number | undefined;
  const blank = (start: number, end: number) => {
    kept.push(text.slice(from, start), text.slice(start, end).replace(/[^\r\n]/g, " "));
    from = end;
  };
  for (const found of text.matchAll(MARKER)) {
    const start = found.index;
    const end = start + found[0].length;
    const mark = found[1]![0];
    if (mark === "<") {
      open ??= { start, end };
      if (passedOverFrom === undefined) blank(start, end);
    } else if (mark === ">") {
      problems.push(conflict(open ?? { start, end }));
      blank(passedOverFrom ?? start, end);
      open = undefined;
      passedOverFrom = undefined;
    } else if (open) passedOverFrom ??= start;
  }
  if (open) {
    problems.push(conflict(open));
    if (passedOverFrom !== undefined) blank(passedOverFrom, text.length);
  }
  kept.push(text.slice(from));
  return kept.join("");
}

function conflict({ start, end }: { readonly start: number; readonly end: number }): SyntaxProblem {
  return {
    start,
    end,
    message: "a merge is not finished here: both sides stand in the file, and only the first is read",
    help: "keep what holds of both sides, and remove the lines that begin with <<<<<<<, ======= and >>>>>>>",
  };
}
