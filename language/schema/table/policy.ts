import { PRACTICE, phrase, type Rows } from "./values.js";

/** How a design judges itself: what a team has agreed on, so that the editor, the command line and CI say the same. */
export const policyRows: Rows = [
  {
    name: "severity",
    in: ["network", "file"],
    args: [
      { name: "rule", value: { type: "rule" }, meaning: "Identifier of the rule." },
      {
        name: "value",
        value: phrase(["error", "warning", "info"], (word) => `what the rule finds counts as ${word}`),
        meaning: "How grave its findings are in this design.",
      },
    ],
    repeatable: true,
    meaning:
      "Another severity for what a rule about hops, sites or the catalogue finds in this design. Remarks that the rule makes with a severity of their own keep it. What an objective asks stays an error where it is missed or not judged: a hop is excused from it by `accept` alone.",
    fallback: "the rule's own severity",
    source: PRACTICE,
    example: "severity far-field error",
  },
  {
    name: "required",
    in: ["network", "file"],
    args: [{ name: "rule", value: { type: "rule" }, meaning: "Identifier of the rule." }],
    repeatable: true,
    meaning:
      "A rule from which no hop, site or demand is excused: its findings cannot be accepted, nor can `not-judged` where it lists what this rule judges.",
    fallback: "every rule can be accepted",
    source: PRACTICE,
    example: "required clearance",
  },
];
