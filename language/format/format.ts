/**
 * The one layout of a file: a fact a line in the order of the property table, two spaces a level, one
 * blank line between declarations. Nothing of it is a matter of taste, so a diff shows decisions alone.
 * Comments stay with the fact they precede or follow. Text with unreadable shapes is left as it is.
 */
import { blockContext, END, findProperty, orderOf } from "../schema/index.js";
import type { Context } from "../schema/types.js";
import { parse } from "../syntax/parse.js";
import { type Atom, type Comment, head, type Statement, type SyntaxProblem } from "../syntax/tree.js";

export type Formatted =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly problems: readonly SyntaxProblem[] };

export function formatText(text: string): Formatted {
  const tree = parse(text);
  if (tree.problems.length > 0) return { ok: false, problems: tree.problems };
  const source: Source = { text, comments: [...tree.comments].sort((a, b) => a.start - b.start), taken: 0 };
  const lines = formatBlock(source, tree.statements, "file", text.length, 0, 0);
  const formatted = lines.join("\n");
  return { ok: true, text: formatted === "" ? "" : `${formatted}\n` };
}

interface Source {
  readonly text: string;
  readonly comments: readonly Comment[];
  /** Comments before this index are placed already. */
  taken: number;
}

/** A statement with the comments that travel with it, laid out. */
interface Item {
  readonly order: number;
  readonly lines: readonly string[];
  /** Whether the author set it apart by a blank line. */
  readonly spaced: boolean;
  readonly hasBlock: boolean;
}

function formatBlock(source: Source, statements: readonly Statement[], context: Context, end: number, depth: number, from: number): string[] {
  const indent = "  ".repeat(depth);
  const items: Item[] = [];
  let behind = from;
  for (const statement of statements) {
    const before = takeComments(source, statement.start);
    const first = before[0]?.start ?? statement.start;
    const spaced = hasBlankLine(source.text, behind, first);
    const lines = before.flatMap((comment) => commentLines(comment, indent));
    lines.push(...formatStatement(source, statement, context, depth));
    const trailing = takeTrailing(source, statement.end);
    if (trailing) lines[lines.length - 1] += `  ${trailing.text}`;
    behind = trailing?.end ?? statement.end;
    items.push({ order: context === "file" ? 0 : orderOf(context, head(statement).text), lines, spaced, hasBlock: statement.block !== undefined });
  }
  const rest = takeComments(source, end);
  const out = joinItems(context === "file" ? items : stableSort(items), context === "file");
  if (rest.length > 0) {
    if (out.length > 0 && hasBlankLine(source.text, behind, rest[0]!.start)) out.push("");
    out.push(...rest.flatMap((comment) => commentLines(comment, indent)));
  }
  return out;
}

function formatStatement(source: Source, statement: Statement, context: Context, depth: number): string[] {
  const indent = "  ".repeat(depth);
  // Comments between the atoms have no line of their own to stand on; they go behind the statement.
  const inside = takeComments(source, statement.block?.start ?? statement.end);
  const words = atomsText(statement.atoms);
  const aside = inside.map((comment) => `  ${comment.text}`).join("");
  if (!statement.block) return [`${indent}${words}${aside}`];
  const opening = takeTrailing(source, statement.block.start + 1);
  const template = head(statement).text === "template" && context === "file" ? 1 : 0;
  const word = statement.atoms[template] ?? head(statement);
  const property = findProperty(context, word.text) ?? (context === "hop" ? END : undefined);
  const inner = (property && blockContext(property, statement.atoms[1]?.text)) ?? context;
  const body = formatBlock(source, statement.block.statements, inner, statement.block.end, depth + 1, statement.block.start + 1);
  const aside2 = opening ? `  ${opening.text}` : "";
  if (body.length === 0) return [`${indent}${words} {}${aside}${aside2}`];
  return [`${indent}${words} {${aside}${aside2}`, ...body, `${indent}}`];
}

function atomsText(atoms: readonly Atom[]): string {
  return atoms.map(atomText).join(" ");
}

const GLUED = /^([+\-−]?(?:\d+(?:\.\d*)?|\.\d+))(%|[A-Za-z°µ][A-Za-z/%0-9³]*)$/;
const UNIT_LIKE = /^(%|°C?|[kMG]?Hz|dB[mWid]?|dB\/(m|100m)|[cmk]?m|mm\/h|[kMG]?bit\/s|hPa|mbar|N\/km|g\/m3|F1|deg|mW|W)$/;

function atomText(atom: Atom): string {
  if (atom.kind === "angle") return atom.text.replace(/\s+/g, "").replace(/[′’]/g, "'").replace(/[″”]/g, '"').replace("º", "°").toUpperCase();
  if (atom.kind === "string") return atom.text;
  const glued = atom.kind === "word" ? GLUED.exec(atom.text) : null;
  return glued && UNIT_LIKE.test(glued[2]!) ? `${glued[1]} ${glued[2]}` : atom.text;
}

function joinItems(items: readonly Item[], topLevel: boolean): string[] {
  const out: string[] = [];
  items.forEach((item, index) => {
    const previous = items[index - 1];
    const apart = previous && (topLevel ? item.hasBlock || previous.hasBlock || item.spaced : item.spaced);
    if (apart) out.push("");
    out.push(...item.lines);
  });
  return out;
}

function stableSort(items: readonly Item[]): Item[] {
  return items.map((item, index) => ({ item, index })).sort((a, b) => a.item.order - b.item.order || a.index - b.index).map(({ item }) => item);
}

function takeComments(source: Source, before: number): Comment[] {
  const found: Comment[] = [];
  for (let next = source.comments[source.taken]; next && next.start < before; next = source.comments[++source.taken]) found.push(next);
  return found;
}

/** The comment on the same line, if nothing but spaces parts it from `offset`. */
function takeTrailing(source: Source, offset: number): Comment | undefined {
  const next = source.comments[source.taken];
  if (!next || !/^[ \t;]*$/.test(source.text.slice(offset, next.start)) || next.text.includes("\n")) return undefined;
  source.taken++;
  return next;
}

function commentLines(comment: Comment, indent: string): string[] {
  return `${indent}${comment.text}`.split("\n").map((line) => line.trimEnd());
}

function hasBlankLine(text: string, from: number, to: number): boolean {
  return /\n[ \t\r]*\n/.test(text.slice(from, to));
}
