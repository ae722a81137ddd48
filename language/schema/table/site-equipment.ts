/** What stands at a site: racks, chassis with their cards, power, alarms, the loads of the structure. */
import type { Context, ValueSpec } from "../types.js";
import { stateArgs } from "./state.js";
import { one, PRACTICE, quantity, type Rows, ref, text } from "./values.js";

const SITE: readonly Context[] = ["site", "defaults site"];

const slotNumber: ValueSpec = { type: "number", integer: true, min: 1, max: 99 };
const count: ValueSpec = { type: "number", integer: true, min: 1, max: 999 };

export const siteEquipmentRows: Rows = [
  {
    name: "rack",
    in: SITE,
    args: one(
      "free",
      quantity("rack height", { min: "0 U", max: "200 U" }),
      "Free for this design.",
      "equipment.rackUnits",
    ),
    meaning: "Free rack height for the equipment of this design.",
    fallback: "not judged",
    source: "survey",
    example: "rack 6 U",
  },
  {
    name: "cable-run",
    in: SITE,
    args: one(
      "length",
      quantity("length", { min: "0 m", max: "500 m", usual: ["1 to 150 m", "3 to 500 ft"] }),
      "From structure to rack.",
      "equipment.cableRunM",
    ),
    meaning: "Horizontal run of cables between structure and rack, for the estimate of their lengths.",
    fallback: "10 m",
    source: "survey",
    example: "cable-run 15 m",
  },
  {
    name: "chassis",
    in: ["site"],
    args: [
      { name: "chassis", value: ref("chassis"), meaning: "Chassis of the catalogue." },
      {
        name: "as",
        label: "as",
        optional: true,
        value: { type: "free", example: "A" },
        meaning: "What it is called at this site.",
        fallback: "its number at the site",
      },
      {
        name: "row",
        label: "row",
        optional: true,
        value: { type: "free", example: "1" },
        meaning: "Chassis of one row stand beside each other, from left to right.",
        fallback: "it stands alone",
      },
    ],
    block: "site chassis",
    repeatable: true,
    meaning: "An indoor unit at the site, with its cards.",
    source: PRACTICE,
    example: "chassis HEDGE {",
  },
  {
    name: "slot",
    in: ["site chassis"],
    args: [
      { name: "number", value: slotNumber, meaning: "Slot." },
      { name: "card", value: ref("card"), meaning: "Card in it." },
      ...stateArgs,
    ],
    repeatable: true,
    meaning: "A card in a slot.",
    source: PRACTICE,
    example: "slot 3 SQUALL",
  },
  {
    name: "card",
    in: ["site chassis"],
    args: [
      { name: "card", value: ref("card"), meaning: "Card." },
      { name: "count", optional: true, value: count, meaning: "How many.", fallback: "one" },
      ...stateArgs,
    ],
    repeatable: true,
    meaning:
      "Cards whose slot is left open: their places are proposed, and stay where they are when others come or go.",
    source: PRACTICE,
    example: "card SQUALL 2",
  },
  {
    name: "protect",
    in: ["site chassis"],
    args: one(
      "what",
      { type: "word", words: { controller: "a second controller card" } },
      "What is doubled.",
    ),
    meaning: "The controller must be doubled.",
    fallback: "one controller is enough",
    source: PRACTICE,
    example: "protect controller",
  },
  {
    name: "plant",
    in: SITE,
    args: one(
      "power",
      quantity("consumption", { above: "0 W", max: "500 kW", usual: ["20 to 20000 W", "0.1 to 20 kW"] }),
      "For this design.",
      "equipment.plantW",
    ),
    meaning: "What the -48 V plant gives to the equipment of this design.",
    fallback: "not judged",
    source: "survey",
    example: "plant 800 W",
  },
  {
    name: "battery",
    in: SITE,
    args: [
      {
        name: "capacity",
        value: quantity("charge", { above: "0 Ah", max: "100000 Ah" }),
        meaning: "Capacity at the rate of the load.",
      },
      {
        name: "voltage",
        label: "at",
        optional: true,
        value: quantity("voltage", { above: "0 V", max: "1000 V" }),
        meaning: "Nominal voltage.",
        fallback: "48 V",
      },
      {
        name: "depth",
        label: "depth",
        optional: true,
        value: quantity("percentage", { above: "0 %", max: "100 %" }),
        meaning: "Share of the capacity that may be taken.",
        fallback: "80 %",
      },
      {
        name: "autonomy",
        label: "autonomy",
        optional: true,
        value: quantity("duration", {
          above: "0 h",
          max: "1 y",
          usual: ["1 to 168 h", "15 to 300 min", "1 to 14 d"],
        }),
        meaning: "How long the site must stand without mains.",
        fallback: "not judged",
      },
    ],
    meaning: "Battery of the site; at the end of its life 80 % of its capacity are left.",
    fallback: "autonomy is not judged",
    source: PRACTICE,
    example: "battery 200 Ah autonomy 8 h",
  },
  {
    name: "alarm",
    in: ["site"],
    args: [
      {
        name: "input",
        value: { type: "number", integer: true, min: 1, max: 999 },
        meaning: "Number of the input, counted over the chassis and cards of the site.",
      },
      { name: "title", value: text, meaning: "What it tells." },
      {
        name: "state",
        optional: true,
        value: { type: "word", words: { closed: "alarm when closed", open: "alarm when open" } },
        meaning: "State of the contact that means alarm.",
        fallback: "closed",
      },
    ],
    repeatable: true,
    meaning: "An alarm contact of the site.",
    source: PRACTICE,
    example: 'alarm 1 "door open" open',
  },
];

