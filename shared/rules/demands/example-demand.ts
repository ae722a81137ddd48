/** A demand over the hop of the examples, with facts put in place of its own. */
import { exampleHop } from "../example-preamble.js";

export function exampleDemand(
  facts: readonly string[],
  parts: Parameters<typeof exampleHop>[0] = {},
): string {
  const lines = ["from KELD to TARN", ...facts].map((fact) => `  ${fact}`);
  return `${exampleHop(parts)}\n\ndemand SCHOOL {\n${lines.join("\n")}\n}`;
}
