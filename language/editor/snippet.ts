/** A line of a property as a snippet, made from its example in the property table. */
import type { Argument } from "../facts/fact.js";
import { readFacts } from "../facts/read.js";
import { alternatives } from "../schema/index.js";
import type { Context, Property } from "../schema/types.js";
import { parse } from "../syntax/parse.js";

/**
 * The arguments of the example become tab stops: numbers are preselected with their unit behind them, words
 * to choose from are offered, names are left to be completed.
 * @example lineSnippet(height, "end") // "height ${1:24} m"
 */
export function lineSnippet(property: Property, context: Context): string {
  const opens = property.example.endsWith("{");
  const line = opens ? property.example.slice(0, -1).trimEnd() : property.example;
  const fact = readFacts(parse(opens ? `${line} {\n}` : line).statements, context).facts[0];
  let snippet = "";
  let at = 0;
  (fact?.args ?? []).forEach((arg, index) => {
    snippet +=
      escapeSnippet(line.slice(at, arg.start)) + tabStop(arg, line.slice(arg.start, arg.end), index + 1);
    at = arg.end;
  });
  snippet += escapeSnippet(line.slice(at));
  return opens ? `${snippet} {\n  $0\n}` : snippet;
}

function escapeSnippet(text: string): string {
  return text.replace(/[\\$}]/g, "\\$&");
}

/** Tab stop for a quantity: the number is selected, the unit stays behind it. */
export function quantityStop(written: string, index: number): string {
  const [number, unit] = written.split(" ") as [string, string?];
  return `\${${index}:${escapeSnippet(number)}}${unit === undefined ? "" : ` ${escapeSnippet(unit)}`}`;
}

function tabStop(arg: Argument, written: string, index: number): string {
  const spec =
    alternatives(arg.spec).find((one) => one.type === arg.value?.type) ?? alternatives(arg.spec)[0]!;
  switch (spec.type) {
    case "quantity":
      return quantityStop(written, index);
    case "word": {
      const words = Object.keys(spec.words);
      return `\${${index}|${words.map((word) => word.replace(/[\\,|]/g, "\\$&")).join(",")}|}`;
    }
    case "text":
    case "path":
      return `"\${${index}:${escapeSnippet(written.slice(1, -1))}}"`;
    case "reference":
    case "rule":
    case "free":
      return `$${index}`;
    default:
      return `\${${index}:${escapeSnippet(written)}}`;
  }
}
