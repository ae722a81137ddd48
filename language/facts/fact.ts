/** A statement read against its row of the property table. */
import type { Position } from "../../shared/design/design.js";
import type { WrittenSystem } from "../../shared/terrain/written-projected.js";
import type { Dimension } from "../../shared/units/units.js";
import type { NamedKind } from "../schema/kinds.js";
import type { ArgSpec, Context, Property } from "../schema/types.js";
import type { Statement } from "../syntax/tree.js";

export type Value =
  /** `base` is in the base unit of the dimension. */
  | { readonly type: "quantity"; readonly base: number; readonly dimension: Dimension; readonly unit: string }
  | { readonly type: "number"; readonly number: number }
  | { readonly type: "word" | "free" | "name" | "rule"; readonly word: string }
  | { readonly type: "text" | "path"; readonly text: string }
  /** `orKind`: it may name one of these instead. */
  | {
      readonly type: "reference";
      readonly kind: NamedKind;
      readonly name: string;
      readonly orKind?: NamedKind;
    }
  | { readonly type: "date"; readonly date: string }
  /** `system`: the projected one that it was written in. */
  | { readonly type: "position"; readonly position: Position; readonly system?: WrittenSystem };

/** One argument found. `value` is missing when it is there but wrong (a problem says how). */
export interface Argument {
  readonly spec: ArgSpec;
  readonly value?: Value;
  /** `?` stands in its place: it is still to be decided. */
  readonly open?: true;
  /** Range of the value, its label not included. */
  readonly start: number;
  readonly end: number;
}

export interface Fact {
  readonly property: Property;
  readonly statement: Statement;
  readonly args: readonly Argument[];
  /** Statements of its block, read in `context`. */
  readonly facts: readonly Fact[];
  readonly context?: Context;
  readonly template?: boolean;
}

export type TextRule =
  | "syntax"
  | "unknown-word"
  | "misplaced"
  | "missing-value"
  | "unfinished"
  | "unexpected-value"
  | "unit-missing"
  | "wrong-dimension"
  | "value-range"
  | "unknown-choice"
  | "doubled-fact"
  | "doubled-name"
  | "unknown-name"
  | "deceiving-name"
  | "wrong-kind"
  | "ambiguous-name"
  | "template-used"
  | "inheritance-loop"
  | "inheritance-deep"
  | "unknown-mode"
  | "unknown-channel"
  | "hop-ends"
  | "demand-ends"
  | "demand-figures"
  | "state-contradiction"
  | "state-overdue"
  | "days-not-judged"
  | "many-networks"
  | "network-share"
  | "file-unreadable"
  | "internal-fault";

/** A change of text that mends a problem. It says in its title what it writes. */
export interface TextFix {
  readonly title: string;
  readonly start: number;
  readonly end: number;
  readonly newText: string;
  /** There is no other reading, and what was decided stays: it may be applied unseen. */
  readonly certain?: true;
}

/** A finding about the text itself. */
export interface TextProblem {
  readonly rule: TextRule;
  readonly severity: "error" | "warning" | "info";
  readonly start: number;
  readonly end: number;
  readonly message: string;
  readonly help?: string;
  readonly fixes?: readonly TextFix[];
  /** Another place that explains it, for example the first of two equal names. */
  readonly related?: readonly {
    readonly file: string;
    readonly start: number;
    readonly end: number;
    readonly message: string;
  }[];
}

export function argument(fact: Fact | undefined, name: string): Argument | undefined {
  return fact?.args.find((arg) => arg.spec.name === name);
}

function argumentValue(fact: Fact | undefined, name: string): Value | undefined {
  return argument(fact, name)?.value;
}

/** Value of a quantity in its dimension's base unit. */
export function quantityOf(fact: Fact | undefined, name: string): number | undefined {
  const value = argumentValue(fact, name);
  return value?.type === "quantity" ? value.base : undefined;
}

export function numberOf(fact: Fact | undefined, name: string): number | undefined {
  const value = argumentValue(fact, name);
  return value?.type === "number" ? value.number : undefined;
}

/** Word, name, reference, text, path or date, as plain text. */
export function wordOf(fact: Fact | undefined, name: string): string | undefined {
  const value = argumentValue(fact, name);
  switch (value?.type) {
    case "word":
    case "free":
    case "name":
    case "rule":
      return value.word;
    case "reference":
      return value.name;
    case "text":
    case "path":
      return value.text;
    case "date":
      return value.date;
    default:
      return undefined;
  }
}

export function factNamed(facts: readonly Fact[], name: string): Fact | undefined {
  return facts.find((fact) => fact.property.name === name);
}

export function factsNamed(facts: readonly Fact[], name: string): readonly Fact[] {
  return facts.filter((fact) => fact.property.name === name);
}
