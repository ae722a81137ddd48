/** Rules explained, for the terminal. */
import type { KnownRule } from "../../findings/known-rules.js";
import type { Paint } from "../streams.js";
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
