/** Templates of sheets, and what hops and sites state of their own, as stated. */
import { nth } from "../../shared/design/address.js";
import type { OwnField, SheetSection, SheetTemplate } from "../../shared/design/sheets.js";
import { type Fact, factNamed, factsNamed, wordOf } from "../facts/fact.js";
import { resolvePath } from "../model/path.js";
import type { Declaration } from "../model/source-file.js";

/** @returns undefined where it has no name */
export function sheetTemplateOf(
  { file, fact }: Pick<Declaration, "file" | "fact">,
  index: number,
): SheetTemplate | undefined {
  const name = wordOf(fact, "name");
  if (name === undefined) return undefined;
  const key = nth("sheets", index);
  const { facts } = fact;
  const texts = (property: string) => factsNamed(facts, property).flatMap((one) => wordOf(one, "text") ?? []);
  const made = factNamed(facts, "make");
  const logo = factNamed(facts, "logo");
  const path = wordOf(logo, "file");
  const at = path === undefined ? undefined : resolvePath(file, path);
  const alt = wordOf(logo, "alt");
  return {
    at: key,
    name,
    ...(made && { kinds: wordsOf(made, "kinds") }),
    leftOut: sectionsOf(key, facts, "leave-out"),
    first: sectionsOf(key, facts, "first"),
    company: wordOf(factNamed(facts, "company"), "name"),
    ...(at !== undefined && { logo: { file: at, ...(alt !== undefined && { alt }) } }),
    head: texts("head"),
    foot: texts("foot"),
    instructions: factsNamed(facts, "instruction").flatMap((one) => {
      const text = wordOf(one, "text");
      return text === undefined ? [] : [{ text, ...ofKind(one) }];
    }),
    fields: factsNamed(facts, "field").flatMap((one) =>
      ownField(one).map((field) => ({ ...field, ...ofKind(one) })),
    ),
    language: wordOf(factNamed(facts, "language"), "value") as SheetTemplate["language"],
    paper: wordOf(factNamed(facts, "paper"), "value") as SheetTemplate["paper"],
  };
}

/** @param facts of a hop or a site */
export function ownFieldsOf(facts: readonly Fact[]): readonly OwnField[] {
  return factsNamed(facts, "field").flatMap(ownField);
}

function ownField(fact: Fact): OwnField[] {
  const label = wordOf(fact, "label");
  const value = wordOf(fact, "value");
  return label === undefined ? [] : [{ label, ...(value !== undefined && { value }) }];
}

function sectionsOf(of: string, facts: readonly Fact[], property: string): readonly SheetSection[] {
  return factsNamed(facts, property).flatMap((fact, index): SheetSection[] => {
    const section = wordOf(fact, "section");
    if (section === undefined) return [];
    return [{ at: `${of} / ${nth(property, index)}`, section, ...ofKind(fact) }];
  });
}

function ofKind(fact: Fact): { readonly of?: string } {
  const of = wordOf(fact, "of");
  return of === undefined ? {} : { of };
}

function wordsOf(fact: Fact, name: string): readonly string[] {
  return fact.args.flatMap(({ spec, value }) =>
    spec.name === name && value?.type === "word" ? [value.word] : [],
  );
}
