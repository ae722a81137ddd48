/** The language reference, made from the property table. */
import { ARRANGEMENTS } from "../../shared/radio/arrangements.js";
import { unitSymbols } from "../../shared/units/units.js";
import { article } from "../facts/value.js";
import { ARRANGEMENT_WORDS } from "../schema/arrangements.js";
import { alternatives, END, propertiesOf } from "../schema/index.js";
import { NAMED_KINDS, type NamedKind } from "../schema/kinds.js";
import type { ArgSpec, Context, Property, ValueSpec } from "../schema/types.js";
import { hopBlock, table, toHeading } from "./markdown.js";

interface Chapter {
  readonly context: Context;
  readonly title: string;
  readonly intro: string;
}

/** Blocks that are no kind, and kinds of which there is more to say; a chapter for each other kind stands behind them. */
const OWN_CHAPTERS: readonly Chapter[] = [
  {
    context: "file",
    title: "At the left margin",
    intro: "What a file declares. Order does not matter, and a design may be parted into files as you like.",
  },
  { context: "network", title: "In a network", intro: "What holds for the whole design." },
  { context: "climate", title: "In a climate", intro: "In the network, and in a hop where it differs." },
  { context: "objective", title: "In an objective", intro: "What a hop is judged against." },
  {
    context: "interference",
    title: "In the interference of a network",
    intro:
      "What each receiver is judged by among all transmitters, and what the paths between them are like.",
  },
  {
    context: "others",
    title: "In a list of others' transmissions",
    intro: "What the columns of the file are: a line a column, its head in quotes.",
  },
  {
    context: "licence",
    title: "In a licence",
    intro: "What was granted for one transmission; what is not stated is held against nothing.",
  },
  {
    context: "sheets",
    title: "In a template of sheets",
    intro: "Which papers are made, what stands on them beside the figures, and whose they are.",
  },
  { context: "site", title: "In a site", intro: "" },
  {
    context: "site chassis",
    title: "In a chassis at a site",
    intro: "Cards in their slots, and cards whose slot is left open.",
  },
  { context: "service", title: "In a service at a site", intro: "Where its ports are." },
  {
    context: "hop",
    title: "In a hop",
    intro:
      "Facts of the hop as a whole, then its two ends. `defaults hop` takes the same facts, except what belongs to one hop alone.",
  },
  {
    context: "as-built",
    title: "In what was built at an end",
    intro: "What was found at the end of a hop beside what was planned.",
  },
  {
    context: "demand",
    title: "In a demand",
    intro:
      "What must be carried, and what it may cost. `defaults demand` takes the same facts, except what belongs to one demand alone.",
  },
  {
    context: "traffic",
    title: "In the traffic of a network",
    intro: "What holds for all demands.",
  },
  {
    context: "end",
    title: "At an end of a hop",
    intro: "`defaults end` takes the same facts but `as-built`.",
  },
];

/** Kinds that are called otherwise in a sentence. */
const CALLED: { readonly [Kind in NamedKind]?: string } = { plan: "a channel plan" };

const KIND_CHAPTERS: readonly Chapter[] = NAMED_KINDS.filter(
  (kind) => !OWN_CHAPTERS.some(({ context }) => context === kind),
).map((kind) => ({ context: kind, title: `In ${CALLED[kind] ?? article(kind)}`, intro: "" }));

const CHAPTERS: readonly Chapter[] = [
  ...OWN_CHAPTERS,
  ...KIND_CHAPTERS,
  {
    context: "spectrum",
    title: "In a spectrum of a radio",
    intro:
      "Of all modes, of those of one width, or of one mode; what names a mode more closely counts before what names it less.",
  },
];

export function propertiesPage(): string {
  /** Where each property is described: in the first chapter that has it. */
  const told = new Map<Property, string>();
  const chapters = CHAPTERS.map((chapter) => {
    const sections = rowsOf(chapter).map((property) => section(property, headingOf(property, chapter), told));
    return [`## ${chapter.title}`, chapter.intro, ...sections].filter(Boolean).join("\n\n");
  });
  return `${[HEAD, contents(), ...chapters].join("\n\n")}\n`;
}

function rowsOf({ context }: Chapter): readonly Property[] {
  return context === "hop" ? [...propertiesOf(context), END] : propertiesOf(context);
}

/** Many words stand in several places; the heading tells them apart, and so does its anchor. */
function headingOf({ name }: Property, { title }: Chapter): string {
  return `${name} ${title[0]!.toLowerCase()}${title.slice(1)}`;
}

function contents(): string {
  const lines = CHAPTERS.map((chapter) => {
    const names = rowsOf(chapter).map((property) => toHeading(property.name, headingOf(property, chapter)));
    return `- ${toHeading(`**${chapter.title}**`, chapter.title)}: ${names.join(", ")}`;
  });
  return `## Contents\n\n${lines.join("\n")}`;
}

