/**
 * Where a caret stands: in which block, on which statement, behind which atoms. Works on half-typed text:
 * an unclosed block reaches to the next statement behind it, or to the end of what encloses it.
 */
import type { Fact } from "../facts/fact.js";
import { isComma, parted } from "../facts/listed.js";
import type { SourceFile } from "../model/source-file.js";
import type { Context } from "../schema/types.js";
import type { Atom, Block, Statement, SyntaxTree } from "../syntax/tree.js";
import type { TextRange } from "./text-range.js";

export interface Caret {
  readonly context: Context;
  /** Facts whose blocks enclose the caret, outermost first. */
  readonly enclosing: readonly Fact[];
  /** Other facts of the same block. */
  readonly siblings: readonly Fact[];
  /** The fact being typed, as far as it was understood. */
  readonly fact?: Fact;
  /** Atoms of the statement that end before the word being typed. */
  readonly before: readonly Atom[];
  /** What is being typed is put in the place of this range; empty where no word has begun. */
  readonly replace: TextRange;
  /** The word or number that the caret touches. */
  readonly word?: Atom;
}

/** @returns undefined where nothing can be completed: in comments, in text in quotes, in blocks of unknown meaning */
export function caretAt(file: SourceFile, offset: number): Caret | undefined {
  if (inComment(file.tree, file.text, offset)) return undefined;
  const level = levelAt(file, offset);
  if (!level) return undefined;
  const { context, enclosing, facts } = level;
  const statement = level.statements.findLast((one) => isOn(one, file.text, offset));
  const typed = statement && facts.find((fact) => fact.statement === statement);
  const atoms = parted(typed?.property, statement?.atoms ?? []);
  if (atoms.some((atom) => inString(atom, offset))) return undefined;
  const word = atoms.find(
    (atom) =>
      atom.start < offset &&
      offset <= atom.end &&
      atom.kind !== "slash" &&
      atom.kind !== "string" &&
      !(isComma(atom) && typed?.property.args.some(({ list }) => list)),
  );
  return {
    context,
    enclosing,
    siblings: facts.filter((fact) => fact !== typed),
    fact: typed,
    before: atoms.filter((atom) => atom.end <= offset && atom !== word),
    replace: word ? { start: word.start, end: word.end } : { start: offset, end: offset },
    word,
  };
}

interface Level {
  readonly context: Context;
  readonly enclosing: readonly Fact[];
  readonly statements: readonly Statement[];
  readonly facts: readonly Fact[];
}

function levelAt(file: SourceFile, offset: number): Level | undefined {
  let level: Level = { context: "file", enclosing: [], statements: file.tree.statements, facts: file.facts };
  let limit = file.text.length + 1;
  for (;;) {
    const { statements, facts } = level;
    const at = statements.findIndex((one, index) =>
      isInside(one.block, statements[index + 1], limit, file.text, offset),
    );
    if (at < 0) return level;
    const { block } = statements[at]!;
    const fact = facts.find((one) => one.statement === statements[at]);
    if (!block || !fact?.context) return undefined;
    limit = blockLimit(block, statements[at + 1], limit, file.text);
    level = {
      context: fact.context,
      enclosing: [...level.enclosing, fact],
      statements: block.statements,
      facts: fact.facts,
    };
  }
}

function isInside(
  block: Block | undefined,
  next: Statement | undefined,
  limit: number,
  text: string,
  offset: number,
): boolean {
  return block !== undefined && block.start < offset && offset < blockLimit(block, next, limit, text);
}

/** First offset that is no longer inside. A caret directly before the closing brace still is. */
function blockLimit(block: Block, next: Statement | undefined, limit: number, text: string): number {
  return isClosed(block, text) ? block.end : Math.min(limit, next?.start ?? limit);
}

/** A brace added by the lexer has no text of its own: the block then ends where its last statement does. */
function isClosed(block: Block, text: string): boolean {
  return text[block.end - 1] === "}" && block.end > (block.statements.at(-1)?.end ?? 0);
}

/** Whether the caret continues this statement: behind its first letter, before its block, on its line. */
function isOn(statement: Statement, text: string, offset: number): boolean {
  if (offset <= statement.start || (statement.block && offset > statement.block.start)) return false;
  const last = statement.atoms.at(-1)!;
  return offset <= last.end || !/[\n;]/.test(text.slice(last.end, offset));
}

function inComment(tree: SyntaxTree, text: string, offset: number): boolean {
  const comment = tree.comments.findLast((one) => one.start < offset);
  if (!comment) return false;
  if (comment.text.startsWith("/*")) return offset < comment.end;
  return offset <= comment.end || !text.slice(comment.end, offset).includes("\n");
}

function inString(atom: Atom, offset: number): boolean {
  if (atom.kind !== "string" || offset <= atom.start) return false;
  const closed = atom.text.length > 1 && atom.text.endsWith('"');
  return closed ? offset < atom.end : offset <= atom.end;
}
