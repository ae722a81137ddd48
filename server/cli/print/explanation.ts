/** Rules and figures explained, for the terminal. */
import type { Explanation } from "../../../shared/report/explanation.js";
import { inputLine } from "../../../shared/words/inputs.js";
import { shown } from "../../../shared/words/message.js";
import { methodShown } from "../../../shared/words/methods.js";
import { noteMessage } from "../../../shared/words/notes.js";
import type { KnownRule } from "../../findings/known-rules.js";
import { VERSION } from "../../version.js";
import type { Paint } from "../streams.js";
import type { ExplainOutput } from "./explain-output.js";
import { jsonText } from "./json-text.js";
import { explanationOutput } from "./result-output.js";
import { safe } from "./safe.js";
import { wrapped } from "./wrap.js";

const WIDTH = 78;

export function* ruleText(rule: KnownRule, paint: Paint): Iterable<string> {
  yield `${paint("bold", `${rule.id}${rule.severity === undefined ? "" : ` (${rule.severity})`}`)}\n`;
  yield `${wrapped(rule.title, WIDTH)}\n`;
  const parts: [string, string | undefined][] = [
    ["What is checked", rule.checks],
    ["Why it matters", rule.why],
    ["How to mend it", rule.fix],
    ["Source", rule.source],
  ];
  for (const [title, text] of parts) {
    if (text !== undefined) yield `\n${paint("bold", title)}\n${wrapped(text, WIDTH - 2, "  ")}\n`;
  }
  const examples: [string, string | undefined][] = [
    ["Nothing is found here", rule.good],
    ["This is found", rule.bad],
  ];
  for (const [title, text] of examples) {
    if (text !== undefined) yield `\n${paint("bold", title)}\n${text.trim().replace(/^/gm, "  ")}\n`;
  }
}

export function* ruleList(rules: readonly KnownRule[], paint: Paint): Iterable<string> {
  const width = Math.max(...rules.map(({ id }) => id.length));
  for (const { id, title } of rules) yield `${paint("bold", id.padEnd(width))}  ${title}\n`;
}

/** The chain of every figure: value, method with its status, inputs with their origin, steps. */
export function* explanationText(explanations: readonly Explanation[], paint: Paint): Iterable<string> {
  for (const { figure, value, methods, inputs, steps, notes } of explanations) {
    yield `${paint("bold", safe(figure))}: ${safe(value)}\n`;
    for (const { source, what, standing } of methods.map(methodShown))
      yield line("method", `${shown(what)}: ${shown(source)} (${shown(standing)})`);
    for (const input of inputs) yield line("input", shown(inputLine(input, " = ")));
    for (const step of steps) yield line("step", `${step.name} = ${step.value}`);
    for (const one of notes) yield line("remark", shown(noteMessage(one)));
    yield "\n";
  }
}

export function explanationJson(hop: string, figures: readonly Explanation[]): Iterable<string> {
  const output: ExplainOutput = {
    schema: "hopwright-explain/2",
    version: VERSION,
    hop,
    figures: figures.map(explanationOutput),
  };
  return [`${jsonText(output, 1)}\n`];
}

/** Further lines stand under the text, not under the word before it. */
function line(kind: string, text: string): string {
  const indent = " ".repeat(10);
  return `${wrapped(safe(text), WIDTH - indent.length, indent).replace(indent, `  ${kind}`.padEnd(indent.length))}\n`;
}
