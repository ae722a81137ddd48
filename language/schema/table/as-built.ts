/** What was measured on a hop, and what was built beside what was planned. */
import { PRACTICE, quantity, type Rows, ref, text } from "./values.js";

const branch = {
  type: "word",
  words: {
    main: "the main unit, or the only one",
    standby: "the unit on standby",
    diversity: "the receiver on the diversity antenna",
  },
} as const;
const carrier = { type: "number", integer: true, min: 1, max: 8 } as const;
const height = quantity("length", { min: "0 m", max: "700 m", usual: ["2 to 200 m", "6 to 650 ft"] });
const received = quantity("power level", {
  min: "-130 dBm",
  max: "20 dBm",
  usual: ["-95 to -15 dBm", "-125 to -45 dBW"],
});

export const measuredRows: Rows = [
  {
    name: "measured",
    in: ["hop"],
    alsoCalled: ["reading", "measurement", "rsl", "rssi", "rsl-measured"],
    args: [
      { name: "level", value: received, meaning: "Received level that was read." },
      { name: "at", label: "at", value: ref("site"), meaning: "Site at which it was read." },
      {
        name: "branch",
        label: "branch",
        optional: true,
        value: branch,
        meaning: "Receiver that it was read at.",
        fallback: "the main one",
      },
      {
        name: "carrier",
        label: "carrier",
        optional: true,
        value: carrier,
        meaning: "Carrier, in the order of the arrangement.",
        fallback: "that of the polarization, or the only one",
      },
      {
        name: "polarization",
        label: "polarization",
        optional: true,
        value: {
          type: "word",
          words: {
            vertical: "electric field vertical",
            horizontal: "electric field horizontal",
            slant: "linear at 45 degrees",
          },
        },
        meaning: "Polarization, where the hop has two.",
        fallback: "that of the carrier",
      },
      {
        name: "mode",
        label: "mode",
        optional: true,
        value: { type: "free", example: "128QAM" },
        meaning: "Modulation that the far end sent.",
        fallback: "the highest of the hop",
      },
      {
        name: "sender",
        label: "sender",
        optional: true,
        value: { type: "word", words: { main: "the main unit", standby: "the unit on standby" } },
        meaning: "Unit of the far end that sent.",
        fallback: "the main one",
      },
      {
        name: "power-control",
        label: "power-control",
        optional: true,
        value: {
          type: "word",
          words: {
            active: "the far end may have turned its power down",
            off: "the far end sent its full power",
          },
        },
        meaning: "Power control of the far end meanwhile.",
        fallback: "not known",
      },
      {
        name: "promised",
        label: "promised",
        optional: true,
        value: received,
        meaning: "Level that the design gave then, as it stood on the sheet.",
        fallback: "a change of the design since then is not noticed",
      },
      { name: "on", label: "on", value: { type: "date" }, meaning: "Day on which it was read." },
      { name: "by", label: "by", optional: true, value: text, meaning: "Who read it." },
      { name: "remark", optional: true, value: text, meaning: "What there is to say of it." },
    ],
    repeatable: true,
    meaning:
      "A received level that was measured. It is held against what the design promises for that end, branch and mode; of several for the same the latest counts.",
    fallback: "nothing was measured",
    source: PRACTICE,
    example: 'measured -43.5 dBm at TARN branch standby on 2026-05-02 by "M.K." "light rain"',
  },
];

export const asBuiltRows: Rows = [
  {
    name: "as-built",
    in: ["end"],
    alsoCalled: ["asbuilt", "built-as", "installed"],
    args: [
      {
        name: "on",
        label: "on",
        optional: true,
        value: { type: "date" },
        meaning: "Day on which it was looked at.",
        fallback: "not known",
      },
      { name: "by", label: "by", optional: true, value: text, meaning: "Who looked." },
    ],
    block: "as-built",
    meaning:
      "What was found at this end beside what was planned. Figures are those of the plan; what was built otherwise is told, with what it costs where that is known.",
    fallback: "as planned, as far as anybody knows",
    source: PRACTICE,
    example: 'as-built on 2026-05-02 by "M.K." {',
  },
  {
    name: "antenna",
    in: ["as-built"],
    args: [
      { name: "antenna", value: ref("antenna"), meaning: "Antenna that hangs.", into: "asBuilt.antenna" },
    ],
    meaning: "The antenna, where it is another than planned.",
    fallback: "as planned",
    source: PRACTICE,
    example: "antenna DISH60-18",
  },
  {
    name: "height",
    in: ["as-built"],
    alsoCalled: ["agl", "antenna-height"],
    args: [
      { name: "value", value: height, meaning: "Antenna centre above ground.", into: "asBuilt.heightM" },
    ],
    meaning: "Height of the antenna.",
    fallback: "as planned",
    source: PRACTICE,
    example: "height 23.6 m",
  },
  {
    name: "diversity-height",
    in: ["as-built"],
    args: [
      {
        name: "value",
        value: height,
        meaning: "Its centre above ground.",
        into: "asBuilt.diversityHeightM",
      },
    ],
    meaning: "Height of the diversity antenna.",
    fallback: "as planned",
    source: PRACTICE,
    example: "diversity-height 13.5 m",
  },
  {
    name: "azimuth",
    in: ["as-built"],
    alsoCalled: ["bearing", "heading"],
    args: [
      {
        name: "value",
        value: quantity("angle", { min: "0 deg", max: "360 deg" }),
        meaning: "Where the antenna looks, from true north, clockwise.",
        into: "asBuilt.azimuthDeg",
      },
    ],
    meaning: "Azimuth of the antenna.",
    fallback: "to the other end",
    source: PRACTICE,
    example: "azimuth 134.2 deg",
  },
  {
    name: "cable-length",
    in: ["as-built"],
    args: [
      {
        name: "value",
        value: quantity("length", {
          above: "0 m",
          max: "20 km",
          usual: ["1 to 500 m", "3 to 1600 ft", "0.5 to 20 km"],
        }),
        meaning: "Length of the cable to each unit.",
        into: "asBuilt.cableLengthM",
      },
    ],
    meaning: "Length of the cable that was laid.",
    fallback: "as planned",
    source: PRACTICE,
    example: "cable-length 47 m",
  },
  {
    name: "serial",
    in: ["as-built"],
    alsoCalled: ["serial-number", "sn"],
    args: [
      { name: "number", value: text, meaning: "As it stands on the plate." },
      {
        name: "of",
        label: "of",
        value: {
          type: "word",
          words: {
            unit: "a radio unit",
            antenna: "the antenna",
            "diversity-antenna": "the diversity antenna",
            coupler: "the coupler",
          },
        },
        meaning: "What it is the number of.",
      },
      {
        name: "branch",
        label: "branch",
        optional: true,
        value: branch,
        meaning: "Which of several units.",
        fallback: "the main one",
      },
      {
        name: "carrier",
        label: "carrier",
        optional: true,
        value: carrier,
        meaning: "Carrier of the unit.",
        fallback: "the first",
      },
    ],
    repeatable: true,
    meaning: "Serial number of what hangs there.",
    source: PRACTICE,
    example: 'serial "3F-1182" of unit branch standby',
  },
];
