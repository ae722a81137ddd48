/** Every fact of a file, and the argument that a caret touches. */
import type { Argument, Fact } from "../facts/fact.js";
import { parted } from "../facts/listed.js";
import type { SourceFile } from "../model/source-file.js";
import { END } from "../schema/index.js";
import { type Atom, head } from "../syntax/tree.js";
import { type TextRange, touches } from "./text-range.js";

/** @param path facts whose blocks enclose it, outermost first */
export type Visit = (fact: Fact, path: readonly Fact[]) => void;

/** In the order of the text, outer facts before those in their blocks. */
export function walkFacts(facts: readonly Fact[], visit: Visit, path: readonly Fact[] = []): void {
  for (const fact of facts) {
    visit(fact, path);
    if (fact.facts.length > 0) walkFacts(fact.facts, visit, [...path, fact]);
  }
}

export interface FactAt {
  readonly fact: Fact;
  readonly path: readonly Fact[];
  /** The argument's value or its label; undefined on the fact's own word. */
  readonly arg?: Argument;
  /** What is touched: the argument, or the word. */
  readonly range: TextRange;
}

/** The innermost fact whose word or argument touches the offset. */
export function factAt(file: SourceFile, offset: number): FactAt | undefined {
  let facts = file.facts;
  const path: Fact[] = [];
  for (;;) {
    const fact = facts.findLast(({ statement }) => touches(statement, offset));
    if (!fact) return undefined;
    if (fact.statement.block && offset > fact.statement.block.start) {
      path.push(fact);
      facts = fact.facts;
      continue;
    }
    return onStatement(fact, path, offset);
  }
}

function onStatement(fact: Fact, path: readonly Fact[], offset: number): FactAt | undefined {
  const arg = fact.args.find((one) => touches(one, offset));
  if (arg) return { fact, path, arg, range: { start: arg.start, end: arg.end } };
  const atom = parted(fact.property, fact.statement.atoms).find((one) => touches(one, offset));
  if (!atom) return undefined;
  const range = { start: atom.start, end: atom.end };
  if (atom === wordAtom(fact)) return { fact, path, range };
  const labelled = fact.args.find((one) => labelAtoms(fact, one).includes(atom));
  return labelled ? { fact, path, arg: labelled, range } : undefined;
}

/** The word that says what the fact is; the one behind `template`. An end's is its site's name. */
export function wordAtom(fact: Fact): Atom {
  return fact.template ? fact.statement.atoms[1]! : head(fact.statement);
}

/** The words that announce an argument, `at k` for example. */
export function labelAtoms(fact: Fact, arg: Argument): readonly Atom[] {
  if (arg.spec.label === undefined || fact.property === END) return [];
  const count = arg.spec.label.split(" ").length;
  const at = fact.statement.atoms.findIndex((atom) => atom.start >= arg.start);
  return fact.statement.atoms.slice(Math.max(0, at - count), Math.max(0, at));
}
