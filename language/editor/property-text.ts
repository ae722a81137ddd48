/** What the property table says of a property or an argument, as markdown. */
import { unitSymbols } from "../../shared/units/units.js";
import { alternatives, END } from "../schema/index.js";
import type { ArgSpec, Property, ValueSpec } from "../schema/types.js";

export function propertyText(property: Property): string {
  const parts = [property.meaning];
  const args = property.args.filter((arg) => property.args.length > 1 || hasLimits(arg));
  if (args.length > 0) parts.push(args.map((arg) => `- ${argLine(arg)}`).join("\n"));
  if (property.fallback !== undefined) parts.push(`Left out: ${property.fallback}.`);
  parts.push(
    code(property === END || property.example.endsWith("{") ? `${property.example} ... }` : property.example),
  );
  parts.push(`*Source: ${property.source}.*`);
  return parts.join("\n\n");
}

/** `` `at` length (m, km, ...), 0 m to 700 m: Height of its centre. Left out: ... `` */
export function argLine(arg: ArgSpec): string {
  const kind = alternatives(arg).map(kindText).join(" or ");
  const name = arg.label === undefined ? `*${arg.name}*` : `\`${arg.label}\``;
  const fallback = arg.fallback ? ` Left out: ${arg.fallback}.` : "";
  return `${name}${arg.optional ? " (may be left out)" : ""}: ${arg.meaning}${kind ? ` ${sentence(kind)}` : ""}${fallback}`;
}

function kindText(spec: ValueSpec): string {
  switch (spec.type) {
    case "quantity":
      return `${spec.dimension} in ${unitSymbols(spec.dimension).join(", ")}${rangeText(spec)}`;
    case "number":
      return `${spec.integer ? "a whole number" : "a number without unit"}${rangeText(spec)}`;
    case "word":
      return Object.keys(spec.words).length <= 6
        ? Object.keys(spec.words)
            .map((word) => `\`${word}\``)
            .join(", ")
        : "";
    case "reference":
      return [
        `name of the ${spec.kind}${spec.orKind ? ` or ${spec.orKind}` : ""}`,
        ...Object.keys(spec.words ?? {}).map((word) => `\`${word}\``),
      ].join(" or ");
    case "date":
      return "a date, year-month-day";
    default:
      return "";
  }
}

function rangeText(spec: {
  readonly min?: string | number;
  readonly max?: string | number;
  readonly above?: string;
  readonly below?: string;
}): string {
  const least = spec.above === undefined ? spec.min : `above ${spec.above}`;
  if (least !== undefined && spec.below !== undefined) return `, ${least} and below ${spec.below}`;
  if (least !== undefined && spec.max !== undefined) return `, ${least} to ${spec.max}`;
  if (least !== undefined) return spec.above === undefined ? `, at least ${least}` : `, ${least}`;
  return spec.max === undefined ? "" : `, at most ${spec.max}`;
}

function hasLimits(arg: ArgSpec): boolean {
  return alternatives(arg).some((spec) => kindText(spec) !== "");
}

function code(text: string): string {
  return `\`\`\`hopwright\n${text}\n\`\`\``;
}

function sentence(text: string): string {
  return /^[a-z]/.test(text) ? `${text[0]!.toUpperCase()}${text.slice(1)}.` : `${text}.`;
}
