/**
 * Reads statements against the property table. Whatever is wrong with one argument costs that argument
 * alone: the fact stays, the rest of it is read, and so is the rest of the file.
 */

import { overlap, spanOf } from "../../shared/design/state.js";
import { alternatives, blockContext, END, findProperty } from "../schema/index.js";
import { INHERITING_KINDS } from "../schema/kinds.js";
import type { ArgSpec, Context, Property } from "../schema/types.js";
import { type Atom, head, type Statement } from "../syntax/tree.js";
import { doubledFact, gluedSlash, OPEN, problem, unexpected, unfinished, unknownWord } from "./complaints.js";
import { withDates } from "./date.js";
import type { Argument, Fact, TextProblem } from "./fact.js";
import { parted, readList } from "./listed.js";
import { hasSpoiltState, stateOf } from "./states.js";
import { article, describe, fits, readValue } from "./value.js";

export interface ReadFacts {
  readonly facts: readonly Fact[];
  readonly problems: readonly TextProblem[];
}

export function readFacts(statements: readonly Statement[], context: Context): ReadFacts {
  const problems: TextProblem[] = [];
  const facts = readBlock(statements, context, problems);
  return { facts, problems };
}

function readBlock(statements: readonly Statement[], context: Context, problems: TextProblem[]): Fact[] {
  const facts: Fact[] = [];
  const seen = new Map<Property, Fact[]>();
  for (const statement of statements) {
    const fact = readStatement(statement, context, problems);
    if (!fact) continue;
    facts.push(fact);
    if (fact.property.repeatable || context === "file" || isNamed(fact.property)) continue;
    // Which times it is meant for is not known.
    if (hasSpoiltState(fact)) continue;
    const others = seen.get(fact.property);
    const other = others?.find((one) => overlap(spanOf(stateOf(one)), spanOf(stateOf(fact))));
    if (other) problems.push(doubledFact(fact, other));
    else if (others) others.push(fact);
    else seen.set(fact.property, [fact]);
  }
  return facts;
}

/** Declarations are told apart by their names; two of one name are the index's concern. */
function isNamed(property: Property): boolean {
  return property.args.some((arg) => alternatives(arg)[0]?.type === "name");
}

function readStatement(statement: Statement, context: Context, problems: TextProblem[]): Fact | undefined {
  const template = context === "file" && head(statement).text === "template" && statement.atoms.length > 1;
  const atoms = template ? statement.atoms.slice(1) : statement.atoms;
  const word = atoms[0]!;
  const property =
    findProperty(context, word.text) ?? (context === "hop" && statement.block ? END : undefined);
  if (!property) {
    problems.push(unknownWord(word, context));
    return undefined;
  }
  if (template && !INHERITING_KINDS.has(property.name)) {
    problems.push(
      problem(
        "misplaced",
        word,
        `there are no templates of ${article(property.name)}; only of ${[...INHERITING_KINDS].join(", ")}`,
      ),
    );
  }
  const dated = atoms.some(({ kind }) => kind === "slash") && takesDate(property) ? withDates(atoms) : atoms;
  const read = parted(property, dated);
  const args = readArguments(property, read, property === END ? 0 : 1, problems);
  const first = args[0]?.value;
  const inner = blockContext(property, first?.type === "word" ? first.word : undefined);
  if (statement.block && !inner) {
    const at = statement.block.start;
    problems.push({
      rule: "misplaced",
      severity: "error",
      start: at,
      end: at + 1,
      message: `${property.name} has no block`,
      help: `write it on one line, for example: ${property.example}`,
    });
  }
  const facts = statement.block && inner ? readBlock(statement.block.statements, inner, problems) : [];
  return { property, statement, args, facts, context: inner, template: template || undefined };
}

function takesDate({ args }: Property): boolean {
  return args.some((arg) => alternatives(arg).some(({ type }) => type === "date"));
}

