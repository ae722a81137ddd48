/** Indoor units: chassis and cards of the catalogue, and what stands at a site. */
import type { ArgSpec, Context, ValueSpec } from "../types.js";
import { portTypes } from "./equipment.js";
import { quantity, type Rows, ref, text } from "./values.js";

const CATALOGUE = "data of the equipment";
const PRACTICE = "common practice";
const SITE: readonly Context[] = ["site", "defaults site"];

const slotNumber: ValueSpec = { type: "number", integer: true, min: 1, max: 99 };
const count: ValueSpec = { type: "number", integer: true, min: 1, max: 999 };

const slotKinds: ValueSpec = {
  type: "word",
  words: {
    controller: "control, switching, timing",
    traffic: "IF, Ethernet, tributaries, auxiliary",
    fan: "fan",
    power: "power feed",
    passive: "connector converter, blank",
  },
};

function one(name: string, value: ValueSpec, meaning: string): readonly ArgSpec[] {
  return [{ name, value, meaning }];
}

function entry(kind: "chassis" | "card"): readonly ArgSpec[] {
  return [
    { name: "name", value: { type: "name" }, meaning: "Name that sites refer to." },
    { name: "title", optional: true, value: text, meaning: "What it is, in words." },
    {
      name: "like",
      label: "like",
      optional: true,
      value: ref(kind),
      meaning: `${kind} whose facts hold unless stated here.`,
    },
  ];
}

export const indoorRows: Rows = [
  {
    name: "chassis",
    in: ["file"],
    args: entry("chassis"),
    block: "chassis",
    meaning: "An indoor unit: what takes the cards.",
    source: CATALOGUE,
    example: 'chassis CH-2U "2U chassis" {',
  },
  {
    name: "height",
    in: ["chassis"],
    args: one("units", quantity("rack height", { above: "0 U", max: "60 U" }), "In rack units."),
    meaning: "Height in the rack.",
    source: CATALOGUE,
    example: "height 2 U",
  },
  {
    name: "slot",
    in: ["chassis"],
    args: [
      { name: "from", value: slotNumber, meaning: "Number of the slot, or the first of several." },
      {
        name: "to",
        label: "to",
        optional: true,
        value: slotNumber,
        meaning: "The last of several.",
        fallback: "one slot",
      },
      { name: "kind", value: slotKinds, meaning: "What it takes." },
    ],
    repeatable: true,
    meaning: "Slots, by what they take.",
    source: CATALOGUE,
    example: "slot 3 to 8 traffic",
  },
  {
    name: "supply",
    in: ["chassis"],
    args: one("power", quantity("consumption", { above: "0 W", max: "20 kW" }), "Cards and units together."),
    meaning: "Most power that goes through its feeds, each of which must carry all of it.",
    fallback: "not judged",
    source: CATALOGUE,
    example: "supply 600 W",
  },
  {
    name: "heat-limit",
    in: ["chassis"],
    args: one("power", quantity("consumption", { above: "0 W", max: "20 kW" }), "Heat of all cards."),
    meaning: "Most heat that its fan carries away; what goes up the cables to the units is not in it.",
    fallback: "not judged",
    source: CATALOGUE,
    example: "heat-limit 300 W",
  },
  {
    name: "air",
    in: ["chassis"],
    args: one(
      "path",
      {
        type: "word",
        words: {
          "left-to-right": "in at the left, out at the right",
          "right-to-left": "in at the right, out at the left",
          "front-to-back": "in at the front, out at the back",
        },
      },
      "Seen from the front.",
    ),
    meaning: "The way of the cooling air.",
    fallback: "not judged",
    source: CATALOGUE,
    example: "air left-to-right",
  },
  {
    name: "card",
    in: ["file"],
    args: entry("card"),
    block: "card",
    meaning: "A card of an indoor unit.",
    source: CATALOGUE,
    example: 'card IF2X "IF, two channels, XPIC" {',
  },
  {
    name: "kind",
    in: ["card"],
    args: one(
      "value",
      {
        type: "word",
        words: {
          controller: "control, switching, timing",
          if: "intermediate frequency to outdoor units",
          ethernet: "Ethernet ports",
          aggregation: "wide Ethernet ports, aggregates two bands",
          "ethernet-over-sdh": "Ethernet over SDH",
          "ethernet-over-pdh": "Ethernet over PDH",
          e1: "E1 tributaries",
          stm1: "STM-1",
          "circuit-emulation": "E1 over packet and multilink",
          auxiliary: "order wire, data, alarm contacts",
          converter: "connectors, passive",
          fan: "fan",
          power: "power feed",
        },
      },
      "Sort of card.",
    ),
    meaning: "Sort of card.",
    source: CATALOGUE,
    example: "kind if",
  },
  {
    name: "slots",
    in: ["card"],
    args: one("kind", slotKinds, "Slots that take it."),
    meaning: "Slots that take it.",
    fallback:
      "by its kind: controller, fan, power and converter have their own, all others go into traffic slots",
    source: CATALOGUE,
    example: "slots traffic",
  },
  {
    name: "ports",
    in: ["card"],
    args: [
      { name: "count", value: count, meaning: "How many." },
      { name: "type", value: portTypes, meaning: "Of what kind." },
      {
        name: "powered",
        optional: true,
        value: { type: "word", words: { powered: "with power over Ethernet" } },
        meaning: "With power over Ethernet.",
      },
    ],
    repeatable: true,
    meaning: "Ports of one kind, numbered from 1 in the order of these lines.",
    source: CATALOGUE,
    example: "ports 2 IF",
  },
  {
    name: "pairs",
    in: ["card"],
    args: one(
      "value",
      {
        type: "word",
        words: {
          within: "two ports of the card",
          neighbour: "with a card in the next slot",
        },
      },
      "What pairs.",
    ),
    meaning: "Which IF ports pair for XPIC.",
    fallback: "the ports of a card with two",
    source: CATALOGUE,
    example: "pairs within",
  },
];

