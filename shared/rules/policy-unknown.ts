import { exampleHop } from "./example-preamble.js";
import type { AcceptanceRule } from "./rule.js";

export const policyUnknown: AcceptanceRule = {
  scope: "acceptance",
  id: "policy-unknown",
  severity: "error",
  title: "A severity or requirement names no rule that it can apply to",
  checks:
    "The name of the rule against the list of rules. What is about acceptances themselves holds as it is, and a rule that judges what an objective asks stays an error.",
  why: "An agreement that holds for nothing is believed to hold.",
  fix: "Write the identifier that stands in the finding; a hop that misses its objective can accept it with a reason.",
  source: "common practice",
  good: `severity not-counted warning\n\n${exampleHop()}`,
  bad: `severity not-counteds warning\n\n${exampleHop()}`,
};
