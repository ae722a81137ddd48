import { ARRANGEMENT_WORDS } from "../arrangements.js";
import type { Context } from "../types.js";
import { bandwidth, frequency, quantity, type Rows, ref, text } from "./values.js";

const PRACTICE = "common practice";
const HOP: readonly Context[] = ["hop", "defaults hop"];
const END: readonly Context[] = ["end", "defaults end"];
const antennaHeight = quantity("length", { min: "0 m", max: "700 m" });

export const hopRows: Rows = [
  {
    name: "hop",
    in: ["file"],
    args: [
      { name: "name", value: { type: "name" }, meaning: "Identifier of the hop, usually of its two sites." },
      { name: "title", optional: true, value: text, meaning: "What it is called." },
    ],
    block: "hop",
    meaning: "Two sites, two antennas facing each other, both directions at once.",
    source: PRACTICE,
    example: "hop KELD-TARN {",
  },
  {
    name: "objective",
    in: HOP,
    args: [{ name: "objective", value: ref("objective"), meaning: "Objective it is judged against." }],
    meaning: "The objective this hop is judged against.",
    fallback: "computed but not judged",
    source: PRACTICE,
    example: "objective trunk",
  },
  {
    name: "channel",
    in: HOP,
    args: [
      {
        name: "plan",
        value: { type: "free", example: "F.595" },
        meaning: "Channel plan, built in or declared with `plan`.",
      },
      { name: "width", slash: true, value: bandwidth, meaning: "Channel width." },
      {
        name: "number",
        slash: true,
        value: { type: "number", integer: true, min: 0, max: 999 },
        meaning: "Channel number.",
      },
    ],
    meaning: "The channel. Each end transmits the frequency of its half (`transmits high` or `low`).",
    source: "the plan's Recommendation; findings say how far it is confirmed",
    example: "channel F.595 / 55 MHz / 4",
  },
  {
    name: "polarization",
    in: HOP,
    args: [
      {
        name: "value",
        value: {
          type: "word",
          words: {
            horizontal: "electric field horizontal",
            vertical: "electric field vertical",
            slant: "linear at 45 degrees",
          },
        },
        meaning: "Polarization of both directions.",
      },
    ],
    meaning: "Polarization.",
    source: "Rec. ITU-R P.838-3 (rain differs between the two)",
    example: "polarization vertical",
  },
  {
    name: "second-channel",
    in: HOP,
    args: [
      {
        name: "plan",
        value: { type: "free", example: "F.595" },
        meaning: "Channel plan, built in or declared with `plan`.",
      },
      { name: "width", slash: true, value: bandwidth, meaning: "Channel width." },
      {
        name: "number",
        slash: true,
        value: { type: "number", integer: true, min: 0, max: 999 },
        meaning: "Channel number.",
      },
    ],
    meaning: "The other channel of frequency diversity; its distance from the first decides the improvement.",
    fallback: "frequency diversity is not counted",
    source: "Rec. ITU-R P.530-18 section 6.2.5, from memory",
    example: "second-channel F.595 / 55 MHz / 6",
  },
  {
    name: "degradation",
    in: HOP,
    args: [
      {
        name: "value",
        value: quantity("ratio", { min: "0 dB", max: "40 dB" }),
        meaning: "By how much interference raises the receiver's threshold.",
      },
    ],
    meaning: "Threshold degradation by interference; every fade margin is less by it.",
    fallback: "0 dB",
    source: PRACTICE,
    example: "degradation 1 dB",
  },
  {
    name: "repair-time",
    in: HOP,
    args: [
      {
        name: "value",
        value: quantity("duration", { min: "0 h", max: "720 h" }),
        meaning: "Mean time to repair, travel included.",
      },
    ],
    meaning: "Mean time to repair; with the radio's `mtbf` the outage by equipment follows.",
    fallback: "equipment outage is not computed",
    source: PRACTICE,
    example: "repair-time 12 h",
  },
  {
    name: "arrangement",
    in: HOP,
    args: [
      {
        name: "value",
        value: { type: "word", words: ARRANGEMENT_WORDS },
        meaning: "Carriers and protection.",
      },
    ],
    meaning: "How many carriers, how protected, on which coupling.",
    fallback: "1+0",
    source: PRACTICE,
    example: "arrangement 1+0",
  },
  {
    name: "radio",
    in: HOP,
    args: [{ name: "radio", value: ref("radio"), meaning: "Radio of both ends." }],
    meaning: "The radio.",
    source: PRACTICE,
    example: "radio R18",
  },
  {
    name: "mode",
    in: HOP,
    args: [
      { name: "bandwidth", value: bandwidth, meaning: "Channel width." },
      {
        name: "modulation",
        value: { type: "free", example: "128QAM" },
        meaning: "Modulation, as the radio's catalogue entry names it.",
      },
    ],
    meaning: "A fixed mode.",
    fallback: "every mode of the radio with the channel's width",
    source: PRACTICE,
    example: "mode 55 MHz 128QAM",
  },
  {
    name: "modes",
    in: HOP,
    args: [
      { name: "bandwidth", value: bandwidth, meaning: "Channel width." },
      { name: "lowest", value: { type: "free", example: "QPSK" }, meaning: "Lowest modulation in use." },
      {
        name: "highest",
        label: "to",
        value: { type: "free", example: "128QAM" },
        meaning: "Highest modulation in use.",
      },
    ],
    meaning: "An adaptive range of modes.",
    source: PRACTICE,
    example: "modes 55 MHz QPSK to 128QAM",
  },
  {
    name: "obstacle",
    in: ["hop"],
    args: [
      { name: "title", optional: true, value: text, meaning: "What it is." },
      {
        name: "height",
        value: quantity("length", { above: "0 m", max: "500 m" }),
        meaning: "Height above ground, growth included.",
      },
      {
        name: "distance",
        label: "at",
        value: quantity("length", { min: "0 m", max: "300 km" }),
        meaning: "Distance along the path.",
      },
      { name: "from", label: "from", value: ref("site"), meaning: "End that the distance counts from." },
    ],
    repeatable: true,
    meaning: "Something on the path that the terrain does not know: trees, a building, a crane.",
    source: PRACTICE,
    example: 'obstacle "spruce" 14 m at 6.2 km from KELD',
  },
  {
    name: "surface",
    in: ["hop"],
    args: [
      {
        name: "kind",
        value: {
          type: "word",
          words: {
            water: "fresh water: lake, river",
            sea: "salt water",
            flat: "flat wet ground, no growth",
            rough: "broken or wooded ground: does not reflect",
          },
        },
        meaning: "What the surface is.",
      },
      {
        name: "start",
        value: quantity("length", { min: "0 m", max: "300 km" }),
        meaning: "Where it begins along the path.",
      },
      {
        name: "end",
        label: "to",
        value: quantity("length", { min: "0 m", max: "300 km" }),
        meaning: "Where it ends.",
      },
      { name: "from", label: "from", value: ref("site"), meaning: "End that the distances count from." },
      {
        name: "level",
        label: "at",
        optional: true,
        value: quantity("length", { min: "-450 m", max: "6000 m" }),
        meaning: "Its height above sea level.",
        fallback: "mean height of the profile there",
      },
    ],
    repeatable: true,
    meaning: "A surface that may reflect: the hop is judged for the ripple of the reflected ray.",
    fallback: "no reflection is computed",
    source: "Rec. ITU-R P.530-18 section 6.1",
    example: "surface water 3 km to 5 km from KELD",
  },
  {
    name: "measured-rain",
    in: ["hop"],
    args: [
      {
        name: "attenuation",
        value: quantity("ratio", { min: "0 dB", max: "200 dB" }),
        meaning: "Rain attenuation exceeded for 0.01 % of the average year.",
      },
      { name: "frequency", label: "at", value: frequency, meaning: "Frequency it was measured at." },
      {
        name: "polarization",
        optional: true,
        value: {
          type: "word",
          words: { horizontal: "measured on horizontal", vertical: "measured on vertical" },
        },
        meaning: "Polarization it was measured on.",
        fallback: "the hop's",
      },
    ],
    meaning: "Rain attenuation measured on this path; it takes the place of the one from the rain rate.",
    fallback: "computed from the rain rate",
    source: "Rec. ITU-R P.530-18 sections 2.4.3 and 2.4.4",
    example: "measured-rain 22 dB at 18.7 GHz",
  },
  {
    name: "survey",
    in: ["hop"],
    args: [
      {
        name: "file",
        value: { type: "path" },
        meaning: "CSV of distance and height, relative to this file.",
      },
      {
        name: "from",
        label: "from",
        optional: true,
        value: ref("site"),
        meaning: "End that the distances count from.",
        fallback: "the first end",
      },
    ],
    meaning: "A surveyed profile that takes the place of the terrain.",
    source: PRACTICE,
    example: 'survey "survey/keld-tarn.csv" from KELD',
  },
  {
    name: "accept",
    in: ["hop"],
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
    meaning: "A finding that is accepted on purpose. It stays in every report.",
    source: PRACTICE,
    example: 'accept clearance until 2027-05-01 because "felled next spring"',
  },
];