export const siteEquipmentRows: Rows = [
  {
    name: "rack",
    in: SITE,
    args: one("free", quantity("rack height", { min: "0 U", max: "200 U" }), "Free for this design."),
    meaning: "Free rack height for the equipment of this design.",
    fallback: "not judged",
    source: "survey",
    example: "rack 6 U",
  },
  {
    name: "cable-run",
    in: SITE,
    args: one("length", quantity("length", { min: "0 m", max: "500 m" }), "From structure to rack."),
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
    example: "chassis CH-2U {",
  },
  {
    name: "slot",
    in: ["site chassis"],
    args: [
      { name: "number", value: slotNumber, meaning: "Slot." },
      { name: "card", value: ref("card"), meaning: "Card in it." },
    ],
    repeatable: true,
    meaning: "A card in a slot.",
    source: PRACTICE,
    example: "slot 3 IF2X",
  },
  {
    name: "card",
    in: ["site chassis"],
    args: [
      { name: "card", value: ref("card"), meaning: "Card." },
      { name: "count", optional: true, value: count, meaning: "How many.", fallback: "one" },
    ],
    repeatable: true,
    meaning:
      "Cards whose slot is left open: they are placed automatically, and stay where they are when others come or go.",
    source: PRACTICE,
    example: "card IF2X 2",
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
    args: one("power", quantity("consumption", { above: "0 W", max: "500 kW" }), "For this design."),
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
        value: quantity("duration", { above: "0 h", max: "1 y" }),
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
        meaning: "Number of the input, counted over all auxiliary cards of the site.",
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
  {
    name: "service",
    in: ["site"],
    args: [
      { name: "title", value: text, meaning: "Whose traffic it is." },
      { name: "count", value: count, meaning: "How many ports it takes." },
      { name: "type", value: portTypes, meaning: "Of what kind." },
    ],
    repeatable: true,
    meaning: "Traffic that is handed over at this site.",
    source: PRACTICE,
    example: 'service "village access" 2 GE',
  },
  {
    name: "wind",
    in: SITE,
    args: [
      {
        name: "speed",
        value: quantity("speed", { above: "0 m/s", max: "100 m/s" }),
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
    name: "wind-limit",
    in: SITE,
    args: one("force", quantity("force", { above: "0 N", max: "1000 kN" }), "Of this design's antennas."),
    meaning: "Wind force that the structure may take from the antennas of this design.",
    fallback: "not judged",
    source: "structural engineer",
    example: "wind-limit 4 kN",
  },
  {
    name: "weight-limit",
    in: SITE,
    args: one("mass", quantity("mass", { above: "0 kg", max: "100000 kg" }), "Antennas, units, couplers."),
    meaning: "Weight that the structure may take from this design.",
    fallback: "not judged",
    source: "structural engineer",
    example: "weight-limit 250 kg",
  },
];

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
    args: one("every", quantity("length", { above: "0 m", max: "1 km" }), "Of cable."),
    meaning:
      "Grounding kits along a cable: one for each such length, beside those at the unit, at the foot of the structure and at the entry.",
    fallback: "30 m",
    source: PRACTICE,
    example: "grounding 30 m",
  },
];
