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
      "Another severity for what a rule about hops, sites or the catalogue finds in this design. Remarks that the rule makes with a severity of their own keep it.",
    fallback: "the rule's own severity",
    source: PRACTICE,
    example: "severity fade-margin error",
  },
  {
    name: "required",
    in: ["network", "file"],
    args: [{ name: "rule", value: { type: "rule" }, meaning: "Identifier of the rule." }],
    repeatable: true,
    meaning:
      "A rule that every hop must pass: no hop can accept its findings, and a hop of which too much is missing to judge it is an error.",
    fallback: "every rule can be accepted, and one that cannot be judged is passed over",
    source: PRACTICE,
    example: "required clearance",
  },
];
