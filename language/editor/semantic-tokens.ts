/** Colours by meaning: which word is a property, which a name and of what, which a unit. */
import type { Argument, Fact } from "../facts/fact.js";
import { parted } from "../facts/listed.js";
import type { SourceFile } from "../model/source-file.js";
import type { Atom, Comment, Statement } from "../syntax/tree.js";
import { KINDS_SHOWN } from "./kinds-shown.js";
import { type IsDeclared, nameOf } from "./occurrences.js";
import type { TextRange } from "./text-range.js";
import type { TokenType } from "./token-types.js";
import { labelAtoms, wordAtom } from "./walk.js";

export const TOKEN_MODIFIERS = ["declaration"] as const;
type TokenModifier = (typeof TOKEN_MODIFIERS)[number];

export interface SemanticToken {
  readonly start: number;
  /** Never beyond the end of the line. */
  readonly length: number;
  readonly type: TokenType;
  readonly modifiers: readonly TokenModifier[];
}

/**
 * In the order of the text, without overlaps.
 * @param range only tokens that touch it
 * @param isDeclared tells what a name is that may be a site or a hop
 */
export function semanticTokens(
  file: SourceFile,
  range?: TextRange,
  isDeclared: IsDeclared = () => false,
): readonly SemanticToken[] {
  const tokens: SemanticToken[] = [];
  for (const comment of file.tree.comments)
    if (within(comment, range)) tokens.push(...commentTokens(comment));
  statementTokens(file.tree.statements, file.facts, { isDeclared, range }, tokens);
  return tokens.sort((a, b) => a.start - b.start);
}

function statementTokens(
  statements: readonly Statement[],
  facts: readonly Fact[],
  looked: { readonly isDeclared: IsDeclared; readonly range?: TextRange },
  into: SemanticToken[],
): void {
  const factOf = new Map(facts.map((fact) => [fact.statement, fact]));
  for (const statement of statements) {
    if (!within(statement, looked.range)) continue;
    const fact = factOf.get(statement);
    for (const atom of parted(fact?.property, statement.atoms)) {
      const type = (fact && meaning(fact, atom, looked.isDeclared)) ?? plain(atom);
      if (type) into.push({ start: atom.start, length: atom.end - atom.start, modifiers: [], ...type });
    }
    if (statement.block) statementTokens(statement.block.statements, fact?.facts ?? [], looked, into);
  }
}

type Meaning = { readonly type: TokenType; readonly modifiers?: readonly TokenModifier[] };

function meaning(fact: Fact, atom: Atom, isDeclared: IsDeclared): Meaning | undefined {
  const arg = fact.args.find((one) => one.start <= atom.start && atom.end <= one.end);
  if (arg) return valueMeaning(fact, arg, atom, isDeclared);
  if (fact.template && atom === fact.statement.atoms[0]) return { type: "keyword" };
  if (atom === wordAtom(fact)) return { type: fact.property.block ? "keyword" : "property" };
  return fact.args.some((one) => labelAtoms(fact, one).includes(atom)) ? { type: "keyword" } : undefined;
}

function valueMeaning(fact: Fact, arg: Argument, atom: Atom, isDeclared: IsDeclared): Meaning | undefined {
  const name = nameOf(fact, arg, isDeclared);
  if (name)
    return {
      type: KINDS_SHOWN[name.kind].token,
      modifiers: arg.value?.type === "name" ? ["declaration"] : [],
    };
  switch (arg.value?.type) {
    case "quantity":
      return { type: atom.kind === "number" || atom.start === arg.start ? "number" : "type" };
    case "word":
    case "free":
      return { type: "enumMember" };
    case "rule":
      return { type: "event" };
    case "position":
      return { type: "number" };
    default:
      return undefined;
  }
}

/** What an atom is by its looks alone, for statements and arguments that were not understood. */
function plain(atom: Atom): Meaning | undefined {
  switch (atom.kind) {
    case "string":
      return { type: "string" };
    case "number":
    case "angle":
    case "date":
      return { type: "number" };
    case "slash":
      return { type: "operator" };
    default:
      return undefined;
  }
}

/** Not every editor takes a token of several lines. */
function commentTokens({ text, start }: Comment): SemanticToken[] {
  let at = start;
  return text.split("\n").flatMap((line) => {
    const token = { start: at, length: line.trimEnd().length, type: "comment" as const, modifiers: [] };
    at += line.length + 1;
    return token.length > 0 ? [token] : [];
  });
}

function within(part: TextRange, range: TextRange | undefined): boolean {
  return !range || (part.start < range.end && range.start < part.end);
}
