/** Marks what a line still lacks with the word for what is to be chosen. */
import { OPEN } from "../../facts/complaints.js";
import type { Statement } from "../../syntax/tree.js";
import type { QuickFix, TextToMend } from "./fix.js";

/** The check tells it as unfinished from then on, and the rest of the line counts. */
export function markAsOpen({ file, problem }: TextToMend): readonly QuickFix[] {
  const statement = statementAt(file.tree.statements, problem.start);
  const last = statement?.atoms.at(-1);
  if (!last || last.text === OPEN) return [];
  return [
    {
      title: `Write ${OPEN} for what is still to be chosen`,
      rule: problem.rule,
      changesDecision: false,
      edits: [{ file: file.path, start: last.end, end: last.end, newText: ` ${OPEN}` }],
    },
  ];
}

/** The innermost statement whose own words hold an offset. */
function statementAt(statements: readonly Statement[], offset: number): Statement | undefined {
  const here = statements.find(({ start, end }) => start <= offset && offset < end);
  const inside = here?.block && here.block.start < offset ? here.block.statements : undefined;
  return inside ? statementAt(inside, offset) : here;
}
