/** Cables between units. */
import { CATALOGUE, one, quantity, type Rows, ref, text } from "./values.js";

export const cableRows: Rows = [
  {
    name: "cable",
    in: ["file"],
    args: [
      { name: "name", value: { type: "name" }, meaning: "Name that ends refer to." },
      { name: "title", optional: true, value: text, meaning: "What it is, in words." },
      {
        name: "like",
        label: "like",
        optional: true,
        value: ref("cable"),
        meaning: "cable whose facts hold unless stated here.",
      },
    ],
    block: "cable",
    meaning: "A cable between indoors and the unit on the structure.",
    source: CATALOGUE,
    example: 'cable COAX-10 "IF cable, 10 mm" {',
  },
  {
    name: "kind",
    in: ["cable"],
    args: one(
      "value",
      {
        type: "word",
        words: {
          coaxial: "IF cable",
          ethernet: "copper Ethernet, 100 m at most",
          fibre: "optical fibre",
        },
      },
      "Sort of cable.",
    ),
    meaning: "Sort of cable.",
    fallback: "coaxial",
    source: CATALOGUE,
    example: "kind coaxial",
  },
  {
    name: "loss",
    in: ["cable"],
    args: [
      {
        name: "value",
        value: quantity("loss per length", { above: "0 dB/m", max: "10 dB/m" }),
        meaning: "Loss for each metre.",
      },
      {
        name: "at",
        label: "at",
        value: quantity("frequency", { min: "1 MHz", max: "10 GHz" }),
        meaning: "Frequency of this figure.",
      },
    ],
    repeatable: true,
    meaning: "Loss of the cable; the conductor and dielectric parts are fitted through the points.",
    fallback: "not judged",
    source: CATALOGUE,
    example: "loss 15 dB/100m at 350 MHz",
  },
  {
    name: "loop-resistance",
    in: ["cable"],
    args: one(
      "value",
      quantity("resistance per length", { min: "0 ohm/km", max: "1000 ohm/km" }),
      "Inner and outer conductor together.",
    ),
    meaning: "Direct-current resistance of both conductors together.",
    fallback: "the voltage at the unit is not judged",
    source: CATALOGUE,
    example: "loop-resistance 5 ohm/km",
  },
  {
    name: "longest",
    in: ["cable"],
    args: one("length", quantity("length", { above: "0 m", max: "100 km" }), "Greatest length."),
    meaning: "Greatest length that its maker allows.",
    fallback: "100 m for copper Ethernet, else not judged",
    source: CATALOGUE,
    example: "longest 300 m",
  },
  {
    name: "connector",
    in: ["cable"],
    args: one("name", { type: "free", example: "N" }, "Kind of connector."),
    meaning: "Connector at both ends; the parts list counts two a cable.",
    fallback: "no connectors are counted",
    source: CATALOGUE,
    example: "connector N",
  },
];
