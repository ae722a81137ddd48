import { exampleHop } from "./example-preamble.js";
import { removeAcceptance } from "./fixes/acceptance.js";
import type { AcceptanceRule } from "./rule.js";

export const acceptanceUnused: AcceptanceRule = {
  scope: "acceptance",
  id: "acceptance-unused",
  severity: "warning",
  title: "An acceptance excuses nothing",
  checks:
    "Whether the accepted rule finds anything on this hop or at this site. Silent where that rule could not be judged.",
  why: "A stale exception would silently excuse the next mistake.",
  fix: "Remove the line.",
  source: "common practice",
  fixes: removeAcceptance,
  good: exampleHop({
    keld: "antenna DISH60-18 at 70 m\n    transmits high",
    more: 'accept antenna-above-structure because "mast is being raised"',
  }),
  bad: exampleHop({ more: 'accept antenna-above-structure because "mast is being raised"' }),
};
