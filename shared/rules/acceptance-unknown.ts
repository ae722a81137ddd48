import { exampleHop } from "./example-preamble.js";
import { removeAcceptance } from "./fixes/acceptance.js";
import type { AcceptanceRule } from "./rule.js";

export const acceptanceUnknown: AcceptanceRule = {
  scope: "acceptance",
  id: "acceptance-unknown",
  severity: "error",
  title: "An acceptance names no rule that can be accepted",
  checks: "The name of the rule against the list of rules.",
  why: "A misspelt exception excuses nothing, and the reader believes it does.",
  fix: "Write the identifier that stands in the finding.",
  source: "common practice",
  fixes: removeAcceptance,
  good: exampleHop(),
  bad: exampleHop({ more: 'accept antenna-too-high because "mast is being raised"' }),
};
