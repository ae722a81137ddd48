import { exampleHop } from "./example-preamble.js";
import type { AcceptanceRule } from "./rule.js";

export const requiredNotJudged: AcceptanceRule = {
  scope: "acceptance",
  id: "required-not-judged",
  severity: "error",
  title: "A rule that the design requires must be judged on every hop",
  checks:
    "Whether what the rule needs is there: positions, a profile, levels in both directions, an objective, for the availability what rain and multipath need.",
  why: "A rule that is passed over finds nothing, which reads as if all were well.",
  fix: "Supply what the message names.",
  source: "common practice",
  good: `required fade-margin\n\n${exampleHop()}`,
  bad: `required fade-margin\n\n${exampleHop().replace("  objective trunk\n", "")}`,
};
