/** Closes braces, texts and comments where the indentation and the line say that they end. */

import { indentationAt } from "../text-range.js";
import type { QuickFix, TextToMend } from "./fix.js";

export function closeWhatIsOpen({ file, problem }: TextToMend): readonly QuickFix[] {
  const { text, path, tree } = file;
  const { start, end } = problem;
  const write = (title: string, at: number, newText: string, to = at, certain?: true): QuickFix[] => [
    {
      title,
      rule: problem.rule,
      changesDecision: false,
      certain,
      edits: [{ file: path, start: at, end: to, newText }],
    },
  ];
  const lineEnd = endOfLine(text, start);
  const [sign] = text.slice(start, end);
  if (sign === "{") {
    const place = whereOneIsMissing(text);
    const alone = tree.problems.length === 1 ? true : undefined;
    return place
      ? write(`Close the block with } in line ${place.line + 1}`, place.at, place.newText, place.at, alone)
      : [];
  }
  if (sign === "}") return write("Remove this }", start, "", end);
  if (sign === '"') {
    const body = text.slice(start, end).replace(/\s*\{?\s*$/, "");
    return body.length > 1 ? write('Close the text with "', start + body.length, '"') : [];
  }
  if (text.startsWith("/*", start)) return write("Close the comment at the end of its line", lineEnd, " */");
  const isInvisible =
    end - start >= 1 && /^[\u0000-\u0008\u000E-\u001F\u007F-\u009F]+$/.test(text.slice(start, end));
  return isInvisible ? write("Remove the invisible characters", start, "", end, true) : [];
}

interface Place {
  readonly at: number;
  readonly newText: string;
  /** Counted from 0: the line behind which it goes. */
  readonly line: number;
}

/** Behind the last line that is indented as the inside of a block whose end is missing. */
function whereOneIsMissing(text: string): Place | undefined {
  const lines = withoutWords(text).split("\n");
  const open: { readonly indentation: number; readonly line: number; readonly at: number }[] = [];
  let offset = 0;
  let lastFilled = 0;
  for (const [line, content] of lines.entries()) {
    const indentation = /^\s*/.exec(content)![0].length;
    const top = open.at(-1);
    if (content.trim() !== "") {
      const closes = content.trimStart().startsWith("}");
      if (top && (closes ? indentation < top.indentation : indentation <= top.indentation))
        return behind(text, lines, lastFilled, top.at);
      lastFilled = line;
    }
    for (const [index, sign] of [...content].entries()) {
      if (sign === "{") open.push({ indentation, line, at: offset + index });
      if (sign === "}") open.pop();
    }
    offset += content.length + 1;
  }
  const last = open.at(-1);
  return last && behind(text, lines, lastFilled, last.at);
}

function behind(text: string, lines: readonly string[], line: number, brace: number): Place {
  const before = lines.slice(0, line).reduce((sum, one) => sum + one.length + 1, 0);
  const at = before + lines[line]!.replace(/\r$/, "").length;
  return { at, newText: `\n${indentationAt(text, brace)}}`, line: line + 1 };
}

/** Texts and comments hold braces that are none; offsets stay. */
function withoutWords(text: string): string {
  return text.replace(/"(\\.|[^"\\\n])*"?|\/\/[^\n]*|\/\*[\s\S]*?\*\//g, (found) =>
    found.replace(/[^\n]/g, "x"),
  );
}

function endOfLine(text: string, from: number): number {
  const at = text.indexOf("\n", from);
  const end = at < 0 ? text.length : at;
  return text[end - 1] === "\r" ? end - 1 : end;
}
