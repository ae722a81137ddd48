/**
 * The one layout of a file: a fact a line in the order of the property table, two spaces a level, one
 * blank line between declarations. Nothing of it is a matter of taste, so a diff shows decisions alone.
 * Comments stay with the fact they precede or follow. Text with unreadable shapes is left as it is.
 */
import { canonicalAngle } from "../facts/angle.js";
import type { Fact } from "../facts/fact.js";
import { readFacts } from "../facts/read.js";
import { blockContext, END, findProperty, orderOf } from "../schema/index.js";
import type { Context } from "../schema/types.js";
import { withLineFeeds } from "../syntax/line-ends.js";
import { parse } from "../syntax/parse.js";
import { type Atom, type Comment, head, type Statement, type SyntaxProblem } from "../syntax/tree.js";
import { type Lists, listed, listsIn } from "./lists.js";

export type Formatted =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly problems: readonly SyntaxProblem[] };

export function formatText(written: string): Formatted {
  const { problems } = parse(withLineFeeds(written));
  if (problems.length > 0) return { ok: false, problems };
  const text = written.replaceAll("\r\n", "\n").replaceAll("\r", "\n");
  const tree = parse(text);
  const { facts } = readFacts(tree.statements, "file");
  const source: Source = {
    text,
    comments: [...tree.comments].sort((a, b) => a.start - b.start),
    taken: 0,
    quantities: quantityStarts(facts),
    numbers: numberEnds(facts),
    lists: listsIn(facts),
  };
  const lines = formatBlock(source, tree.statements, "file", text.length, 0, 0);
  const formatted = lines.join("\n");
  return { ok: true, text: formatted === "" ? "" : `${formatted}\n` };
}

interface Source {
  readonly text: string;
  readonly comments: readonly Comment[];
  /** Comments before this index are placed already. */
  taken: number;
  /** Offsets at which a quantity starts: there `24m` is the same as `24 m`, elsewhere it may be a name. */
  readonly quantities: ReadonlySet<number>;
  /** Where each plain number starts and ends: within `4/3` no spaces stand. */
  readonly numbers: ReadonlyMap<number, number>;
  readonly lists: Lists;
}

/** A statement with the comments that travel with it, laid out. */
interface Item {
  readonly order: number;
  readonly lines: readonly string[];
  /** Whether the author set it apart by a blank line. */
  readonly spaced: boolean;
  readonly hasBlock: boolean;
}

function formatBlock(
  source: Source,
  statements: readonly Statement[],
  context: Context,
  end: number,
  depth: number,
  from: number,
): string[] {
  const indent = "  ".repeat(depth);
  const items: Item[] = [];
  let behind = from;
  for (const statement of statements) {
    const before = takeComments(source, statement.start);
    const first = before[0]?.start ?? statement.start;
    const spaced = hasBlankLine(source.text, behind, first);
    const lines = commentBlock(source.text, before, indent);
    if (before.length > 0 && hasBlankLine(source.text, before.at(-1)!.end, statement.start)) lines.push("");
    lines.push(...formatStatement(source, statement, context, depth));
    const trailing = takeTrailing(source, statement.end, true);
    lines[lines.length - 1] += aside(trailing);
    behind = trailing.at(-1)?.end ?? statement.end;
    items.push({
      order: context === "file" ? 0 : orderOf(context, head(statement).text),
      lines,
      spaced,
      hasBlock: statement.block !== undefined,
    });
  }
  const rest = takeComments(source, end);
  const out = joinItems(context === "file" ? items : stableSort(items), context === "file");
  if (rest.length > 0) {
    if (out.length > 0 && hasBlankLine(source.text, behind, rest[0]!.start)) out.push("");
    out.push(...commentBlock(source.text, rest, indent));
  }
  return out;
}

function formatStatement(source: Source, statement: Statement, context: Context, depth: number): string[] {
  const indent = "  ".repeat(depth);
  const inside = takeComments(source, statement.block?.start ?? statement.end);
  const opening = statement.block ? takeTrailing(source, statement.block.start + 1, false) : [];
  const among = [...inside, ...opening];
  // Comments between the words go behind them where they can, else on lines of their own before them.
  const above = fitBehind(among) ? [] : commentBlock(source.text, among, indent);
  const behind = fitBehind(among) ? aside(among) : "";
  const words = atomsText(source, listed(source.lists, statement));
  if (!statement.block) return [...above, `${indent}${words}${behind}`];
  const template = head(statement).text === "template" && context === "file" ? 1 : 0;
  const word = statement.atoms[template] ?? head(statement);
  const property = findProperty(context, word.text) ?? (context === "hop" ? END : undefined);
  const inner = (property && blockContext(property, statement.atoms[1]?.text)) ?? context;
  const body = formatBlock(
    source,
    statement.block.statements,
    inner,
    statement.block.end,
    depth + 1,
    statement.block.start + 1,
  );
  if (body.length === 0) return [...above, `${indent}${words} {}${behind}`];
  return [...above, `${indent}${words} {${behind}`, ...body, `${indent}}`];
}

