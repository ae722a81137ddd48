/** Checks the names of a file against the design: unknown ones, of the wrong kind, declared twice, templates. */

import { oddLetter, skeleton } from "../../shared/format/look-alikes.js";
import { NearNames, nearest } from "../../shared/format/nearest.js";
import type { TextProblem } from "../facts/fact.js";
import { article } from "../facts/value.js";
import { type Declaration, nameRange, type Reference, type SourceFile } from "../model/source-file.js";
import { NAMED_KINDS } from "../schema/kinds.js";

/** What checking needs to know of the design. */
export interface NameIndex {
  declarations(key: string): readonly Declaration[];
  names(kind: string): readonly string[];
}

export function checkNames(file: SourceFile, index: NameIndex): readonly TextProblem[] {
  return [
    ...file.declarations.flatMap((entry) => doubledName(entry, index) ?? deceivingName(entry) ?? []),
    ...file.references.flatMap((reference) => checkReference(reference, index) ?? []),
  ];
}

/** Kinds of which a design has one at most, beside the named ones. */
const SINGLE: ReadonlySet<string> = new Set(["network", "climate", "interference", "licences", "traffic"]);

/** Kinds without a name that may be stated in several lines, which all count. */
const SEVERAL: ReadonlySet<string> = new Set([
  "terrain",
  "catalogue",
  "maps",
  "policy",
  "others",
  "licence",
  "sheets",
]);

function doubledName(entry: Declaration, index: NameIndex): TextProblem | undefined {
  if (SEVERAL.has(entry.kind)) return undefined;
  const first = index.declarations(entry.key)[0];
  if (!first || first === entry) return undefined;
  const single = SINGLE.has(entry.kind);
  return {
    rule: entry.kind === "network" ? "many-networks" : "doubled-name",
    severity: "error",
    ...nameRange(entry),
    message: single
      ? `a design has one ${entry.kind}; this one does not count`
      : `${entry.key} is declared twice; this one does not count`,
    help: single ? `merge it with the first ${entry.kind}` : "give one of them another name",
    related: [{ file: first.file, ...nameRange(first), message: `the first ${entry.key} stands here` }],
  };
}

function deceivingName(entry: Declaration): TextProblem | undefined {
  const odd = oddLetter(entry.name);
  if (odd === undefined) return undefined;
  const range = nameRange(entry);
  const plain = skeleton(entry.name);
  return {
    rule: "deceiving-name",
    severity: "warning",
    ...range,
    message: `${entry.key} is not what it looks like: ${odd}`,
    help: "write the name anew",
    fixes: [{ title: `Write ${plain} in letters of one script`, ...range, newText: plain }],
  };
}

function checkReference(reference: Reference, index: NameIndex): TextProblem | undefined {
  const { kind, orKind, name, start, end, inherits, granted } = reference;
  const target = index.declarations(`${kind} ${name}`)[0];
  const other = orKind && index.declarations(`${orKind} ${name}`)[0];
  if (target && other) return ambiguous(reference, target, other);
  if (other) return undefined;
  if (target) {
    if (!target.template || inherits) return undefined;
    return {
      rule: "template-used",
      severity: "error",
      start,
      end,
      message: `${name} is a template: it can be inherited, not installed`,
      help: `name ${article(kind)} made \`like ${name}\``,
    };
  }
  const others = NAMED_KINDS.filter((other) => index.declarations(`${other} ${name}`).length > 0);
  if (others.length > 0) {
    return {
      rule: "wrong-kind",
      severity: "error",
      start,
      end,
      message: `${name} is ${article(others[0]!)}, but ${article(kind)}${orKind ? ` or ${article(orKind)}` : ""} is wanted here`,
    };
  }
  // What a licence names that is no more is told by the rule of licences.
  return granted ? undefined : unknownName(reference, index);
}

function ambiguous(
  { kind, orKind, name, start, end }: Reference,
  ...declared: readonly Declaration[]
): TextProblem {
  return {
    rule: "ambiguous-name",
    severity: "error",
    start,
    end,
    message: `${name} is ${article(kind)} and ${article(orKind!)}: which of the two is meant cannot be told, and it does not count`,
    help: "rename one of the two, or name a place beside it",
    related: declared.map((entry) => ({
      file: entry.file,
      ...nameRange(entry),
      message: `the ${entry.kind}`,
    })),
  };
}

function unknownName({ kind, orKind, words, name, start, end }: Reference, index: NameIndex): TextProblem {
  const kinds = orKind === undefined ? [kind] : [kind, orKind];
  const lists = kinds.map((one) => index.names(one));
  const near = nearest(name, [
    ...lists.flatMap((names) => NearNames.of(names).nearest(name) ?? []),
    ...words,
  ]);
  const begun = near === undefined ? beginningWith(name, lists) : [];
  const meant = near ?? (begun.length > 0 ? listOr(begun) : undefined);
  const odd = oddLetter(name);
  const count = lists.reduce((sum, { length }) => sum + length, 0);
  const few = count > 0 && count <= 12;
  return {
    rule: "unknown-name",
    severity: "error",
    start,
    end,
    message: `there is no ${kinds.join(" or ")} ${name}${odd ? ` (${odd})` : ""}${meant ? `; did you mean ${meant}?` : ""}`,
    help: meant
      ? undefined
      : few
        ? `${kinds.map((one) => `${one}s`).join(" and ")} are: ${[...new Set(lists.flat())].sort().join(", ")}`
        : `declare it: ${kind} ${name} { ... }`,
    fixes: (near ? [near] : begun).map((one) => ({ title: `Write ${one}`, start, end, newText: one })),
  };
}

const MOST_BEGUN = 4;

/** `DISH60` for the family of DISH60-18: a name that was written only as far as it came to mind. */
function beginningWith(name: string, lists: readonly (readonly string[])[]): readonly string[] {
  if (name.length < 2) return [];
  return lists
    .flatMap((names) => NearNames.of(names).beginningWith(name, MOST_BEGUN))
    .sort()
    .slice(0, MOST_BEGUN);
}

function listOr(names: readonly string[]): string {
  return names.length === 1 ? names[0]! : `${names.slice(0, -1).join(", ")} or ${names.at(-1)}`;
}
