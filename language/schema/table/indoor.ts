/** Indoor units of the catalogue: chassis and the cards that they take. */
import type { ValueSpec } from "../types.js";
import { portTypes } from "./part.js";
import { CATALOGUE, entryArgs, one, quantity, type Rows } from "./values.js";

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

export const indoorRows: Rows = [
  {
    name: "chassis",
    in: ["file"],
    args: entryArgs("chassis", "sites"),
    block: "chassis",
    meaning: "An indoor unit: what takes the cards.",
    source: CATALOGUE,
    example: 'chassis HEDGE "2U chassis" {',
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
    args: one(
      "power",
      quantity("consumption", { above: "0 W", max: "20 kW", usual: ["5 to 5000 W", "0.1 to 5 kW"] }),
      "Cards and units together.",
    ),
    meaning: "Most power that goes through its feeds, each of which must carry all of it.",
    fallback: "not judged",
    source: CATALOGUE,
    example: "supply 600 W",
  },
  {
    name: "heat-limit",
    in: ["chassis"],
    args: one(
      "power",
      quantity("consumption", { above: "0 W", max: "20 kW", usual: ["5 to 5000 W", "0.1 to 5 kW"] }),
      "Heat of all cards.",
    ),
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
    args: entryArgs("card", "sites"),
    block: "card",
    meaning: "A card of an indoor unit.",
    source: CATALOGUE,
    example: 'card HAIL-TWIN "IF, two channels, XPIC" {',
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
    name: "power-budget",
    in: ["card"],
    alsoCalled: ["poe-budget"],
    args: one(
      "power",
      quantity("consumption", { above: "0 W", max: "5 kW", usual: ["5 to 2000 W", "0.1 to 2 kW"] }),
      "Of all powered ports.",
    ),
    meaning: "Most that the powered ports of the card give together.",
    fallback: "only their number is judged",
    source: CATALOGUE,
    example: "power-budget 120 W",
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
