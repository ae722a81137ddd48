/** Equipment beyond the radio budget: what units, antennas and couplers are as parts, and how ends are mounted. */
import type { ArgSpec, Context, ValueSpec } from "../types.js";
import { frequency, frequencyRange, quantity, type Rows, ref, text } from "./values.js";

const CATALOGUE = "data of the equipment";
const PRACTICE = "common practice";
const END: readonly Context[] = ["end", "defaults end"];

const yesNo: ValueSpec = { type: "word", words: { yes: "it is so", no: "it is not so" } };
const decibels = quantity("ratio", { min: "0 dB", max: "120 dB" });

/** Ports of indoor cards and of all-outdoor units. */
export const portTypes: ValueSpec = {
  type: "word",
  words: {
    IF: "intermediate frequency, to an outdoor unit",
    FE: "Ethernet, 100 Mbit/s",
    GE: "Ethernet, 1 Gbit/s",
    "2.5GE": "Ethernet, 2.5 Gbit/s",
    "10GE": "Ethernet, 10 Gbit/s",
    "E1-75": "2.048 Mbit/s, 75 ohm, coaxial",
    "E1-120": "2.048 Mbit/s, 120 ohm, pairs",
    "STM-1": "155.52 Mbit/s",
    "order-wire": "voice between the sites",
    data: "auxiliary data",
    "alarm-in": "contact that is watched",
    "alarm-out": "contact that is switched",
    sync: "clock in or out",
  },
};

function one(name: string, value: ValueSpec, meaning: string): readonly ArgSpec[] {
  return [{ name, value, meaning }];
}

/** What a part states of itself, whatever it is. */
export const partRows: Rows = [
  {
    name: "interface",
    in: ["radio", "antenna", "coupler", "feeder"],
    args: one("name", { type: "free", example: "UBR220" }, "Flange, or the word of the catalogue."),
    meaning:
      "Waveguide port towards the next part. Flanges are compared by face, type and guide, other words as they stand.",
    fallback: "not held against the next part",
    source: "IEC 60154-2 for names of flanges, from memory",
    example: "interface UBR220",
  },
  {
    name: "draws",
    in: ["radio", "chassis", "card"],
    args: one("power", quantity("consumption", { min: "0 W", max: "20 kW" }), "Greatest consumption."),
    meaning: "Greatest electrical consumption of one piece; of a chassis, without its cards.",
    fallback: "not in the sums, which say so",
    source: CATALOGUE,
    example: "draws 45 W",
  },
  {
    name: "weight",
    in: ["radio", "antenna", "coupler", "chassis", "card"],
    args: one("mass", quantity("mass", { min: "0 kg", max: "2000 kg" }), "Mass of one piece."),
    meaning: "Weight of one piece.",
    fallback: "not in the sums, which say so",
    source: CATALOGUE,
    example: "weight 4.5 kg",
  },
];