function readArguments(
  property: Property,
  atoms: readonly Atom[],
  from: number,
  problems: TextProblem[],
): Argument[] {
  const args: Argument[] = [];
  const taken = new Set<ArgSpec>();
  const labels = labelsOf(property);
  const glued = gluedSlash(property, atoms, from);
  if (glued) {
    problems.push(glued);
    return args;
  }
  let at = from;
  while (at < atoms.length) {
    const atom = atoms[at]!;
    if (atom.kind === "slash") {
      at++;
      continue;
    }
    const labelled = findLabelled(property, atoms, at, taken);
    const spec = labelled?.spec ?? nextPositional(property, atom, taken);
    if (!spec) {
      problems.push(unexpected(property, atoms, at, taken));
      return withMissing(property, args, taken, atoms, problems, true);
    }
    taken.add(spec);
    at = labelled?.next ?? at;
    if (at >= atoms.length || atoms[at]!.kind === "slash") {
      problems.push(
        problem(
          "missing-value",
          atoms[at - 1]!,
          `${spec.label} needs ${describe(alternatives(spec)[0]!)} behind it`,
        ),
      );
      continue;
    }
    if (spec.list) {
      const isLabel = (behind: number) => findLabelled(property, atoms, behind, taken) !== undefined;
      at = readList({ property, spec }, atoms, at, isLabel, { args, problems });
      continue;
    }
    if (atoms[at]!.text === OPEN) {
      const { start, end } = atoms[at]!;
      problems.push(unfinished(property, spec, start, end));
      args.push({ spec, open: true, start, end });
      at++;
      continue;
    }
    const choice = alternatives(spec).find((value) => fits(value, atoms[at]!)) ?? alternatives(spec)[0]!;
    if (!fits(choice, atoms[at]!)) {
      problems.push(
        problem(
          "unexpected-value",
          atoms[at]!,
          `${spec.name} is ${alternatives(spec).map(describe).join(", or ")}, not ${atoms[at]!.text}`,
        ),
      );
      args.push({ spec, start: atoms[at]!.start, end: atoms[at]!.end });
      at++;
      continue;
    }
    const reading = readValue(choice, atoms, at, labels);
    if (reading.problem) problems.push(reading.problem);
    const next = Math.min(Math.max(reading.next, at + 1), atoms.length);
    args.push({ spec, value: reading.value, start: atoms[at]!.start, end: atoms[next - 1]!.end });
    at = next;
  }
  return withMissing(property, args, taken, atoms, problems, false);
}

/** The words that announce arguments, by row of the table: read for every statement, so split once. */
const LABELS = new WeakMap<Property, ReadonlySet<string>>();

function labelsOf(property: Property): ReadonlySet<string> {
  let labels = LABELS.get(property);
  if (labels === undefined) {
    labels = new Set(property.args.flatMap(({ label }) => label?.split(" ")[0] ?? []));
    LABELS.set(property, labels);
  }
  return labels;
}

function findLabelled(
  property: Property,
  atoms: readonly Atom[],
  at: number,
  taken: ReadonlySet<ArgSpec>,
): { spec: ArgSpec; next: number } | undefined {
  for (const spec of property.args) {
    if (spec.label === undefined || taken.has(spec)) continue;
    // Nearly all labels are one word, and nearly all atoms none of them.
    if (atoms[at]!.kind !== "word" || !spec.label.startsWith(atoms[at]!.text)) continue;
    const words = spec.label.split(" ");
    if (words.every((word, i) => atoms[at + i]?.kind === "word" && atoms[at + i]!.text === word)) {
      return { spec, next: at + words.length };
    }
  }
  return undefined;
}

/** The next argument found by its place. Optional ones are passed over when the atom cannot be them. */
function nextPositional(property: Property, atom: Atom, taken: ReadonlySet<ArgSpec>): ArgSpec | undefined {
  for (const spec of property.args) {
    if (spec.label !== undefined || taken.has(spec)) continue;
    if (!spec.optional || atom.text === OPEN || alternatives(spec).some((value) => fits(value, atom)))
      return spec;
  }
  return undefined;
}

function withMissing(
  property: Property,
  args: Argument[],
  taken: ReadonlySet<ArgSpec>,
  atoms: readonly Atom[],
  problems: TextProblem[],
  quiet: boolean,
): Argument[] {
  if (quiet) return args;
  for (const spec of property.args) {
    if (spec.optional || taken.has(spec)) continue;
    const before = spec.label ? `${spec.label} ` : "";
    problems.push({
      rule: "missing-value",
      severity: "error",
      start: atoms[0]!.start,
      end: atoms.at(-1)!.end,
      message: `${property.name} lacks ${before ? `"${before.trim()}" and ` : ""}${describe(alternatives(spec)[0]!)}: ${spec.meaning.replace(/\.$/, "").toLowerCase()}`,
      help: `for example: ${property.example}`,
    });
    break;
  }
  return args;
}
