/** Renames a name wherever the design uses it. */

import { plansNamed } from "../../shared/spectrum/channel-plan.js";
import { wordOf } from "../facts/fact.js";
import { readFacts } from "../facts/read.js";
import { article } from "../facts/value.js";
import type { DesignModel } from "../model/design-model.js";
import { END } from "../schema/index.js";
import { parse } from "../syntax/parse.js";
import {
  declaredIn,
  type Name,
  type NameAt,
  nameAt,
  nameOf,
  type Occurrence,
  occurrences,
} from "./occurrences.js";
import type { TextEdit, TextRange } from "./text-range.js";

export type RenameAnswer =
  | {
      readonly edits: readonly TextEdit[];
      /** What may be renamed along: hops whose names carry that of a site. */
      readonly along: readonly TextEdit[];
    }
  | { readonly problem: string };

/** What would be renamed at an offset, or why nothing can be. */
export function prepareRename(
  model: DesignModel,
  path: string,
  offset: number,
): { readonly range: TextRange; readonly name: string } | { readonly problem: string } {
  const found = renamable(model, path, offset);
  return "problem" in found ? found : { range: found.range, name: found.name };
}

/** Edits of all files of the design, shared catalogues included. */
export function renameAt(model: DesignModel, path: string, offset: number, newName: string): RenameAnswer {
  const found = renamable(model, path, offset);
  if ("problem" in found) return found;
  const places = occurrences(found, model);
  const problem = newName === found.name ? undefined : refusal(found, newName, places, model);
  if (problem !== undefined) return { problem };
  return {
    edits: places.map(({ file, start, end }) => ({ file, start, end, newText: newName })),
    along: found.kind === "site" && newName !== found.name ? hopsAlong(found.name, newName, model) : [],
  };
}

/** `KELD-TARN` becomes `MOSS-TARN` with its end KELD, unless that name is taken. */
function hopsAlong(site: string, newName: string, model: DesignModel): readonly TextEdit[] {
  const taken = new Set(model.names("hop"));
  return model.names("hop").flatMap((name): TextEdit[] => {
    const parts = name.split("-");
    const isEnd = model.hop(name)?.hop?.ends.some((end) => end.site.name === site) ?? false;
    const renamed = `-${name}-`.replace(`-${site}-`, `-${newName}-`).slice(1, -1);
    if (!isEnd || parts.length < 2 || renamed === name || taken.has(renamed)) return [];
    taken.add(renamed);
    const hop: Name = { kind: "hop", name };
    const places = occurrences(hop, model);
    if (refusal(hop, renamed, places, model) !== undefined) return [];
    return places.map(({ file, start, end }) => ({ file, start, end, newText: renamed }));
  });
}

function renamable(model: DesignModel, path: string, offset: number): NameAt | { readonly problem: string } {
  const file = model.file(path);
  const name = file && nameAt(file, offset, declaredIn(model));
  if (!name)
    return {
      problem: "there is no name here; put the caret on the name of a site, a hop, a radio or the like",
    };
  if (model.declarations(`${name.kind} ${name.name}`).length > 0) return name;
  const builtIn = name.kind === "plan" && plansNamed(name.name).length > 0;
  return {
    problem: builtIn
      ? `${name.name} is a built-in channel plan`
      : `the design declares no ${name.kind} ${name.name}`,
  };
}

function refusal(
  { kind, name }: Name,
  newName: string,
  places: readonly Occurrence[],
  model: DesignModel,
): string | undefined {
  const atoms = parse(newName).statements.flatMap((statement) => statement.atoms);
  if (atoms.length !== 1 || atoms[0]!.kind !== "word" || atoms[0]!.text !== newName) {
    return `"${newName}" is not one word; a name has no spaces, quotes or braces and is not a plain number`;
  }
  if (model.declarations(`${kind} ${newName}`).length > 0)
    return `there is ${article(kind)} ${newName} already`;
  if (kind === "plan" && plansNamed(newName).length > 0) {
    return `${newName} is a built-in channel plan; channels that mean it would change`;
  }
  if (occurrences({ kind, name: newName }, model).length > 0) {
    return `${newName} is used already, though no ${kind} is declared so; those uses would come to mean this one`;
  }
  const misread = distinct(places).find((place) => !readsAsName(place, { kind, name: newName }, model));
  if (!misread) return undefined;
  return `${newName} means something else in ${misread.fact.property === END ? "a hop" : `\`${misread.fact.property.name}\``}; ${name} cannot be called so`;
}

/** One place of each form: what holds for one `antenna` line holds for all. */
function distinct(places: readonly Occurrence[]): readonly Occurrence[] {
  return [
    ...Map.groupBy(
      places,
      ({ fact, arg, context }) => `${context}/${fact.property.name}/${arg.spec.name}/${fact.args.length}`,
    ).values(),
  ].map((same) => same[0]!);
}

/**
 * Reads the line with the new name in it: a site named `radio` would turn an end into a property, an antenna
 * named `at` would be taken for a label.
 */
function readsAsName(place: Occurrence, { kind, name }: Name, model: DesignModel): boolean {
  const { fact, arg, context } = place;
  const text = model.file(place.file)!.text;
  const atoms = fact.statement.atoms;
  const line = text.slice(atoms[0]!.start, arg.start) + name + text.slice(arg.end, atoms.at(-1)!.end);
  const read = readFacts(parse(fact.statement.block ? `${line} {\n}` : line).statements, context).facts[0];
  if (read?.property !== fact.property) return false;
  const same = read.args[fact.args.indexOf(arg)];
  const declared = declaredIn(model);
  // The new name stands for what the old one did.
  const meant = same && nameOf(read, same, (key) => key === `${kind} ${name}` || declared(key));
  // Something else of the line, the title for example, must not have changed its meaning either.
  const others = fact.args.every(
    ({ spec }) => spec === arg.spec || wordOf(read, spec.name) === wordOf(fact, spec.name),
  );
  return meant?.kind === kind && meant.name === name && others;
}
