import { exampleHop } from "./example-preamble.js";
import type { AcceptanceRule } from "./rule.js";

/** Stands where a quick fix leaves the reason to whoever accepts; told until it is replaced. */
export const REASON_TO_WRITE = "reason to be written";

export const acceptanceReason: AcceptanceRule = {
  scope: "acceptance",
  id: "acceptance-reason",
  severity: "error",
  title: "An acceptance must say why",
  checks:
    "Whether the reason of an acceptance has letters or figures: otherwise it excuses nothing. A warning while the words of the quick fix still stand there.",
  why: "Whoever reads the report in five years has nothing but the reason to judge by.",
  fix: "Write who agreed and why the finding may stand.",
  source: "common practice",
  good: exampleHop({
    keld: "antenna DISH60-18 at 70 m\n    transmits high",
    more: 'accept antenna-above-structure because "mast is being raised"',
  }),
  bad: exampleHop({
    keld: "antenna DISH60-18 at 70 m\n    transmits high",
    more: 'accept antenna-above-structure because ""',
  }),
};
