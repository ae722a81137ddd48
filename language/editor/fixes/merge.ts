/** One side of what an unfinished merge leaves in a file. */
import type { QuickFix, TextToMend } from "./fix.js";

const MARK = /^(<{7}|\|{7}|={7}|>{7})(?:[ \t]+([^\r\n]*))?(?:\r\n?|\n|$)/gm;

interface Mark {
  readonly sign: string;
  readonly name: string;
  readonly start: number;
  readonly end: number;
}

/** Nothing of a conflict inside another, or without an end: there a person has to look. */
export function oneSide({ file: { text, path }, problem }: TextToMend): readonly QuickFix[] {
  const marks = marksFrom(text, problem.start);
  const [open, ...others] = marks;
  const close = others.findIndex(({ sign }) => sign === ">");
  const inner = others.slice(0, close);
  const middle = inner.find(({ sign }) => sign === "=");
  if (open?.sign !== "<" || close < 0 || middle === undefined) return [];
  if (inner.some(({ sign }) => sign === "<") || inner.filter(({ sign }) => sign === "=").length > 1)
    return [];
  const base = inner.find(({ sign }) => sign === "|");
  const end = others[close]!;
  const keep = (which: string, { name }: Mark, from: number, to: number): QuickFix => ({
    title: `Keep the ${which} side${name === "" ? "" : ` (${name})`}`,
    rule: problem.rule,
    changesDecision: true,
    edits: [{ file: path, start: open.start, end: end.end, newText: text.slice(from, to) }],
  });
  return [keep("first", open, open.end, (base ?? middle).start), keep("second", end, middle.end, end.start)];
}

function marksFrom(text: string, start: number): readonly Mark[] {
  return [...text.slice(start).matchAll(MARK)].map(({ 0: line, 1: signs, 2: name = "", index }) => ({
    sign: signs![0]!,
    name: name.trim(),
    start: start + index,
    end: start + index + line.length,
  }));
}
