/**
 * The syntax tree that everything behind the parser works on: statements of atoms with their offsets,
 * and nothing of the parser's own (no concrete syntax nodes, no back links), so that a tree of 10,000
 * hops is small, may outlive the parse, and can be passed to another thread.
 */

export type AtomKind = "word" | "string" | "number" | "angle" | "date" | "slash";

/** One piece of a statement. Offsets count UTF-16 units from the start of the file; `end` is behind it. */
export interface Atom {
  readonly kind: AtomKind;
  /** As written, quotes included. */
  readonly text: string;
  readonly start: number;
  readonly end: number;
}

export interface Statement {
  readonly atoms: readonly Atom[];
  readonly block?: Block;
  readonly start: number;
  readonly end: number;
}

export interface Block {
  readonly statements: readonly Statement[];
  /** Offset of `{`. */
  readonly start: number;
  /** Offset behind `}`. */
  readonly end: number;
}

export interface Comment {
  readonly text: string;
  readonly start: number;
  readonly end: number;
}

/** Something wrong with the shape of the text. */
export interface SyntaxProblem {
  readonly start: number;
  readonly end: number;
  readonly message: string;
  readonly help?: string;
}

export interface SyntaxTree {
  readonly statements: readonly Statement[];
  readonly comments: readonly Comment[];
  readonly problems: readonly SyntaxProblem[];
}

/** The word a statement is recognised by. */
export function head(statement: Statement): Atom {
  return statement.atoms[0]!;
}

/** Text of a string atom without its quotes and escapes. */
export function unquote(text: string): string {
  // A quotation mark behind an even number of strokes ends it: two strokes are one.
  const closed = text.length > 1 && /(?<!\\)(?:\\\\)*"$/.test(text);
  return text.slice(1, closed ? -1 : undefined).replace(/\\(.)/g, "$1");
}

export function quote(text: string): string {
  return `"${text.replace(/["\\]/g, "\\$&")}"`;
}
