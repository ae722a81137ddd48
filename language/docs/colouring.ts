/** The TextMate grammar and the snippets, made from the property table. */
import { UNITS } from "../../shared/units/units.js";
import { alternatives, PROPERTIES, propertiesOf } from "../schema/index.js";
import type { ArgSpec } from "../schema/types.js";

export function textMateGrammar(): string {
  const words = [...new Set(PROPERTIES.map(({ name }) => name))].sort((a, b) => b.length - a.length);
  const labels = [
    ...new Set(PROPERTIES.flatMap(({ args }) => args.flatMap(({ label }) => label?.split(" ") ?? []))),
  ];
  const choices = [...new Set(PROPERTIES.flatMap(({ args }) => args.flatMap(choicesOf)))].sort(
    (a, b) => b.length - a.length,
  );
  const units = [
    ...new Set(
      Object.values(UNITS).flatMap((list) => list.flatMap((unit) => [unit.symbol, ...(unit.aliases ?? [])])),
    ),
  ];
  const declared = propertiesOf("file")
    .map(({ name }) => name)
    .filter((name) => name !== "network" && name !== "defaults");
  const end = "(?=[\\s;{}]|$)";
  const grammar = {
    $comment: "Made from the property table; do not edit by hand.",
    name: "Hopwright",
    scopeName: "source.hop",
    patterns: [
      { name: "comment.line.double-slash.hop", match: "//.*$" },
      { name: "comment.block.hop", begin: "/\\*", end: "\\*/" },
      { name: "string.quoted.double.hop", match: '"(\\\\.|[^"\\\\])*"?' },
      {
        match: `^\\s*(template\\s+)?(${alternation(declared)})\\s+([^\\s;{}"]+)(?=.*\\{)`,
        captures: {
          1: { name: "storage.modifier.hop" },
          2: { name: "keyword.declaration.hop" },
          3: { name: "entity.name.type.hop" },
        },
      },
      {
        match: `(?:^|(?<=[{;]))\\s*(${alternation(words)})${end}`,
        captures: { 1: { name: "keyword.other.hop" } },
      },
      { match: '^\\s*([^\\s;{}"]+)\\s*(?=\\{)', captures: { 1: { name: "entity.name.section.hop" } } },
      { name: "constant.numeric.date.hop", match: `\\b\\d{4}-\\d{2}-\\d{2}${end}` },
      { name: "constant.numeric.angle.hop", match: "\\b\\d+(\\.\\d+)?°[0-9 .'′\"″]*[NSEW]?" },
      {
        match: `(?<=[\\s/])([+\\-−]?\\d+(?:\\.\\d+)?)(?:(\\s*)(${alternation(units.sort((a, b) => b.length - a.length))}))?${end}`,
        captures: { 1: { name: "constant.numeric.hop" }, 3: { name: "keyword.other.unit.hop" } },
      },
      { name: "keyword.operator.word.hop", match: `(?<=\\s)(${alternation(labels)})${end}` },
      { name: "constant.language.hop", match: `(?<=\\s)(${alternation(choices)})${end}` },
    ],
  };
  return `${JSON.stringify(grammar, null, 2)}\n`;
}

function choicesOf(arg: ArgSpec): string[] {
  return alternatives(arg).flatMap((spec) =>
    spec.type === "word" || spec.type === "reference" ? Object.keys(spec.words ?? {}) : [],
  );
}

function alternation(words: readonly string[]): string {
  return words.map((word) => word.replace(/[.*+?^${}()|[\]\\/]/g, "\\$&")).join("|");
}

export function snippets(): string {
  const all = {
    network: {
      prefix: "network",
      description: "A network with climate and objectives",
      body: [
        'network "${1:Name}" {',
        '  terrain "${2:terrain}"',
        "  climate {",
        "    rain ${3:30} mm/h",
        "  }",
        "  objective ${4:trunk} {",
        "    availability ${5:99.99} %",
        "    clearance 1 F1 at k 1.33",
        "    clearance 0.6 F1 at k 0.7",
        "  }",
        "}",
      ],
    },
    site: {
      prefix: "site",
      description: "A site with its structure",
      body: [
        'site ${1:NAME} "${2:Title}" {',
        "  at ${3:47.4534} ${4:-30.5808}",
        "  structure ${5|mast,tower,roof,pole,chimney|} ${6:30} m",
        "}",
      ],
    },
    hop: {
      prefix: "hop",
      description: "A hop between two sites",
      body: [
        "hop ${1:A}-${2:B} {",
        "  objective ${3:trunk}",
        "  channel ${4:F.595} / ${5:55} MHz / ${6:1}",
        "  polarization ${7|vertical,horizontal|}",
        "  radio ${8:RADIO}",
        "  $1 {",
        "    antenna ${9:ANTENNA} at ${10:20} m",
        "    transmits high",
        "  }",
        "  $2 {",
        "    antenna ${9:ANTENNA} at ${11:20} m",
        "    transmits low",
        "  }",
        "}",
      ],
    },
    demand: {
      prefix: "demand",
      description: "Traffic between two sites",
      body: [
        'demand ${1:NAME} "${2:Title}" {',
        "  from ${3:A} to ${4:handover}",
        "  committed ${5:100} Mbit/s",
        "  peak ${6:300} Mbit/s",
        "  availability ${7:99.95} %",
        "  latency ${8:5} ms",
        "}",
      ],
    },
    accept: {
      prefix: "accept",
      description: "Accept a finding with a reason",
      body: ['accept ${1:rule} until ${2:2027-12-31} because "${3:why}"'],
    },
  };
  return `${JSON.stringify(all, null, 2)}\n`;
}
