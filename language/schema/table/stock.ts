/** Spare parts, and what the grounding follows. */
import { one, PRACTICE, quantity, type Rows } from "./values.js";

export const stockRows: Rows = [
  {
    name: "spare",
    in: ["network"],
    args: [
      {
        name: "kind",
        value: {
          type: "word",
          words: {
            unit: "outdoor units, by half and sub-band",
            antenna: "antennas",
            coupler: "couplers and orthomode transducers",
            feeder: "feeders",
            cable: "cables",
            chassis: "chassis",
            card: "cards",
          },
        },
        meaning: "Kind of part.",
      },
      {
        name: "share",
        value: quantity("percentage", { min: "0 %", max: "100 %" }),
        meaning: "Spares for so many in use, rounded up, for each type of part.",
      },
      {
        name: "least",
        label: "least",
        optional: true,
        value: { type: "number", integer: true, min: 0, max: 999 },
        meaning: "At least so many of each type.",
        fallback: "0",
      },
    ],
    repeatable: true,
    meaning: "Rule for spare parts.",
    fallback: "no spares",
    source: PRACTICE,
    example: "spare unit 5 % least 1",
  },
  {
    name: "grounding",
    in: ["network"],
    args: one(
      "every",
      quantity("length", { min: "0.5 m", max: "1 km", usual: ["5 to 200 m", "15 to 650 ft"] }),
      "Of cable.",
      "network.groundingEveryM",
    ),
    meaning:
      "Grounding kits along a cable: one for each such length, beside those at the unit, at the foot of the structure and at the entry.",
    fallback: "30 m",
    source: PRACTICE,
    example: "grounding 30 m",
  },
];
