import { VERSION } from "../../version.js";
import type { ExplainOutput } from "./explain-output.js";
import type { Explained, ExplainFormat } from "./format.js";
import { jsonText } from "./json-text.js";
import { explanationOutput } from "./result-output.js";

export const explainJson: ExplainFormat = {
  name: "json",
  what: "the figures of a hop or a site for programs",
  print: printJson,
};

function printJson({ of, figures }: Explained): Iterable<string> {
  const output: ExplainOutput = {
    schema: "hopwright-explain/2",
    version: VERSION,
    ...of,
    figures: figures.map(explanationOutput),
  };
  return [`${jsonText(output, 1)}\n`];
}
