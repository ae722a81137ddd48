import { exampleHop } from "./example-preamble.js";
import type { AcceptanceRule } from "./rule.js";

export const acceptanceExpired: AcceptanceRule = {
  scope: "acceptance",
  id: "acceptance-expired",
  severity: "error",
  title: "An acceptance has run out",
  checks: "The last day of an acceptance against today's date. The accepted finding counts again.",
  why: "An exception was agreed for a time; what it excused is still there.",
  fix: "Mend the cause, or agree on a new date.",
  source: "common practice",
  good: exampleHop({
    keld: "antenna DISH60-18 at 70 m\n    transmits high",
    more: 'accept antenna-above-structure until 2999-01-01 because "mast is being raised"',
  }),
  bad: exampleHop({
    keld: "antenna DISH60-18 at 70 m\n    transmits high",
    more: 'accept antenna-above-structure until 2001-01-01 because "mast is being raised"',
  }),
};
