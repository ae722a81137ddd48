/** One `.hop` file, read: its facts and what is wrong with the text taken by itself. */
import type { Fact, TextProblem } from "../facts/fact.js";
import { readFacts } from "../facts/read.js";
import { hasStates } from "../facts/states.js";
import { alternatives } from "../schema/index.js";
import { isNamedKind, type NamedKind } from "../schema/kinds.js";
import { withLineFeeds } from "../syntax/line-ends.js";
import { parse } from "../syntax/parse.js";
import { head, type Statement, type SyntaxTree } from "../syntax/tree.js";
import { resolvePath } from "./path.js";

export interface SourceFile {
  /** Absolute path, or whatever names the file for its host; `/` parts folders. */
  readonly path: string;
  readonly text: string;
  readonly tree: SyntaxTree;
  readonly facts: readonly Fact[];
  readonly problems: readonly TextProblem[];
  readonly declarations: readonly Declaration[];
  readonly references: readonly Reference[];
}

/**
 * Something that other facts depend on by name. Beside the named kinds these are the parts of the
 * network that hold for every hop: `climate`, `bridge-gaps`, `defaults hop`, `defaults end`, `defaults site`, `defaults demand`, `traffic`.
 */
export interface Declaration {
  /** `site KELD`, `climate`, `defaults hop`: what dependants look it up by. */
  readonly key: string;
  readonly kind:
    | NamedKind
    | "network"
    | "climate"
    | "defaults"
    | "terrain"
    | "catalogue"
    | "maps"
    | "bridge-gaps"
    | "interference"
    | "others"
    | "licence"
    | "licences"
    | "sheets"
    | "traffic"
    | "policy";
  readonly name: string;
  readonly fact: Fact;
  readonly file: string;
  /** The words of the declaration: equal content means nothing changed. */
  readonly content: string;
  readonly template: boolean;
  /** Whether it, or anything in it, is built, planned or removed at a time of its own. */
  readonly states: boolean;
}

/** A name used in an argument. */
export interface Reference {
  readonly kind: NamedKind;
  /** It may name one of these instead. */
  readonly orKind?: NamedKind;
  /** Words that may stand in its place. */
  readonly words: readonly string[];
  readonly name: string;
  readonly start: number;
  readonly end: number;
  /** True for `like`, which alone may name a template. */
  readonly inherits: boolean;
  /** In a licence, which may name what is no more. */
  readonly granted: boolean;
}

export function readSource(path: string, written: string): SourceFile {
  const text = withLineFeeds(written);
  const tree = parse(text);
  const { facts, problems } = readFacts(tree.statements, "file");
  const declarations: Declaration[] = [];
  const references: Reference[] = [];
  const shares: TextProblem[] = [];
  for (const fact of facts) {
    collectDeclarations(fact, path, text, declarations);
    collectReferences(fact, references);
    collectShares(fact, path, shares);
  }
  const syntax: TextProblem[] = tree.problems.map((problem) => ({
    rule: "syntax",
    severity: "error",
    ...problem,
  }));
  return { path, text, tree, facts, problems: [...syntax, ...problems, ...shares], declarations, references };
}

export function declaredName(fact: Fact): string | undefined {
  const arg = fact.args.find(({ spec }) => alternatives(spec)[0]?.type === "name");
  return arg?.value?.type === "name" ? arg.value.word : undefined;
}

function collectDeclarations(fact: Fact, file: string, text: string, into: Declaration[]): void {
  const word = fact.property.name;
  const content = (statement: Statement) => text.slice(statement.start, statement.end);
  const add = (kind: Declaration["kind"], name: string) => {
    const key = name ? `${kind} ${name}` : kind;
    into.push({
      key,
      kind,
      name,
      fact,
      file,
      content: content(fact.statement),
      template: fact.template ?? false,
      states: hasStates(fact),
    });
  };
  if (word === "network") {
    add("network", "");
    for (const inner of fact.facts) collectDeclarations(inner, file, text, into);
  } else if (
    word === "climate" ||
    word === "terrain" ||
    word === "catalogue" ||
    word === "maps" ||
    word === "bridge-gaps" ||
    word === "interference" ||
    word === "others" ||
    word === "licence" ||
    word === "licences" ||
    word === "sheets" ||
    word === "traffic"
  ) {
    add(word, "");
  } else if (word === "severity" || word === "required") {
    add("policy", "");
  } else if (word === "defaults") {
    const of = fact.args[0]?.value;
    if (of?.type === "word") add("defaults", of.word);
  } else if (isNamedKind(word)) {
    const name = declaredName(fact);
    if (name !== undefined) add(word, name);
  }
}

function collectReferences(fact: Fact, into: Reference[], inLicence = false): void {
  const granted = inLicence || fact.property.block === "licence";
  for (const { spec, value, start, end } of fact.args) {
    if (value?.type !== "reference") continue;
    const { kind, orKind, name } = value;
    const words = alternatives(spec).flatMap((one) =>
      one.type === "reference" && one.words ? Object.keys(one.words) : [],
    );
    into.push({ kind, orKind, words, name, start, end, inherits: spec.label === "like", granted });
  }
  for (const inner of fact.facts) collectReferences(inner, into, granted);
}

/** What the text names on a share of a network that the file itself does not lie on. */
function collectShares(fact: Fact, path: string, into: TextProblem[]): void {
  for (const { value, start, end } of fact.args) {
    if (value?.type !== "path" || resolvePath(path, value.text) !== undefined) continue;
    into.push({
      rule: "network-share",
      severity: "error",
      start,
      end,
      message: `${value.text} lies on another machine of the network; nothing is read there`,
      help: "copy it to where the design lies, or connect the share as a drive and name that",
    });
  }
  for (const inner of fact.facts) collectShares(inner, path, into);
}

/** Range of the declared name, or of the statement's word while there is no name. */
export function nameRange(entry: Declaration): { readonly start: number; readonly end: number } {
  // A licence has a number.
  const name = entry.fact.args.find(({ spec }) => spec.name === "name" || spec.name === "number");
  return name ?? head(entry.fact.statement);
}
