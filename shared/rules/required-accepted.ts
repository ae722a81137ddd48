import { exampleHop } from "./example-preamble.js";
import type { AcceptanceRule } from "./rule.js";

const ABOVE = {
  keld: "antenna DISH60-18 at 70 m\n    transmits high",
  more: 'accept antenna-above-structure because "mast is being raised"',
};

export const requiredAccepted: AcceptanceRule = {
  scope: "acceptance",
  id: "required-accepted",
  severity: "error",
  title: "A hop or site accepts what the design requires",
  checks:
    "The acceptances of a hop or site against the rules that the design requires. The accepted finding counts all the same.",
  why: "The team agreed that nobody may be excused from this rule.",
  fix: "Mend the cause and remove the line, or agree to require the rule no more.",
  source: "common practice",
  good: `required clearance\n\n${exampleHop(ABOVE)}`,
  bad: `required antenna-above-structure\n\n${exampleHop(ABOVE)}`,
};