export const unitRows: Rows = [
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
        value: quantity("power level", { min: "-130 dBm", max: "20 dBm" }),
        meaning: "Received level.",
      },
      { name: "voltage", value: quantity("voltage", { min: "0 V", max: "20 V" }), meaning: "Test voltage." },
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
    args: one("value", yesNo, "Whether it can."),
    meaning: "Whether it can cancel the other polarization on its channel.",
    fallback: "not known, not judged",
    source: CATALOGUE,
    example: "xpic yes",
  },
  {
    name: "if-limit",
    in: ["radio"],
    args: [
      { name: "loss", value: decibels, meaning: "Most loss of the IF cable." },
      {
        name: "frequency",
        label: "at",
        value: quantity("frequency", { min: "1 MHz", max: "10 GHz" }),
        meaning: "Highest intermediate frequency.",
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
    args: one("voltage", quantity("voltage", { above: "0 V", max: "60 V" }), "At the unit's input."),
    meaning: "Lowest voltage at which the unit starts.",
    fallback: "the voltage at the unit is not judged",
    source: CATALOGUE,
    example: "least-supply 36 V",
  },
  {
    name: "branching",
    in: ["radio"],
    args: [
      { name: "filter", value: decibels, meaning: "Loss of a channel filter." },
      { name: "pass", label: "pass", value: decibels, meaning: "Loss of each circulator passed." },
    ],
    meaning:
      "Branching network of an all-indoor radio. Channels come off in the reverse order at the far end.",
    fallback: "no loss",
    source: CATALOGUE,
    example: "branching 0.7 dB pass 0.15 dB",
  },
  {
    name: "port",
    in: ["radio"],
    args: one("type", portTypes, "Kind of port."),
    meaning: "Traffic port of an all-outdoor unit; the indoor side needs its like.",
    fallback: "no indoor port is counted for it",
    source: CATALOGUE,
    example: "port 10GE",
  },
  {
    name: "direct-mounting",
    in: ["antenna"],
    args: one("value", yesNo, "Whether units and couplers may sit on its back."),
    meaning: "Whether units and couplers may sit on its back.",
    fallback: "judged by the diameter: usual up to 1.2 m, not above 1.8 m",
    source: CATALOGUE,
    example: "direct-mounting yes",
  },
  {
    name: "takes",
    in: ["antenna"],
    args: one(
      "polarization",
      {
        type: "word",
        words: {
          vertical: "vertical only",
          horizontal: "horizontal only",
          either: "one of the two, by turning unit or feed",
        },
      },
      "What its port takes.",
    ),
    meaning: "Polarization that the port takes.",
    fallback: "either",
    source: CATALOGUE,
    example: "takes either",
  },
  {
    name: "wind-coefficient",
    in: ["antenna"],
    args: one("value", { type: "number", min: 0.1, max: 3 }, "Drag over the frontal area."),
    meaning: "Drag coefficient over the frontal area.",
    fallback: "1.3, a planning aid",
    source: CATALOGUE,
    example: "wind-coefficient 1.2",
  },
  {
    name: "second-band",
    in: ["antenna"],
    args: frequencyRange,
    meaning: "The other band of a dual-band antenna with two feeds.",
    fallback: "one band",
    source: CATALOGUE,
    example: "second-band 71 GHz to 86 GHz",
  },
  {
    name: "transmit-loss",
    in: ["coupler"],
    args: one("value", quantity("ratio", { min: "0 dB", max: "40 dB" }), "Loss outwards."),
    meaning: "Loss outwards where it differs from the loss inwards: the relay of an all-indoor hot standby.",
    fallback: "as inwards",
    source: CATALOGUE,
    example: "transmit-loss 0.5 dB",
  },
  {
    name: "isolation",
    in: ["coupler"],
    args: one("value", decibels, "Between the ports of its units."),
    meaning: "Isolation between the ports of its units.",
    source: CATALOGUE,
    example: "isolation 25 dB",
  },
  {
    name: "guide",
    in: ["feeder"],
    args: one("size", { type: "free", example: "R220" }, "Name after IEC, EIA or RCSC."),
    meaning: "Size of the rectangular guide. Its loss cannot lie below that of smooth copper.",
    fallback: "the loss is not held against physics",
    source: "IEC 60153-2, EIA RS-261, names partly from memory",
    example: "guide R220",
  },
  {
    name: "standby-margin",
    in: ["objective"],
    args: one("value", quantity("ratio", { min: "0 dB", max: "60 dB" }), "Least margin."),
    meaning: "Fade margin that must be left after one switch to a standby arm.",
    fallback: "the standby arm must reach the threshold",
    source: PRACTICE,
    example: "standby-margin 10 dB",
  },
];

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
    example: 'cable IF10 "IF cable, 10 mm" {',
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

/** Facts of a hop; they come before the others. */
export const pairRows: Rows = [
  {
    name: "pair",
    in: ["hop"],
    args: one("hop", ref("hop"), "The hop of the other band."),
    meaning: "The other hop of a dual-band pair: same sites, carriers aggregated. Both hops name each other.",
    source: PRACTICE,
    example: "pair KELD-TARN-80",
  },
];

export const installationRows: Rows = [
  {
    name: "mounting",
    in: END,
    args: one(
      "value",
      {
        type: "word",
        words: {
          direct: "units or coupler on the back of the antenna",
          separate: "on the pole, with a flexible waveguide",
        },
      },
      "How units or coupler meet the antenna.",
    ),
    meaning: "How units meet the antenna where there is no coupler to say it with.",
    fallback: "as the coupler says; with a feeder separate",
    source: PRACTICE,
    example: "mounting separate",
  },
  {
    name: "unit-sub-band",
    in: END,
    args: one("name", { type: "free", example: "A" }, "Sub-band of the radio's catalogue entry."),
    meaning: "Sub-band of the units ordered.",
    fallback: "the one that holds the frequencies",
    source: PRACTICE,
    example: "unit-sub-band A",
  },
  {
    name: "cable",
    in: END,
    args: [
      { name: "cable", value: ref("cable"), meaning: "Cable to each unit." },
      {
        name: "length",
        label: "length",
        optional: true,
        value: quantity("length", { above: "0 m", max: "20 km" }),
        meaning: "Length of each.",
        fallback: "estimated from the antenna's height and the site's `cable-run`",
      },
    ],
    meaning: "Cable from indoors to each unit: one for each, never shared.",
    fallback: "not in the parts list",
    source: PRACTICE,
    example: "cable IF10 length 45 m",
  },
  {
    name: "if-port",
    in: END,
    args: [
      {
        name: "slot",
        value: { type: "number", integer: true, min: 1, max: 99 },
        meaning: "Slot of the IF card.",
      },
      {
        name: "port",
        slash: true,
        value: { type: "number", integer: true, min: 1, max: 99 },
        meaning: "Port of the card.",
      },
      {
        name: "chassis",
        label: "in",
        optional: true,
        value: { type: "free", example: "A" },
        meaning: "Name of the chassis at the site.",
        fallback: "the first",
      },
    ],
    repeatable: true,
    meaning: "IF port of a unit, in the order of the branches: main before standby.",
    fallback: "assigned automatically",
    source: PRACTICE,
    example: "if-port 3 / 1",
  },
];
