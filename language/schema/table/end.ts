/** An end of a hop: antennas and what leads to them, power, how it is mounted. */

import { FURTHER } from "../../../shared/equipment/stands.js";
import { ARRANGEMENT_WORDS } from "../arrangements.js";
import type { Context, Property } from "../types.js";
import { stateArgs } from "./state.js";
import { frequency, one, PRACTICE, quantity, type Rows, ref, text } from "./values.js";

const END: readonly Context[] = ["end", "defaults end"];
const antennaHeight = quantity("length", { min: "0 m", max: "700 m", usual: ["2 to 200 m", "6 to 650 ft"] });

const couplerMeant = { name: "coupler", value: ref("coupler"), meaning: "Coupler or orthomode transducer." };
const couplerMounting = {
  name: "mounting",
  optional: true,
  value: {
    type: "word",
    words: { direct: "on the back of the antenna", separate: "on the pole, with a flexible waveguide" },
  },
  meaning: "How it is mounted.",
} as const;

const feederLength = {
  name: "length",
  label: "length",
  value: quantity("length", {
    above: "0 m",
    max: "300 m",
    usual: ["0.2 to 200 m", "20 to 300 cm", "1 to 650 ft"],
  }),
  meaning: "Its length.",
} as const;

export const endRows: Rows = [
  {
    name: "antenna",
    in: END,
    alsoCalled: ["dish", "aerial"],
    args: [
      { name: "antenna", value: ref("antenna"), meaning: "Antenna.", into: "end.antenna" },
      {
        name: "at",
        label: "at",
        optional: true,
        value: antennaHeight,
        meaning: "Height of its centre above ground.",
      },
      ...stateArgs,
    ],
    meaning: "The antenna and the height of its centre above ground.",
    source: PRACTICE,
    example: "antenna DISH60-18 at 24 m",
  },
  {
    name: "height",
    in: END,
    alsoCalled: ["agl", "antenna-height"],
    args: [{ name: "value", value: antennaHeight, meaning: "Height of the antenna's centre above ground." }],
    meaning: "Height of the antenna's centre above ground, where the antenna comes from the defaults.",
    source: PRACTICE,
    example: "height 24 m",
  },
  ...FURTHER.map(
    (place): Property => ({
      name: `${place}-antenna`,
      in: END,
      args: [
        { name: "antenna", value: ref("antenna"), meaning: "Antenna." },
        { name: "at", label: "at", value: antennaHeight, meaning: "Height of its centre above ground." },
        ...stateArgs,
      ],
      meaning: `The ${place} antenna of this end, for the units that the ${place === "second" ? "first has" : "others have"} no place for: two units without a coupler between them, the fifth to the eighth carrier, or four on orthomode transducers.`,
      fallback: "no more antennas are ordered, hung and counted than are stated",
      source: PRACTICE,
      example: `${place}-antenna DISH60-18 at 22 m`,
    }),
  ),
  {
    name: "diversity-antenna",
    in: END,
    alsoCalled: ["diversity", "space-diversity"],
    args: [
      {
        name: "antenna",
        value: ref("antenna"),
        meaning: "Second receiving antenna.",
        into: "end.diversityAntenna",
      },
      {
        name: "at",
        label: "at",
        value: antennaHeight,
        meaning: "Height of its centre above ground.",
        into: "end.diversityHeightM",
      },
      ...stateArgs,
    ],
    meaning: "Second antenna of space diversity at this end.",
    fallback: "space diversity is not counted in the direction towards this end",
    source: "Rec. ITU-R P.530-18 section 6.2.4, from memory",
    example: "diversity-antenna DISH60-18 at 14 m",
  },
  {
    name: "arrangement",
    in: ["end"],
    alsoCalled: ["configuration", "protection", "redundancy", "scheme"],
    args: [
      {
        name: "value",
        value: { type: "word", words: ARRANGEMENT_WORDS },
        meaning: "Carriers and protection of this end.",
      },
    ],
    meaning:
      "What this end is built as, where the other is built otherwise: hot standby or a second receiving antenna at one end only. Levels, outage, wiring and parts count it here and in the direction that it acts on. Carriers, frequencies, polarizations, XPIC and construction are those of both ends.",
    fallback: "the hop's",
    source: PRACTICE,
    example: "arrangement 1+1 hot-standby",
  },
  {
    name: "coupler",
    in: END,
    alsoCalled: ["combiner", "splitter", "hybrid"],
    args: [
      { ...couplerMeant, into: "end.coupler" },
      { ...couplerMounting, into: "end.mounting" },
      ...stateArgs,
    ],
    meaning: "What joins the outdoor units to the antenna at this end.",
    source: PRACTICE,
    example: "coupler H18-U direct",
  },
  ...FURTHER.map(
    (place): Property => ({
      name: `${place}-coupler`,
      in: END,
      args: [couplerMeant, couplerMounting, ...stateArgs],
      meaning:
        place === "second"
          ? "What joins outdoor units to the second antenna, or to the diversity antenna."
          : `What joins outdoor units to the ${place} antenna.`,
      fallback: "the antenna takes one unit",
      source: PRACTICE,
      example: `${place}-coupler H18-E direct`,
    }),
  ),
  {
    name: "feeder",
    in: END,
    alsoCalled: ["waveguide", "line"],
    args: [
      { name: "feeder", value: ref("feeder"), meaning: "Waveguide or cable.", into: "end.feeder" },
      { ...feederLength, into: "end.feederLengthM" },
      ...stateArgs,
    ],
    meaning: "Waveguide between unit (or coupler) and antenna.",
    fallback:
      "none; where one is needed 1 m of flexible guide is estimated, above 42 GHz and for an all-indoor radio the level is open",
    source: PRACTICE,
    example: "feeder FLEX-18 length 1.2 m",
  },
  ...FURTHER.map(
    (place): Property => ({
      name: `${place}-feeder`,
      in: END,
      args: [
        { name: "feeder", value: ref("feeder"), meaning: "Waveguide or cable." },
        feederLength,
        ...stateArgs,
      ],
      meaning: `Waveguide to the ${place} antenna${place === "second" ? " or the diversity antenna" : ""} alone.`,
      fallback: "as `feeder` says",
      source: PRACTICE,
      example: `${place}-feeder FLEX-18 length 0.9 m`,
    }),
  ),
  {
    name: "transmits",
    in: END,
    alsoCalled: ["tx", "half", "band-half", "sub-band", "high", "low"],
    args: [
      {
        name: "value",
        value: [
          { type: "word", words: { high: "upper half of the band", low: "lower half of the band" } },
          frequency,
        ],
        meaning: "Half of the channel, or the frequency itself.",
      },
    ],
    meaning: "What this end transmits: a half of the hop's channel, or a plain frequency.",
    source: PRACTICE,
    example: "transmits high",
  },
  {
    name: "power",
    in: END,
    alsoCalled: ["tx-power", "transmit-power"],
    args: [
      {
        name: "level",
        value: quantity("power level", {
          min: "-40 dBm",
          max: "44 dBm",
          usual: ["-15 to 36 dBm", "-45 to 6 dBW"],
        }),
        meaning: "At the unit's antenna port.",
        into: "end.transmitPowerDbm",
      },
    ],
    meaning: "Transmit power of this end, in place of the mode's.",
    fallback: "the mode's power",
    source: PRACTICE,
    example: "power 18 dBm",
  },
  {
    name: "extra-loss",
    in: END,
    alsoCalled: ["loss"],
    args: [
      {
        name: "value",
        value: quantity("ratio", { min: "0 dB", max: "40 dB" }),
        meaning: "Loss, both directions.",
        into: "end.extraLossDb",
      },
    ],
    meaning: "Further loss between unit and antenna.",
    fallback: "0 dB",
    source: PRACTICE,
    example: "extra-loss 0.5 dB",
  },
];

