/** What a new thing needs, with what there is: for those who add one. */
import { table } from "../../language/docs/markdown.js";
import { IN_TEXT } from "../../language/editor/fixes/index.js";
import { PROPERTIES, propertiesOf } from "../../language/schema/index.js";
import { kindRow, NAMED_KINDS } from "../../language/schema/kinds.js";
import type { ArgSpec, Property } from "../../language/schema/types.js";
import { METHODS } from "../../shared/evaluate/account/methods.js";
import { RULES } from "../../shared/rules/index.js";
import type { Rule } from "../../shared/rules/rule.js";
import { FORMATS } from "../cli/formats.js";
import { NEEDS, type Need, type Thing } from "./needs.js";

const THERE: Readonly<Record<Thing, () => string>> = {
  kind: kindsThere,
  property: propertiesThere,
  rule: rulesThere,
  method: () => `There are ${Object.keys(METHODS).length} that figures rest on: see [methods](methods.md).`,
  format: () =>
    `There are ${Object.entries(FORMATS)
      .map(([command, { length }]) => `${length} of \`${command}\``)
      .join(", ")}: see [formats](formats.md).`,
};

export function needsPage(): string {
  const sections = Object.entries(NEEDS).flatMap(([thing, needs]) => [
    `## A new ${thing}`,
    table(["file", "what it holds of it", "asked for by"], needs.map(needRow)),
    THERE[thing as Thing](),
  ]);
  return `${[HEAD, ...sections].join("\n\n")}\n`;
}

const HEAD = `# What a new thing needs

Made from the tables themselves (server/docs/needs.ts); do not edit by hand.

Each line is a file that has to know it. \`types\`: it does not compile before. A test fails before it is there. The others
are what the rest rests on. All that is not named here follows from the row: completion, hover, colouring, layout, snippets,
outline, the pages of this reference, help and refusals of the command line. Of a property the published schemas follow with
\`node server/cli/schema/generate.ts\` (\`tests/cli/check.test.ts\` asks for it).`;

function needRow({ file, what, asked }: Need): string[] {
  return [`\`${file}\``, what, asked === "types" ? "types" : asked === "hand" ? "" : `\`${asked}\``];
}

function kindsThere(): string {
  const mark = (holds: unknown) => (holds ? "yes" : "");
  return table(
    ["kind", "inherits by `like`", "hops install it", "a fix begins one", "properties", "read by hand"],
    NAMED_KINDS.map((kind) => {
      const { inherits, installed, begins } = kindRow(kind);
      const rows = propertiesOf(kind);
      const byHand = rows.filter((row) => !row.args.some(isPlaced)).map(({ name }) => `\`${name}\``);
      return [
        `\`${kind}\``,
        mark(inherits),
        mark(installed),
        mark(begins),
        String(rows.length),
        byHand.join(", "),
      ];
    }),
  );
}

function isPlaced({ into }: ArgSpec): boolean {
  return into !== undefined;
}

function propertiesThere(): string {
  const placed = PROPERTIES.filter(({ args }) => args.some(isPlaced));
  const places = new Set(placed.flatMap(({ args }: Property) => args.flatMap(({ into = [] }) => into)));
  return `There are ${PROPERTIES.length}; ${placed.length} say into which of ${places.size} fields they go.`;
}

/** By where their fixes stand. */
function rulesThere(): string {
  const all = [...RULES.values()];
  const listed = (which: (rule: Rule) => boolean) =>
    all
      .filter(which)
      .map(({ id }) => `[${id}](rules/${id}.md)`)
      .join(", ");
  return [
    `There are ${all.length}: see [rules](rules.md).`,
    `Fixes as changes of facts, beside the rule: ${listed(({ fixes }) => fixes !== undefined)}.`,
    `Fixes that need the text itself, in \`language/editor/fixes/\`: ${listed(({ id }) => IN_TEXT[id] !== undefined)}.`,
  ].join("\n\n");
}
