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
      "cable.kind",
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
        value: quantity("loss per length", {
          above: "0 dB/m",
          max: "10 dB/m",
          usual: ["0.5 to 100 dB/100m", "0.005 to 1 dB/m"],
        }),
        meaning: "Loss for each metre.",
        into: "loss.lossDbPerM",
      },
      {
        name: "at",
        label: "at",
        value: quantity("frequency", {
          min: "1 MHz",
          max: "10 GHz",
          usual: ["5 to 6000 MHz", "0.1 to 6 GHz"],
        }),
        meaning: "Frequency of this figure.",
        into: "loss.frequencyHz",
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
      quantity("resistance per length", {
        min: "0 ohm/km",
        max: "1000 ohm/km",
        usual: ["0.1 to 200 ohm/km", "0.0001 to 0.2 ohm/m"],
      }),
      "Inner and outer conductor together.",
      "cable.loopOhmPerM",
    ),
    meaning: "Direct-current resistance of both conductors together.",
    fallback: "the voltage at the unit is not judged",
    source: CATALOGUE,
    example: "loop-resistance 5 ohm/km",
  },
  {
    name: "longest",
    in: ["cable"],
    args: one(
      "length",
      quantity("length", {
        above: "0 m",
        max: "100 km",
        usual: ["5 to 2000 m", "0.1 to 80 km", "15 to 6600 ft"],
      }),
      "Greatest length.",
      "cable.longestM",
    ),
    meaning: "Greatest length that its maker allows.",
    fallback: "100 m for copper Ethernet, else not judged",
    source: CATALOGUE,
    example: "longest 300 m",
  },
  {
    name: "weight-per-length",
    in: ["cable", "feeder"],
    args: one(
      "value",
      quantity("mass per length", {
        min: "0 kg/m",
        max: "50 kg/m",
        usual: ["0.01 to 5 kg/m", "1 to 300 kg/100m", "10 to 3000 kg/km"],
      }),
      "Mass of each metre.",
      "line.kgPerM",
    ),
    meaning: "Weight of the line, for what hangs on the structure: from the antenna's height down.",
    fallback: "not in the sums, which say so",
    source: CATALOGUE,
    example: "weight-per-length 15 kg/100m",
  },
  {
    name: "diameter",
    in: ["cable", "feeder"],
    args: one(
      "value",
      quantity("length", { above: "0 mm", max: "0.5 m", usual: ["2 to 60 mm", "0.2 to 6 cm"] }),
      "Over the jacket.",
      "line.diameterM",
    ),
    meaning: "Outer diameter, for the wind on the line: from the antenna's height down.",
    fallback: "the wind on it is not counted, which is said",
    source: CATALOGUE,
    example: "diameter 10 mm",
  },
  {
    name: "connector",
    in: ["cable"],
    args: one("name", { type: "free", example: "N" }, "Kind of connector.", "cable.connector"),
    meaning: "Connector at both ends; the parts list counts two a cable.",
    fallback: "no connectors are counted",
    source: CATALOGUE,
    example: "connector N",
  },
];