function atomsText(source: Source, atoms: readonly Atom[]): string {
  let text = "";
  let numberEnd = 0;
  for (const atom of atoms) {
    if (text !== "" && atom.start >= numberEnd) text += " ";
    text += atomText(atom, source.quantities.has(atom.start));
    numberEnd = Math.max(numberEnd, source.numbers.get(atom.start) ?? 0);
  }
  return text;
}

function atomText(atom: Atom, isQuantity: boolean): string {
  if (atom.kind === "angle") return canonicalAngle(atom.text);
  // A number by itself has nothing to part: only digits with a unit stuck to them, such as 24m, are one word.
  return isQuantity && atom.kind === "word"
    ? atom.text.replace(/^([+\-−]?[\d.]+(?:[eE][+-]?\d+)?)(?=\D)/, "$1 ")
    : atom.text;
}

function quantityStarts(facts: readonly Fact[], into: Set<number> = new Set()): ReadonlySet<number> {
  for (const fact of facts) {
    for (const { value, start } of fact.args) if (value?.type === "quantity") into.add(start);
    quantityStarts(fact.facts, into);
  }
  return into;
}

function numberEnds(
  facts: readonly Fact[],
  into: Map<number, number> = new Map(),
): ReadonlyMap<number, number> {
  for (const fact of facts) {
    for (const { value, start, end } of fact.args) if (value?.type === "number") into.set(start, end);
    numberEnds(fact.facts, into);
  }
  return into;
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
  return items
    .map((item, index) => ({ item, index }))
    .sort((a, b) => a.item.order - b.item.order || a.index - b.index)
    .map(({ item }) => item);
}

function takeComments(source: Source, before: number): Comment[] {
  const found: Comment[] = [];
  for (
    let next = source.comments[source.taken];
    next && next.start < before;
    next = source.comments[++source.taken]
  )
    found.push(next);
  return found;
}

/** The comments on the same line, as far as nothing but spaces parts them from `offset`. */
function takeTrailing(source: Source, offset: number, overSeveralLines: boolean): Comment[] {
  const found: Comment[] = [];
  let from = offset;
  for (let next = source.comments[source.taken]; next; next = source.comments[source.taken]) {
    if (!/^[ \t;]*$/.test(source.text.slice(from, next.start))) break;
    if (!overSeveralLines && isOverSeveralLines(next)) break;
    found.push(next);
    source.taken++;
    if (isToLineEnd(next)) break;
    from = next.end;
  }
  return found;
}

/** Behind a statement on its line: what goes to the line's end must be the last, and nothing may break the line. */
function fitBehind(comments: readonly Comment[]): boolean {
  return !comments.some(
    (comment, i) => isOverSeveralLines(comment) || (isToLineEnd(comment) && i < comments.length - 1),
  );
}

function aside(comments: readonly Comment[]): string {
  return comments.map(({ text }) => `  ${text.replace(/[ \t]+$/gm, "")}`).join("");
}

function isToLineEnd({ text }: Comment): boolean {
  return text.startsWith("//");
}

function isOverSeveralLines({ text }: Comment): boolean {
  return text.includes("\n");
}

/** Comments with the blank lines that parted them. */
function commentBlock(text: string, comments: readonly Comment[], indent: string): string[] {
  return comments.flatMap((comment, i) => {
    const previous = comments[i - 1];
    const gap = previous && hasBlankLine(text, previous.end, comment.start) ? [""] : [];
    return [...gap, ...commentLines(comment, indent)];
  });
}

function commentLines(comment: Comment, indent: string): string[] {
  return `${indent}${comment.text}`.split("\n").map((line) => line.trimEnd());
}

function hasBlankLine(text: string, from: number, to: number): boolean {
  return /\n[ \t\r]*\n/.test(text.slice(from, to));
}