export const endRows: Rows = [
  {
    name: "antenna",
    in: END,
    args: [
      { name: "antenna", value: ref("antenna"), meaning: "Antenna." },
      {
        name: "at",
        label: "at",
        optional: true,
        value: antennaHeight,
        meaning: "Height of its centre above ground.",
      },
    ],
    meaning: "The antenna and the height of its centre above ground.",
    source: PRACTICE,
    example: "antenna A18-06 at 24 m",
  },
  {
    name: "height",
    in: END,
    args: [{ name: "value", value: antennaHeight, meaning: "Height of the antenna's centre above ground." }],
    meaning: "Height of the antenna's centre above ground, where the antenna comes from the defaults.",
    source: PRACTICE,
    example: "height 24 m",
  },
  {
    name: "diversity-antenna",
    in: END,
    args: [
      { name: "antenna", value: ref("antenna"), meaning: "Second receiving antenna." },
      { name: "at", label: "at", value: antennaHeight, meaning: "Height of its centre above ground." },
    ],
    meaning: "Second antenna of space diversity at this end.",
    fallback: "space diversity is not counted in the direction towards this end",
    source: "Rec. ITU-R P.530-18 section 6.2.4, from memory",
    example: "diversity-antenna A18-06 at 14 m",
  },
  {
    name: "coupler",
    in: END,
    args: [
      { name: "coupler", value: ref("coupler"), meaning: "Coupler or orthomode transducer." },
      {
        name: "mounting",
        optional: true,
        value: {
          type: "word",
          words: { direct: "on the back of the antenna", separate: "on the pole, with a flexible waveguide" },
        },
        meaning: "How it is mounted.",
      },
    ],
    meaning: "What joins the outdoor units to the antenna at this end.",
    source: PRACTICE,
    example: "coupler H18-U direct",
  },
  {
    name: "feeder",
    in: END,
    args: [
      { name: "feeder", value: ref("feeder"), meaning: "Waveguide or cable." },
      {
        name: "length",
        label: "length",
        value: quantity("length", { min: "0 m", max: "300 m" }),
        meaning: "Its length.",
      },
    ],
    meaning: "Waveguide between unit (or coupler) and antenna.",
    source: PRACTICE,
    example: "feeder FW18 length 1.2 m",
  },
  {
    name: "transmits",
    in: END,
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
    args: [
      {
        name: "level",
        value: quantity("power level", { min: "-40 dBm", max: "50 dBm" }),
        meaning: "At the unit's antenna port.",
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
    args: [
      {
        name: "value",
        value: quantity("ratio", { min: "0 dB", max: "40 dB" }),
        meaning: "Loss, both directions.",
      },
    ],
    meaning: "Further loss between unit and antenna.",
    fallback: "0 dB",
    source: PRACTICE,
    example: "extra-loss 0.5 dB",
  },
];
