/** What is known to be so and accepted with a reason. */
import { PRACTICE, type Rows, text } from "./values.js";

export const acceptRows: Rows = [
  {
    name: "accept",
    in: ["hop", "site", "demand"],
    alsoCalled: ["waive", "waiver", "exception", "ignore"],
    args: [
      { name: "rule", value: { type: "rule" }, meaning: "Identifier of the rule." },
      {
        name: "until",
        label: "until",
        optional: true,
        value: { type: "date" },
        meaning: "Last day it is accepted.",
        fallback: "no end",
      },
      { name: "because", label: "because", value: text, meaning: "Why." },
    ],
    repeatable: true,
    meaning:
      "A finding that is accepted on purpose. It stays in every report. A finding about a hop is accepted on the hop, one about a site alone (rack, power, wind load) at the site, one about a demand in the demand.",
    source: PRACTICE,
    example: 'accept clearance until 2027-05-01 because "felled next spring"',
  },
];