const HEAD = `# Language reference

Made from the property table (language/schema); do not edit by hand.

A file is a list of statements, one a line. A statement is a word followed by its values, some values
announced by a label (\`at\`, \`from\`, \`because\`), and some statements have a block in braces. A semicolon
parts statements on one line. Comments begin with \`//\` or stand between \`/*\` and \`*/\`. A quantity is a
number and a unit; any unit of its dimension may be used. Names are words such as \`KELD\`, \`DISH60-18\` or
\`KELD-TARN\`; text and paths stand in double quotes. In the lines below, a value in square brackets may be
left out.

A source "common practice" is the habit of the trade as the project remembers it: no document was read for it.

Beside this page: [rules](rules.md), [standards and methods](methods.md), [channel plans](channel-plans.md),
[formats](formats.md), [git](git.md), [continuous integration](ci.md).`;

function section(property: Property, heading: string, told: Map<Property, string>): string {
  const elsewhere = told.get(property);
  if (elsewhere !== undefined) return `### ${heading}\n\nThe same as ${toHeading(elsewhere, elsewhere)}.`;
  told.set(property, heading);
  const lines = [`### ${heading}`, property.meaning, hopBlock(property.example)];
  if (property.args.length > 0) lines.push(table(["value", "what", "may be"], property.args.map(argRow)));
  if (property.name === "arrangement") lines.push(arrangementsTable());
  const remarks = [
    property.repeatable ? "May be repeated." : "",
    property.fallback ? `Left out: ${property.fallback}.` : "",
    property.alsoCalled
      ? `Elsewhere called ${property.alsoCalled.join(", ")}: not read, and this word proposed in its place.`
      : "",
    `Source: ${property.source}.`,
  ];
  lines.push(remarks.filter(Boolean).join(" "));
  return lines.join("\n\n");
}

function arrangementsTable(): string {
  const joined = (words: readonly string[]) => words.join("; ") || "nothing";
  return table(
    [
      "arrangement",
      "what it is",
      "transceivers at an end",
      "antennas",
      "coupler",
      "keeps the traffic when this fails",
      "does not",
    ],
    ARRANGEMENTS.map((one) => [
      `\`${one.name}\``,
      one.title,
      String(one.transceivers),
      String(one.antennas),
      one.coupler ? `${one.couplers > 1 ? `${one.couplers} × ` : ""}${one.coupler}` : "",
      joined(one.protects),
      joined(one.doesNotProtect),
    ]),
  );
}

function argRow(arg: ArgSpec): readonly string[] {
  const name = arg.label ? `${arg.label} …` : arg.name;
  const shown = arg.optional ? `[${name}]` : name;
  const fallback = arg.fallback ? ` Left out: ${arg.fallback}.` : "";
  return [shown, `${arg.meaning}${fallback}`, alternatives(arg).map(domainOf).join("; or ")];
}

/** What values are possible, for tables and hovers. */
function domainOf(spec: ValueSpec): string {
  switch (spec.type) {
    case "quantity": {
      const limits = [
        spec.above ? `above ${spec.above}` : "",
        spec.min ? `from ${spec.min}` : "",
        spec.max ? `to ${spec.max}` : "",
        spec.below ? `and below ${spec.below}` : "",
      ].filter(Boolean);
      return `${spec.dimension} (${unitSymbols(spec.dimension).join(", ")})${limits.length > 0 ? `, ${limits.join(" ")}` : ""}`;
    }
    case "number": {
      const limits = [
        spec.min === undefined ? "" : `from ${spec.min}`,
        spec.max === undefined ? "" : `to ${spec.max}`,
      ].filter(Boolean);
      return `${spec.integer ? "whole number" : "number"}${limits.length > 0 ? `, ${limits.join(" ")}` : ""}`;
    }
    case "word":
      if (spec.words === ARRANGEMENT_WORDS) return "one of those below";
      return Object.entries(spec.words)
        .map(([word, meaning]) => `\`${word}\`: ${meaning}`)
        .join("; ");
    case "free":
      return `a word, for example \`${spec.example}\``;
    case "reference":
      return [
        `name of ${article(spec.kind)}${spec.orKind ? ` or ${article(spec.orKind)}` : ""}`,
        ...Object.entries(spec.words ?? {}).map(([word, meaning]) => `\`${word}\`: ${meaning}`),
      ].join("; ");
    case "name":
      return "a new name";
    case "text":
      return spec.stands === undefined
        ? "text in quotes"
        : `text in quotes, in which ${Object.entries(spec.stands)
            .map(([word, meaning]) => `\`{${word}}\` stands for ${meaning}`)
            .join("; ")}`;
    case "path":
      return "path in quotes";
    case "date":
      return "date, year-month-day";
    case "position":
      return "latitude and longitude, decimal degrees or degrees, minutes, seconds";
    case "rule":
      return "identifier of a rule";
  }
}
