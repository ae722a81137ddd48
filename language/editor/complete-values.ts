/** What may follow inside a statement: units, words, names, labels. */

import { RULES } from "../../shared/rules/index.js";
import { UNITS } from "../../shared/units/units.js";
import { readFacts } from "../facts/read.js";
import { alternatives } from "../schema/index.js";
import type { ArgSpec, Property, ValueSpec } from "../schema/types.js";
import { parse } from "../syntax/parse.js";
import { channelNumbers, channelPlans, channelWidths } from "./complete-channel.js";
import { modeWidths, modulations } from "./complete-modes.js";
import { nameItems } from "./complete-names.js";
import type { Proposal } from "./completion.js";
import type { Expected } from "./expected.js";
import type { Scene } from "./scene.js";
import { quantityStop } from "./snippet.js";

export function valueItems(scene: Scene, expected: Expected): readonly Proposal[] {
  const { unitOf, phrase, values, labels } = expected;
  if (unitOf) return units(unitOf);
  return [
    ...(phrase ? longerPhrases(phrase) : []),
    ...values.flatMap((spec) => argItems(scene, expected, spec)),
    ...labels.map(({ spec, words }) => labelItem(spec, words, expected.property)),
  ];
}

function argItems(scene: Scene, expected: Expected, spec: ArgSpec): readonly Proposal[] {
  const items = alternatives(spec).flatMap((value) => itemsOf(scene, expected, spec, value));
  if (!spec.slash || expected.slash) return items;
  // The slash before a channel's width or number is still to be written.
  return items.map((item) => ({ ...item, label: `/ ${item.label}`, insertText: `/ ${item.insertText}` }));
}

function itemsOf(scene: Scene, expected: Expected, spec: ArgSpec, value: ValueSpec): readonly Proposal[] {
  switch (value.type) {
    case "quantity":
      return quantities(scene, expected, spec, value);
    case "word":
      return Object.entries(value.words).map(([label, detail]) => ({
        label,
        kind: "value",
        insertText: label,
        detail,
      }));
    case "reference":
      return nameItems(scene, expected, spec, value.kind);
    case "rule":
      return ruleItems(scene);
    case "free":
      return spec.name === "plan" ? channelPlans(scene) : modulations(scene, expected);
    case "number":
      return expected.property.name === "channel" ? channelNumbers(scene, expected) : [];
    default:
      return [];
  }
}

function units(spec: ArgSpec): readonly Proposal[] {
  return alternatives(spec).flatMap((value) =>
    value.type === "quantity"
      ? UNITS[value.dimension].map(
          ({ symbol }): Proposal => ({
            label: symbol,
            kind: "unit",
            insertText: symbol,
            detail: value.dimension,
          }),
        )
      : [],
  );
}

/** A number that has been begun is completed by a unit; without one, what the design or the example knows. */
function quantities(
  scene: Scene,
  expected: Expected,
  spec: ArgSpec,
  value: Extract<ValueSpec, { type: "quantity" }>,
): readonly Proposal[] {
  const { word } = scene.caret;
  const known =
    expected.property.name === "channel" ? channelWidths(scene, expected) : modeWidths(scene, expected, spec);
  const begun = word && /^[+\-−]?[\d.]+/.exec(word.text)?.[0];
  if (begun !== undefined) {
    const completed = UNITS[value.dimension].map(
      ({ symbol }): Proposal => ({
        label: `${begun} ${symbol}`,
        kind: "unit",
        insertText: `${begun} ${symbol}`,
        detail: value.dimension,
        rank: 1,
      }),
    );
    return [...known, ...completed];
  }
  if (known.length > 0) return known;
  const example = exampleOf(expected.property, spec, scene);
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

/** At a site only findings about the site can be accepted. */
function ruleItems({ caret }: Scene): readonly Proposal[] {
  return [...RULES.values()]
    .filter(({ scope }) => scope !== "acceptance" && !(caret.context === "site" && scope === "hop"))
    .map((rule) => ({
      label: rule.id,
      kind: "rule",
      insertText: rule.id,
      detail: rule.title,
      documentation: `${rule.checks}\n\n${rule.why}\n\n*Source: ${rule.source}.*`,
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
