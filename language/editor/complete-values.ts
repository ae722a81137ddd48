/** What may follow inside a statement: units, words, names, labels. */

import { RULES } from "../../shared/rules/index.js";
import { UNITS } from "../../shared/units/units.js";
import { OPEN } from "../facts/complaints.js";
import { readFacts } from "../facts/read.js";
import { alternatives } from "../schema/index.js";
import type { ArgSpec, Property, ValueSpec } from "../schema/types.js";
import { parse } from "../syntax/parse.js";
import { arrangementRank } from "./complete-arrangement.js";
import { channelNumbers, channelPlans, channelWidths } from "./complete-channel.js";
import { modeWidths, modulations } from "./complete-modes.js";
import { nameItems } from "./complete-names.js";
import { hopNames } from "./complete-pairs.js";
import type { Expected } from "./expected.js";
import type { Proposal } from "./proposal.js";
import { hopName, type Scene } from "./scene.js";
import { quantityStop } from "./snippet.js";

export function valueItems(scene: Scene, expected: Expected): readonly Proposal[] {
  const { unitOf, phrase, values, labels } = expected;
  if (unitOf) return units(unitOf, unitOfExample(expected.property, unitOf, scene));
  return [
    ...(phrase ? longerPhrases(phrase) : []),
    ...values.flatMap((spec) => argItems(scene, expected, spec)),
    ...labels.map(({ spec, words }) => labelItem(spec, words, expected.property)),
    ...(mayStayOpen(scene, expected) ? [STILL_OPEN] : []),
  ];
}

/** A decision of a hop may wait, an entry of the catalogue states what its data sheet says. */
function mayStayOpen({ caret: { context } }: Scene, { values }: Expected): boolean {
  return (context === "hop" || context === "end") && values.some(({ optional }) => !optional);
}

/** Last of all: it decides nothing. */
const STILL_OPEN: Proposal = {
  label: OPEN,
  kind: "value",
  insertText: OPEN,
  detail: "still to be chosen",
  documentation: "The check tells it as unfinished; the rest of the line counts.",
  rank: 9,
};

function argItems(scene: Scene, expected: Expected, spec: ArgSpec): readonly Proposal[] {
  const items = alternatives(spec).flatMap((value) => itemsOf(scene, expected, spec, value));
  if (!spec.slash || expected.slash) return items;
  // The slash before a channel's width or number is still to be written.
  return items.map((item) => ({ ...item, label: `/ ${item.label}`, insertText: `/ ${item.insertText}` }));
}

function itemsOf(scene: Scene, expected: Expected, spec: ArgSpec, value: ValueSpec): readonly Proposal[] {
  switch (value.type) {
    case "quantity":
      return quantities(scene, expected, spec);
    case "word":
      return Object.entries(value.words).map(([label, detail]) => ({
        label,
        kind: "value",
        insertText: label,
        detail,
        rank: ofEndsArrangement(scene, expected) ? arrangementRank(scene, label) : undefined,
      }));
    case "reference":
      return [
        ...Object.entries(value.words ?? {}).map(
          ([label, detail]): Proposal => ({ label, kind: "value", insertText: label, detail, rank: 1 }),
        ),
        ...nameItems(scene, expected, spec, value.kind),
        ...(value.orKind ? nameItems(scene, expected, spec, value.orKind) : []),
      ];
    case "rule":
      return ruleItems(scene);
    case "name":
      return expected.property.name === "hop" && scene.caret.context === "file" ? hopNames(scene) : [];
    case "free":
      return spec.name === "plan" ? channelPlans(scene) : modulations(scene, expected);
    case "number":
      return expected.property.name === "channel" ? channelNumbers(scene, expected) : [];
    default:
      return [];
  }
}

function ofEndsArrangement({ caret: { context } }: Scene, { property }: Expected): boolean {
  return context === "end" && property.name === "arrangement";
}

/** The unit that the property's own example has comes first. */
function units(spec: ArgSpec, usual: string | undefined, number = ""): readonly Proposal[] {
  return alternatives(spec).flatMap((value) =>
    value.type === "quantity"
      ? UNITS[value.dimension].map(
          ({ symbol }): Proposal => ({
            label: number + symbol,
            kind: "unit",
            insertText: number + symbol,
            detail: value.dimension,
            rank: symbol === usual ? 1 : 2,
          }),
        )
      : [],
  );
}

/** A number that has been begun is completed by a unit; without one, what the design or the example knows. */
function quantities(scene: Scene, expected: Expected, spec: ArgSpec): readonly Proposal[] {
  const { word } = scene.caret;
  const known =
    expected.property.name === "channel" ? channelWidths(scene, expected) : modeWidths(scene, expected, spec);
  const begun = word && /^[+\-−]?[\d.]+/.exec(word.text)?.[0];
  const example = exampleOf(expected.property, spec, scene);
  if (begun !== undefined) return [...known, ...units(spec, unitIn(example), `${begun} `)];
  if (known.length > 0) return known;
  return example === undefined
    ? []
    : [
        {
          label: example,
          kind: "value",
          insertText: quantityStop(example, 1),
          snippet: true,
          detail: spec.meaning,
        },
      ];
}

function unitOfExample(property: Property, spec: ArgSpec, scene: Scene): string | undefined {
  return unitIn(exampleOf(property, spec, scene));
}

function unitIn(example: string | undefined): string | undefined {
  return example?.split(" ")[1];
}

/** How the example of the property writes an argument. */
function exampleOf(property: Property, spec: ArgSpec, { caret }: Scene): string | undefined {
  const fact = readFacts(parse(property.example).statements, caret.context).facts[0];
  const arg = fact?.args.find((one) => one.spec === spec);
  return arg?.value?.type === "quantity" ? property.example.slice(arg.start, arg.end) : undefined;
}

function longerPhrases({ spec, written, range }: NonNullable<Expected["phrase"]>): readonly Proposal[] {
  return alternatives(spec).flatMap((value) =>
    value.type !== "word"
      ? []
      : Object.entries(value.words)
          .filter(([label]) => label.startsWith(`${written} `))
          .map(
            ([label, detail]): Proposal => ({
              label,
              kind: "value",
              insertText: label,
              detail,
              replace: range,
            }),
          ),
  );
}

/** What was found there comes first; at a site only findings about the site can be accepted. */
function ruleItems(scene: Scene): readonly Proposal[] {
  const { caret, results } = scene;
  const hop = hopName(scene);
  const found = new Map(
    (hop === undefined ? [] : (results?.(hop)?.findings ?? [])).map((one) => [one.rule, one.message]),
  );
  return [...RULES.values()]
    .filter(({ scope }) => scope !== "acceptance" && !(caret.context !== "hop" && scope === "hop"))
    .map((rule) => ({
      label: rule.id,
      kind: "rule",
      insertText: rule.id,
      detail: found.get(rule.id) ?? rule.title,
      documentation: `${rule.checks}\n\n${rule.why}\n\n*Source: ${rule.source}.*`,
      rank: found.has(rule.id) ? 0 : 1,
    }));
}

/** `at 24 m` as the example writes it where that is a quantity; the bare label otherwise. */
function labelItem(spec: ArgSpec, words: string, property: Property): Proposal {
  const value = alternatives(spec)[0]!;
  const text = value.type === "text" || value.type === "path";
  return {
    label: words,
    kind: "label",
    insertText: text ? `${words} "$1"` : `${words} `,
    snippet: text || undefined,
    detail: spec.meaning,
    documentation: `In \`${property.name}\`: ${spec.meaning}${spec.fallback ? ` Left out: ${spec.fallback}.` : ""}`,
    rank: 1,
  };
}
