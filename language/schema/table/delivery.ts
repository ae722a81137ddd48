/** How far the parts of an end or a site are on their way. */
import { PRACTICE, type Rows, text } from "./values.js";

export const deliveryRows: Rows = [
  {
    name: "delivery",
    in: ["site", "end"],
    args: [
      {
        name: "progress",
        value: {
          type: "word",
          words: { ordered: "ordered, not there yet", delivered: "there, or in the store for it" },
        },
        meaning: "How far they are.",
      },
      {
        name: "date",
        optional: true,
        value: { type: "date" },
        meaning: "Day of the order or of the delivery.",
        fallback: "not told",
      },
      {
        name: "part",
        label: "of",
        optional: true,
        value: {
          type: "word",
          words: {
            unit: "outdoor or all-indoor units",
            antenna: "antennas",
            coupler: "couplers",
            feeder: "feeders and waveguides",
            cable: "IF, Ethernet and fibre cables",
            connector: "connectors",
            "grounding-kit": "grounding kits",
            termination: "terminations",
            mount: "mounts and brackets",
            "patch-cable": "patch cables",
            chassis: "chassis",
            card: "cards",
          },
        },
        meaning: "Which of them.",
        fallback: "all of this end, or those of the site that belong to no hop",
      },
      { name: "remark", optional: true, value: text, meaning: "An order, a note.", fallback: "none" },
    ],
    repeatable: true,
    meaning:
      "How far parts are, beside them in the parts lists. A line about one kind holds before one about all; of two about the same the last one holds.",
    fallback: "not told",
    source: PRACTICE,
    example: 'delivery delivered 2026-11-20 of antenna "order 4711"',
  },
];
