/** What is known about the word under the caret, as markdown. */
import { RULES } from "../../shared/rules/index.js";
import type { Argument, Fact } from "../facts/fact.js";
import type { DesignModel } from "../model/design-model.js";
import { resolvePath } from "../model/path.js";
import { alternatives } from "../schema/index.js";
import { heightText } from "./hover-height.js";
import { interferenceAtFact } from "./hover-interference.js";
import { licenceText } from "./hover-licence.js";
import { nameText } from "./hover-name.js";
import { readingText } from "./hover-reading.js";
import { channelText, modulationText, positionHover, quantityText } from "./hover-value.js";
import { declaredIn, nameOf } from "./occurrences.js";
import { argLine, propertyText } from "./property-text.js";
import type { Carried, Results } from "./results.js";
import type { TextRange } from "./text-range.js";
import { type FactAt, factAt } from "./walk.js";

export interface Hover extends TextRange {
  readonly markdown: string;
}

/** @returns undefined where there is nothing to say: on blanks, comments, words without a meaning */
export function hoverAt(
  model: DesignModel,
  path: string,
  offset: number,
  results: Results,
  carried: Carried = () => undefined,
): Hover | undefined {
  const file = model.file(path);
  const at = file && factAt(file, offset);
  if (!at) return undefined;
  const markdown = at.arg
    ? argumentText(at, at.arg, model, path, results, carried)
    : [
        `**${at.fact.property.name}**`,
        propertyText(at.fact.property),
        at.fact.args[0] && interferenceAtFact(at, at.fact.args[0], results),
        licenceText(at.fact, model, results),
        readingText(at, results),
      ]
        .filter((part) => part !== undefined)
        .join("\n\n");
  return markdown ? { markdown, ...at.range } : undefined;
}

function argumentText(
  at: FactAt,
  arg: Argument,
  model: DesignModel,
  path: string,
  results: Results,
  carried: Carried,
): string {
  const { fact } = at;
  const onLabel = at.range.start !== arg.start;
  const read = readingText(at, results);
  if (onLabel) return [argLine(arg.spec), read].filter((part) => part !== undefined).join("\n\n");
  const name = nameOf(fact, arg, declaredIn(model));
  const felt = interferenceAtFact(at, arg, results);
  if (name)
    return [nameText(name, at, model, results, carried), felt]
      .filter((part) => part !== undefined)
      .join("\n\n");
  const value = valueText(at, arg, model, path);
  const meaning = argMeaning(fact, arg);
  if (!value) return [licenceText(fact, model, results), argLine(arg.spec)].filter(Boolean).join("\n\n");
  return [value, heightText(at, arg, results), read, felt, meaning]
    .filter((part) => part !== undefined)
    .join("\n\n");
}

function valueText(at: FactAt, arg: Argument, model: DesignModel, path: string): string | undefined {
  const { value } = arg;
  switch (value?.type) {
    case "quantity":
      return quantityText(at.fact, arg, value);
    case "number":
      return channelText(at, model) ?? `**${value.number}**`;
    case "word": {
      const words = alternatives(arg.spec).flatMap((spec) =>
        spec.type === "word" || spec.type === "reference" ? [spec.words ?? {}] : [],
      )[0];
      return `**${value.word}**: ${words?.[value.word] ?? ""}`;
    }
    case "free":
      return modulationText(at, value.word, model) ?? `**${value.word}**`;
    case "rule":
      return ruleText(value.word);
    case "position":
      return positionHover(value.position, value.system);
    case "path":
      return `\`${resolvePath(path, value.text) ?? value.text}\``;
    default:
      return undefined;
  }
}

function argMeaning(fact: Fact, { spec }: Argument): string {
  return `*${fact.property.name}*: ${spec.meaning}${spec.fallback ? ` Left out: ${spec.fallback}.` : ""}`;
}

function ruleText(id: string): string {
  const rule = RULES.get(id);
  if (!rule) return `There is no rule \`${id}\`.`;
  return `**${rule.id}** (${rule.severity}): ${rule.title}\n\n${rule.checks}\n\n${rule.why}\n\n${rule.fix}\n\n*Source: ${rule.source}.*`;
}
