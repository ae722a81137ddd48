/** What can be folded: blocks, and comments of several lines. */
import type { SourceFile } from "../model/source-file.js";
import type { Statement } from "../syntax/tree.js";
import type { TextRange } from "./text-range.js";

export interface FoldingRange extends TextRange {
  readonly kind: "block" | "comment";
}

/**
 * Ranges of more than one line, in the order of the text. A block's range ends with the line before its
 * closing brace, so that the brace stays in sight.
 */
export function foldingRanges(file: SourceFile): readonly FoldingRange[] {
  const ranges: FoldingRange[] = [];
  collectBlocks(file.tree.statements, file.text, ranges);
  collectComments(file, ranges);
  return ranges
    .filter(({ start, end }) => file.text.slice(start, end).includes("\n"))
    .sort((a, b) => a.start - b.start || a.end - b.end);
}

function collectBlocks(statements: readonly Statement[], text: string, into: FoldingRange[]): void {
  for (const { block } of statements) {
    if (!block) continue;
    const lastLine = text.lastIndexOf("\n", block.end - 1);
    into.push({ kind: "block", start: block.start, end: Math.max(block.start, lastLine) });
    collectBlocks(block.statements, text, into);
  }
}

/** Line comments on consecutive lines belong together; one behind a statement belongs to its line. */
function collectComments({ tree, text }: SourceFile, into: FoldingRange[]): void {
  let run: { start: number; end: number } | undefined;
  const close = () => {
    if (run) into.push({ kind: "comment", ...run });
    run = undefined;
  };
  for (const { start, end } of tree.comments) {
    const lineStart = text.lastIndexOf("\n", start - 1) + 1;
    if (text.slice(lineStart, start).trim() !== "") {
      close();
      continue;
    }
    if (run && /^[^\S\n]*\n[^\S\n]*$/.test(text.slice(run.end, start))) run.end = end;
    else {
      close();
      run = { start, end };
    }
  }
  close();
}
