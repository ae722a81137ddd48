/** What may follow at a caret inside a statement: a value, the unit of a number, a label. */
import type { Argument, Fact } from "../facts/fact.js";
import { isComma } from "../facts/listed.js";
import { readFacts } from "../facts/read.js";
import { alternatives, findProperty } from "../schema/index.js";
import { INHERITING_KINDS } from "../schema/kinds.js";
import type { ArgSpec, Property } from "../schema/types.js";
import type { Atom } from "../syntax/tree.js";
import type { Caret } from "./caret.js";
import type { TextRange } from "./text-range.js";

export interface Expected {
  readonly property: Property;
  /** The statement as far as it was read before the caret. */
  readonly fact: Fact;
  /** Arguments whose value may stand here. */
  readonly values: readonly ArgSpec[];
  /** Arguments that a label may begin here, with those words of it that are still to be written. */
  readonly labels: readonly { readonly spec: ArgSpec; readonly words: string }[];
  /** Set when a number stands before the caret: only its unit can follow. */
  readonly unitOf?: ArgSpec;
  /** A phrase begun before the caret (`1+1` of `1+1 hot-standby`) and where it starts. */
  readonly phrase?: { readonly spec: ArgSpec; readonly written: string; readonly range: TextRange };
  /** Whether the slash before the next value has been written. */
  readonly slash: boolean;
}

/** @returns undefined where nothing is expected: behind an unknown word, behind something unreadable */
export function expectedAt(caret: Caret): Expected | undefined {
  const { context, before } = caret;
  const template = context === "file" && before.length > 1 && before[0]!.text === "template";
  const atoms = template ? before.slice(1) : before;
  const word = atoms[0];
  const property = word && findProperty(context, word.text);
  if (!word || !property || (template && !INHERITING_KINDS.has(property.name))) return undefined;
  const [fact] = readFacts([{ atoms, start: word.start, end: atoms.at(-1)!.end }], context).facts;
  if (!fact) return undefined;
  const last = fact.args.at(-1);
  const base = { property, fact, slash: atoms.at(-1)!.kind === "slash", values: [], labels: [] };
  const free = freeArgs(caret, property, fact);
  // Behind a comma the next name of a list is written.
  const listed = last?.spec ?? free.find((spec) => spec.list && isLabelled(spec, atoms));
  if (isComma(atoms.at(-1)!) && listed?.list) return { ...base, values: [listed] };
  const unread = atoms.filter(
    (atom) => atom.kind !== "slash" && atom !== word && atom.start >= (last?.end ?? word.end),
  );
  if (unread.length > 0) return behindLabel(base, free, unread);
  if (last && lacksUnit(last, atoms)) return { ...base, unitOf: last.spec };
  const phrase = last && phraseOf(last, atoms, caret.replace);
  const values = nextValues(free);
  const awaited = values.some((spec) => !spec.optional);
  const labels =
    awaited || base.slash
      ? []
      : free.flatMap((spec) => (spec.label === undefined ? [] : [{ spec, words: spec.label }]));
  return { ...base, values, labels, phrase };
}

function isLabelled({ label }: ArgSpec, atoms: readonly Atom[]): boolean {
  return atoms.some(({ text }) => text === label);
}

/** Arguments not given yet, neither before the caret nor with a label behind it. */
function freeArgs(caret: Caret, property: Property, fact: Fact): readonly ArgSpec[] {
  const given = new Set(fact.args.map(({ spec }) => spec));
  for (const { spec, start } of caret.fact?.args ?? []) {
    if (spec.label !== undefined && start > caret.replace.end) given.add(spec);
  }
  return property.args.filter((spec) => !given.has(spec));
}

/** Words without a meaning yet are a label, whole or begun; otherwise they are wrong and nothing follows. */
function behindLabel(
  base: Expected,
  free: readonly ArgSpec[],
  unread: readonly Atom[],
): Expected | undefined {
  const written = unread.map((atom) => atom.text).join(" ");
  const whole = free.find((spec) => spec.label === written);
  if (whole) return { ...base, values: [whole] };
  const begun = free.filter((spec) => spec.label?.startsWith(`${written} `));
  if (begun.length === 0) return undefined;
  return { ...base, labels: begun.map((spec) => ({ spec, words: spec.label!.slice(written.length + 1) })) };
}

/** The next argument by place, and optional ones up to it. */
function nextValues(free: readonly ArgSpec[]): readonly ArgSpec[] {
  const values: ArgSpec[] = [];
  for (const spec of free) {
    if (spec.label !== undefined) continue;
    values.push(spec);
    if (!spec.optional) break;
  }
  return values;
}

function lacksUnit({ spec, value }: Argument, atoms: readonly Atom[]): boolean {
  if (value !== undefined || atoms.at(-1)!.kind !== "number") return false;
  return alternatives(spec).some((one) => one.type === "quantity");
}

function phraseOf({ spec, start }: Argument, atoms: readonly Atom[], replace: TextRange): Expected["phrase"] {
  const written = atoms
    .filter((atom) => atom.start >= start)
    .map((atom) => atom.text)
    .join(" ");
  const longer = alternatives(spec).some(
    (one) => one.type === "word" && Object.keys(one.words).some((word) => word.startsWith(`${written} `)),
  );
  return longer ? { spec, written, range: { start, end: replace.end } } : undefined;
}