export const installationRows: Rows = [
  {
    name: "arms",
    in: END,
    args: one(
      "value",
      {
        type: "word",
        words: { exchanged: "main units on the standby arms, standby units on the main arms" },
      },
      "How units meet the arms of their coupler.",
    ),
    meaning:
      "Units on each other's arms of the coupler, at this end alone. Levels count it, and what it costs is told.",
    fallback: "main units on main arms; of carriers that share a coupler, one end has them crossed",
    source: PRACTICE,
    example: "arms exchanged",
  },
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
      "installation.mounting",
    ),
    meaning: "How units meet the antenna where there is no coupler to say it with.",
    fallback:
      "as the coupler says; with a feeder separate, else direct, where the antenna can take it: where it can't, a waveguide is missing",
    source: PRACTICE,
    example: "mounting separate",
  },
  {
    name: "bracket",
    in: END,
    alsoCalled: ["pipe-mount", "pole-mount"],
    args: [
      { name: "title", value: text, meaning: "What it is." },
      {
        name: "count",
        optional: true,
        value: { type: "number", integer: true, min: 1, max: 99 },
        meaning: "How many.",
        fallback: "one",
      },
    ],
    repeatable: true,
    meaning:
      "Bracket, pipe or other steel that this end is mounted with, for the parts list. What it weighs is a `mount` of the site.",
    fallback: "none in the parts list",
    source: PRACTICE,
    example: 'bracket "pipe mount, 89 mm" 2',
  },
  {
    name: "unit-sub-band",
    in: END,
    args: one(
      "name",
      { type: "free", example: "A" },
      "Sub-band of the radio's catalogue entry.",
      "installation.subBand",
    ),
    meaning:
      "Sub-band of the units ordered. Those of a further channel are of it too where it holds that channel, else of the first that does.",
    fallback: "the one that holds the frequencies",
    source: PRACTICE,
    example: "unit-sub-band A",
  },
  {
    name: "cable",
    in: END,
    args: [
      { name: "cable", value: ref("cable"), meaning: "Cable to each unit.", into: "installation.cable" },
      {
        name: "length",
        label: "length",
        optional: true,
        value: quantity("length", {
          above: "0 m",
          max: "20 km",
          usual: ["1 to 500 m", "3 to 1600 ft", "0.5 to 20 km"],
        }),
        meaning: "Length of each.",
        into: "installation.cableLengthM",
        fallback: "estimated from the antenna's height and the site's `cable-run`",
      },
    ],
    meaning: "Cable from indoors to each unit: one for each, never shared.",
    fallback: "not in the parts list",
    source: PRACTICE,
    example: "cable COAX-10 length 45 m",
  },
  {
    name: "if-port",
    in: END,
    args: [
      {
        name: "slot",
        value: { type: "number", integer: true, min: 1, max: 99 },
        meaning: "Slot of the IF card.",
        into: "claim.slot",
      },
      {
        name: "port",
        slash: true,
        value: { type: "number", integer: true, min: 1, max: 99 },
        meaning: "Port of the card.",
        into: "claim.port",
      },
      {
        name: "chassis",
        label: "in",
        optional: true,
        value: { type: "free", example: "A" },
        meaning: "Name of the chassis at the site.",
        into: "claim.chassis",
        fallback: "the first",
      },
    ],
    repeatable: true,
    meaning: "IF port of a unit, in the order of the branches: main before standby.",
    fallback: "proposed in a stable order",
    source: PRACTICE,
    example: "if-port 3 / 1",
  },
];
