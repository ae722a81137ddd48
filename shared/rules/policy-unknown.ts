import { exampleHop } from "./example-preamble.js";
import type { AcceptanceRule } from "./rule.js";

export const policyUnknown: AcceptanceRule = {
  scope: "acceptance",
  id: "policy-unknown",
  severity: "error",
  title: "A severity or requirement names no rule that it can apply to",
  checks: "The name of the rule against the list of rules.",
  why: "A misspelt agreement holds for nothing, and the reader believes it does.",
  fix: "Write the identifier that stands in the finding.",
  source: "common practice",
  good: `severity fade-margin warning\n\n${exampleHop()}`,
  bad: `severity fade-margins warning\n\n${exampleHop()}`,
};
