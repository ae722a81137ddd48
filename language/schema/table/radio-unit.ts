/** Radios as parts: how a unit is built, what it may be connected to. */
import { portTypes } from "./part.js";
import { CATALOGUE, frequency, one, PRACTICE, quantity, type Rows, yesNo } from "./values.js";

const decibels = quantity("ratio", { min: "0 dB", max: "120 dB" });

export const radioUnitRows: Rows = [
  {
    name: "construction",
    in: ["radio"],
    args: one(
      "value",
      {
        type: "word",
        words: {
          "split-mount": "outdoor unit, IF cable, indoor card",
          "all-outdoor": "everything outdoors, Ethernet and power to it",
          "all-indoor": "everything indoors, a long feeder to the antenna",
        },
      },
      "Where transmitter and receiver stand.",
      "unit.construction",
    ),
    meaning: "Where transmitter and receiver stand.",
    fallback: "split-mount",
    source: CATALOGUE,
    example: "construction split-mount",
  },
  {
    name: "sub-band",
    in: ["radio"],
    args: [
      { name: "name", value: { type: "free", example: "A" }, meaning: "How the catalogue calls it." },
      { name: "low", label: "low", value: frequency, meaning: "Lower edge in the low half." },
      { name: "lowTo", label: "to", value: frequency, meaning: "Upper edge in the low half." },
      { name: "high", label: "high", value: frequency, meaning: "Lower edge in the high half." },
      { name: "highTo", label: "up to", value: frequency, meaning: "Upper edge in the high half." },
    ],
    repeatable: true,
    meaning: "A sub-band that units are made for. A hop takes the one that holds its frequencies.",
    fallback: "units cover each half whole",
    source: CATALOGUE,
    example: "sub-band A low 17.7 GHz to 18.2 GHz high 18.71 GHz up to 19.21 GHz",
  },
  {
    name: "rssi",
    in: ["radio"],
    args: [
      {
        name: "level",
        value: quantity("power level", {
          min: "-130 dBm",
          max: "20 dBm",
          usual: ["-100 to -10 dBm", "-130 to -40 dBW"],
        }),
        meaning: "Received level.",
        into: "rssi.levelDbm",
      },
      {
        name: "voltage",
        value: quantity("voltage", { min: "0 V", max: "20 V" }),
        meaning: "Test voltage.",
        into: "rssi.voltageV",
      },
    ],
    repeatable: true,
    meaning: "A point of the test voltage over received level; between two points linear.",
    fallback: "no expected voltage",
    source: CATALOGUE,
    example: "rssi -90 dBm 0.4 V",
  },
  {
    name: "xpic",
    in: ["radio", "card"],
    args: one("value", yesNo, "Whether it can.", ["unit.xpic", "card.xpic"]),
    meaning: "Whether it can cancel the other polarization on its channel.",
    fallback: "not known, not judged",
    source: CATALOGUE,
    example: "xpic yes",
  },
  {
    name: "if-limit",
    in: ["radio"],
    args: [
      { name: "loss", value: decibels, meaning: "Most loss of the IF cable.", into: "unit.ifLimit.lossDb" },
      {
        name: "frequency",
        label: "at",
        value: quantity("frequency", {
          min: "1 MHz",
          max: "10 GHz",
          usual: ["5 to 6000 MHz", "0.1 to 6 GHz"],
        }),
        meaning: "Highest intermediate frequency.",
        into: "unit.ifLimit.frequencyHz",
      },
    ],
    meaning: "Most loss of the IF cable that the unit equalizes.",
    fallback: "the cable's loss is not judged",
    source: CATALOGUE,
    example: "if-limit 25 dB at 350 MHz",
  },
  {
    name: "least-supply",
    in: ["radio"],
    args: one(
      "voltage",
      quantity("voltage", { above: "0 V", max: "60 V" }),
      "At the unit's input.",
      "unit.leastSupplyV",
    ),
    meaning: "Lowest voltage at which the unit starts.",
    fallback: "the voltage at the unit is not judged",
    source: CATALOGUE,
    example: "least-supply 36 V",
  },
  {
    name: "branching",
    in: ["radio"],
    args: [
      {
        name: "filter",
        value: decibels,
        meaning: "Loss of a channel filter.",
        into: "unit.branching.filterDb",
      },
      {
        name: "pass",
        label: "pass",
        value: decibels,
        meaning: "Loss of each circulator passed.",
        into: "unit.branching.passDb",
      },
    ],
    meaning:
      "Branching network of an all-indoor radio. Channels come off in the reverse order at the far end.",
    fallback: "no loss",
    source: CATALOGUE,
    example: "branching 0.7 dB pass 0.15 dB",
  },
  {
    name: "turns",
    in: ["radio"],
    args: one("value", yesNo, "Whether it is turned.", "unit.turns"),
    meaning:
      "Whether the unit is turned by 90 degrees for the other polarization; where it is not, it follows the antenna, whose feed is turned.",
    fallback: "directly mounted it is turned, apart from the antenna the feed is",
    source: PRACTICE,
    example: "turns yes",
  },
  {
    name: "generation",
    in: ["radio"],
    args: one("name", { type: "free", example: "G2" }, "As IF cards name it.", "unit.generation"),
    meaning: "Generation of the outdoor unit. An IF card states which ones it drives.",
    fallback: "not held against the IF card",
    source: CATALOGUE,
    example: "generation G2",
  },
  {
    name: "port",
    in: ["radio"],
    args: one("type", portTypes, "Kind of port.", "unit.port"),
    meaning: "Traffic port of an all-outdoor unit; the indoor side needs its like.",
    fallback: "no indoor port is counted for it",
    source: CATALOGUE,
    example: "port 10GE",
  },
];
