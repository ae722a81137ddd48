/** Where a name is declared and used, over all files of a design. */
import { type Argument, type Fact, wordOf } from "../facts/fact.js";
import type { DesignModel } from "../model/design-model.js";
import { declaredName, nameRange, type SourceFile } from "../model/source-file.js";
import { isNamedKind, type NamedKind } from "../schema/kinds.js";
import type { Context } from "../schema/types.js";
import type { FileRange, TextRange } from "./text-range.js";
import { factAt, walkFacts } from "./walk.js";

export interface Name {
  readonly kind: NamedKind;
  readonly name: string;
}

/** A name and the place at which it was touched. */
export interface NameAt extends Name {
  readonly range: TextRange;
}

export interface Occurrence extends FileRange {
  readonly declaration: boolean;
  readonly fact: Fact;
  readonly arg: Argument;
  readonly context: Context;
}

/** The name that an offset touches, declared or used. */
export function nameAt(file: SourceFile, offset: number, isDeclared: IsDeclared): NameAt | undefined {
  const at = factAt(file, offset);
  const arg = at?.arg;
  // On a label (`like`) there is no name.
  if (!arg || at.range.start !== arg.start) return undefined;
  const name = nameOf(at.fact, arg, isDeclared);
  return name && { ...name, range: at.range };
}

/** Whether the design declares a key, `site KELD`. */
export type IsDeclared = (key: string) => boolean;

export function declaredIn(model: DesignModel): IsDeclared {
  return (key) => model.declarations(key).length > 0;
}

/**
 * The name that an argument declares or uses. A channel's plan is one as well, built-in ones included. Where a site or a
 * hop may stand, what is declared tells which it is.
 */
export function nameOf(fact: Fact, arg: Argument, isDeclared: IsDeclared): Name | undefined {
  const { value } = arg;
  if (value?.type === "reference") {
    const { kind, orKind, name } = value;
    const isOther = orKind && !isDeclared(`${kind} ${name}`) && isDeclared(`${orKind} ${name}`);
    return { kind: isOther ? orKind : kind, name };
  }
  if (value?.type === "name" && isNamedKind(fact.property.name))
    return { kind: fact.property.name, name: value.word };
  if (value?.type === "free" && isPlanOfChannel(fact, arg)) return { kind: "plan", name: value.word };
  return undefined;
}

/** Files in the order of their paths, places in the order of the text. */
export function occurrences({ kind, name }: Name, model: DesignModel): readonly Occurrence[] {
  const found: Occurrence[] = [];
  const isDeclared = declaredIn(model);
  for (const file of filesWith({ kind, name }, model)) {
    walkFacts(file.facts, (fact, path) => {
      for (const arg of fact.args) {
        const one = nameOf(fact, arg, isDeclared);
        if (one?.kind !== kind || one.name !== name) continue;
        const context = path.at(-1)?.context ?? "file";
        found.push({
          file: file.path,
          start: arg.start,
          end: arg.end,
          declaration: arg.value?.type === "name",
          fact,
          arg,
          context,
        });
      }
    });
  }
  return found;
}

/** Where a name is declared, first the declaration that counts. */
export function declarationsOf({ kind, name }: Name, model: DesignModel): readonly FileRange[] {
  return model.declarations(`${kind} ${name}`).map((entry) => {
    const { start, end } = nameRange(entry);
    return { file: entry.file, start, end };
  });
}

/** Names of the hops that have an end at a site or name a thing of another kind, in the order of the files. */
export function* hopsUsing(name: Name, model: DesignModel): Generator<string> {
  for (const file of filesWith(name, model)) {
    const places = placesIn(file, name);
    let next = 0;
    for (const fact of file.facts) {
      const { start, end } = fact.statement;
      while (next < places.length && places[next]! < start) next++;
      const hop = fact.property.name === "hop" ? declaredName(fact) : undefined;
      if (hop !== undefined && next < places.length && places[next]! < end) yield hop;
    }
  }
}

/** Offsets at which a file uses a name, ascending. */
function placesIn(file: SourceFile, { kind, name }: Name): readonly number[] {
  if (kind !== "plan")
    return file.references.filter((one) => one.kind === kind && one.name === name).map(({ start }) => start);
  const places: number[] = [];
  walkFacts(file.facts, (fact) => {
    for (const arg of fact.args)
      if (isPlanOfChannel(fact, arg) && wordOf(fact, "plan") === name) places.push(arg.start);
  });
  return places;
}

function filesWith({ kind, name }: Name, model: DesignModel): readonly SourceFile[] {
  // Plans are named in channels, which the index of references does not hold.
  const paths =
    kind === "plan"
      ? [...model.allFiles()].map((file) => file.path)
      : [
          ...model.filesMentioning(`${kind} ${name}`),
          ...model.declarations(`${kind} ${name}`).map((entry) => entry.file),
        ];
  return [...new Set(paths)].sort().flatMap((path) => model.file(path) ?? []);
}

function isPlanOfChannel(fact: Fact, arg: Argument): boolean {
  return fact.property.name === "channel" && arg.spec.name === "plan";
}
