import { inputLine } from "../../../shared/words/inputs.js";
import { shown } from "../../../shared/words/message.js";
import { methodShown } from "../../../shared/words/methods.js";
import { noteMessage } from "../../../shared/words/notes.js";
import type { Explained, ExplainFormat } from "./format.js";
import { safe } from "./safe.js";
import { wrapped } from "./wrap.js";

const WIDTH = 78;

export const explainText: ExplainFormat = {
  name: "text",
  what: "for reading: each figure of a hop or a site with its methods, inputs, steps and remarks",
  print: printText,
};

/** The chain of every figure: value, method with its status, inputs with their origin, steps. */
function* printText({ figures, paint }: Explained): Iterable<string> {
  for (const { figure, value, methods, inputs, steps, notes } of figures) {
    yield `${paint("bold", safe(figure))}: ${safe(value)}\n`;
    for (const { source, what, standing } of methods.map(methodShown))
      yield line("method", `${shown(what)}: ${shown(source)} (${shown(standing)})`);
    for (const input of inputs) yield line("input", shown(inputLine(input, " = ")));
    for (const step of steps) yield line("step", `${step.name} = ${step.value}`);
    for (const one of notes) yield line("remark", shown(noteMessage(one)));
    yield "\n";
  }
}

/** Further lines stand under the text, not under the word before it. */
function line(kind: string, text: string): string {
  const indent = " ".repeat(10);
  return `${wrapped(safe(text), WIDTH - indent.length, indent).replace(indent, `  ${kind}`.padEnd(indent.length))}\n`;
}