/** The loads of the structure. */
export const structureRows: Rows = [
  {
    name: "wind",
    in: SITE,
    args: [
      {
        name: "speed",
        value: quantity("speed", {
          above: "0 m/s",
          max: "100 m/s",
          usual: ["15 to 80 m/s", "50 to 290 km/h"],
        }),
        meaning: "Basic speed: 10-minute mean at 10 m in open country, 50-year. Never a gust.",
      },
      {
        name: "terrain",
        label: "over",
        optional: true,
        value: {
          type: "word",
          words: {
            sea: "class 0: sea and coast",
            level: "class I: lakes, no obstacles",
            country: "class II: low growth, isolated obstacles",
            suburb: "class III: villages, suburbs, forest",
            city: "class IV: at least 15 % built over",
          },
        },
        meaning: "Roughness around the site.",
        fallback: "country",
      },
    ],
    meaning:
      "Wind that the antennas' load is summed for. A planning aid: a structural engineer releases the structure.",
    fallback: "wind load is not summed",
    source: "form of EN 1991-1-4, factors from memory",
    example: "wind 26 m/s over country",
  },
  {
    name: "mount",
    in: ["site"],
    alsoCalled: ["mounts", "bracket"],
    args: [
      { name: "title", value: text, meaning: "What it is." },
      {
        name: "mass",
        value: quantity("mass", { min: "0 kg", max: "20000 kg", usual: ["0.5 to 5000 kg", "0.5 to 5 t"] }),
        meaning: "Its weight.",
      },
      {
        name: "area",
        label: "area",
        optional: true,
        value: quantity("area", {
          min: "0 m2",
          max: "100 m2",
          usual: ["0.01 to 50 m2", "100 to 100000 cm2"],
        }),
        meaning: "Area that it turns to the wind.",
        fallback: "the wind on it is not counted",
      },
      {
        name: "height",
        label: "at",
        optional: true,
        value: quantity("length", { min: "0 m", max: "700 m", usual: ["1 to 350 m", "3 to 1150 ft"] }),
        meaning: "Height of its middle above ground.",
        fallback: "that of the site's highest antenna",
      },
    ],
    repeatable: true,
    meaning: "Steel that this design adds to the structure: pole, frame, platform.",
    fallback: "mounts are not in the sums, which say so",
    source: "structural engineer",
    example: 'mount "pole for two dishes" 35 kg area 0.4 m2 at 28 m',
  },
  {
    name: "wind-limit",
    in: SITE,
    args: one(
      "force",
      quantity("force", { above: "0 N", max: "1000 kN", usual: ["0.2 to 200 kN", "200 to 200000 N"] }),
      "Of what this design hangs on it.",
      "equipment.windLimitN",
    ),
    meaning: "Wind force that the structure may take from the antennas, lines and mounts of this design.",
    fallback: "not judged",
    source: "structural engineer",
    example: "wind-limit 4 kN",
  },
  {
    name: "weight-limit",
    in: SITE,
    args: one(
      "mass",
      quantity("mass", { above: "0 kg", max: "100000 kg", usual: ["20 to 20000 kg", "0.5 to 20 t"] }),
      "Antennas, units, couplers, lines, mounts.",
      "equipment.weightLimitKg",
    ),
    meaning: "Weight that the structure may take from this design.",
    fallback: "not judged",
    source: "structural engineer",
    example: "weight-limit 250 kg",
  },
];
