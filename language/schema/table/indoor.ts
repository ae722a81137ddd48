/** Indoor units of the catalogue: chassis and the cards that they take. */
import type { NumberSpec } from "../types.js";
import { portTypes } from "./part.js";
import { bandwidth, CATALOGUE, entryArgs, one, quantity, type Rows } from "./values.js";

const slotNumber: NumberSpec = { type: "number", integer: true, min: 1, max: 99 };
const count: NumberSpec = { type: "number", integer: true, min: 1, max: 999 };

const slotKinds = {
  type: "word",
  words: {
    controller: "control, switching, timing",
    traffic: "IF, Ethernet, tributaries, auxiliary",
    fan: "fan",
    power: "power feed",
  },
  left: {
    passive: { instead: "blanks and panels of connectors are not planned: leave the line out" },
  },
} as const;

/** IF ports are claimed by slot: they are on cards. */
const { IF: _, ...otherPorts } = portTypes.words;
const chassisPorts = { type: "word", words: otherPorts } as const;

export const indoorRows: Rows = [
  {
    name: "chassis",
    in: ["file"],
    args: entryArgs("chassis", "sites"),
    block: "chassis",
    meaning: "An indoor unit: what takes the cards.",
    source: CATALOGUE,
    example: 'chassis HEDGE "indoor unit, 3 U" {',
  },
  {
    name: "height",
    in: ["chassis"],
    args: one(
      "units",
      quantity("rack height", { above: "0 U", max: "60 U" }),
      "In rack units.",
      "chassis.rackUnits",
    ),
    meaning: "Height in the rack.",
    source: CATALOGUE,
    example: "height 3 U",
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
    example: "slot 2 to 5 traffic",
  },
  {
    name: "supply",
    in: ["chassis"],
    args: one(
      "power",
      quantity("consumption", { above: "0 W", max: "20 kW", usual: ["5 to 5000 W", "0.1 to 5 kW"] }),
      "Cards and units together.",
      "chassis.supplyW",
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
      "chassis.heatLimitW",
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
          "back-to-front": "in at the back, out at the front",
        },
      },
      "Seen from the front.",
      "chassis.air",
    ),
    meaning: "The way of the cooling air.",
    fallback: "not judged",
    source: CATALOGUE,
    example: "air left-to-right",
  },
  {
    name: "needs",
    in: ["chassis"],
    args: [
      {
        name: "count",
        value: { type: "number", integer: true, min: 0, max: 99 },
        meaning: "How many; 0 where it works without.",
        into: "need.count",
      },
      {
        name: "kind",
        value: { type: "word", words: { fan: "fan cards", power: "power cards" } },
        meaning: "Of what kind.",
        into: "need.kind",
      },
    ],
    repeatable: true,
    meaning: "Fan or power cards that the chassis does not work without.",
    fallback: "one of each kind that it has slots for",
    source: CATALOGUE,
    example: "needs 2 fan",
  },
  {
    name: "controller",
    in: ["chassis"],
    args: one("value", { type: "word", words: { "built-in": "part of the chassis" } }, "Where it is."),
    meaning: "A controller that is part of the chassis: it counts as one, and needs no card and no slot.",
    fallback: "controllers are cards",
    source: CATALOGUE,
    example: "controller built-in",
  },
  {
    name: "ports",
    in: ["chassis"],
    args: [
      { name: "count", value: count, meaning: "How many.", into: "port.count" },
      { name: "type", value: chassisPorts, meaning: "Of what kind.", into: "port.type" },
    ],
    repeatable: true,
    meaning: "Ports of the chassis itself, of one kind.",
    fallback: "all ports are on cards",
    source: CATALOGUE,
    example: "ports 1 sync",
  },
  {
    name: "card",
    in: ["file"],
    args: entryArgs("card", "sites"),
    block: "card",
    meaning: "A card of an indoor unit.",
    source: CATALOGUE,
    example: 'card SQUALL "IF, four channels, XPIC" {',
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
          tdm: "E1 and STM-1 tributaries",
          "circuit-emulation": "TDM over packet",
          auxiliary: "order wire, data, alarm contacts",
          fan: "fan",
          power: "power feed",
        },
        left: {
          "ethernet-over-sdh": { write: "ethernet" },
          "ethernet-over-pdh": { write: "ethernet" },
          e1: { write: "tdm" },
          stm1: { write: "tdm" },
          converter: {
            instead:
              "connectors and baluns are no card that is planned: leave the entry out and take cards of the right impedance",
          },
        },
      },
      "Sort of card.",
      "card.kind",
    ),
    meaning: "Sort of card.",
    source: CATALOGUE,
    example: "kind if",
  },
  {
    name: "slots",
    in: ["card"],
    args: one("kind", slotKinds, "Slots that take it.", "card.slotKind"),
    meaning: "Slots that take it.",
    fallback: "by its kind: controller, fan and power have their own, all others go into traffic slots",
    source: CATALOGUE,
    example: "slots traffic",
  },
  {
    name: "spans",
    in: ["card"],
    args: one(
      "slots",
      { type: "number", integer: true, min: 1, max: 20 },
      "Slots that it covers.",
      "card.slotCount",
    ),
    meaning:
      "Slots that the card covers: the one that it is put in, by which its ports are stated, and those with the numbers above it.",
    fallback: "one slot",
    source: CATALOGUE,
    example: "spans 2",
  },
  {
    name: "supply",
    in: ["card"],
    args: one(
      "value",
      { type: "word", words: { "built-in": "the feed of the chassis comes in at this card" } },
      "Where it is.",
    ),
    meaning:
      "A power feed that is part of the card, of a controller for example: the card counts as a power card too.",
    fallback: "power cards are cards of their own",
    source: CATALOGUE,
    example: "supply built-in",
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
    example: "ports 3 IF",
  },
  {
    name: "power-budget",
    in: ["card"],
    alsoCalled: ["poe-budget"],
    args: one(
      "power",
      quantity("consumption", { above: "0 W", max: "5 kW", usual: ["5 to 2000 W", "0.1 to 2 kW"] }),
      "Of all powered ports.",
      "card.powerBudgetW",
    ),
    meaning: "Most that the powered ports of the card give together.",
    fallback: "only their number is judged",
    source: CATALOGUE,
    example: "power-budget 140 W",
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
      "card.pairs",
    ),
    meaning: "Which IF ports pair for XPIC.",
    fallback: "the ports of one card",
    source: CATALOGUE,
    example: "pairs within",
  },
  {
    name: "drives",
    in: ["card"],
    args: [
      {
        name: "generation",
        value: { type: "free", example: "G2" },
        meaning: "As the radio's entry names it.",
      },
    ],
    repeatable: true,
    meaning: "Generation of outdoor units that an IF card drives, one line each.",
    fallback: "not held against the unit",
    source: CATALOGUE,
    example: "drives G2",
  },
  {
    name: "channel-width",
    in: ["card"],
    args: [
      { name: "width", value: bandwidth, meaning: "A width, or the least of several." },
      {
        name: "to",
        label: "to",
        optional: true,
        value: bandwidth,
        meaning: "The greatest of several.",
        fallback: "one width",
      },
    ],
    repeatable: true,
    meaning: "Widths of channel that an IF card works in.",
    fallback: "not held against the hop",
    source: CATALOGUE,
    example: "channel-width 7 MHz to 56 MHz",
  },
  {
    name: "highest-modulation",
    in: ["card"],
    args: one(
      "modulation",
      { type: "free", example: "1024QAM" },
      "With the most bits a symbol.",
      "card.highestModulation",
    ),
    meaning: "Highest modulation of an IF card.",
    fallback: "not held against the hop",
    source: CATALOGUE,
    example: "highest-modulation 1024QAM",
  },
  {
    name: "capacity",
    in: ["card"],
    args: one(
      "rate",
      quantity("bit rate", {
        above: "0 bit/s",
        max: "100 Gbit/s",
        usual: ["2 to 20000 Mbit/s", "1 to 20 Gbit/s"],
      }),
      "Of one IF port.",
      "card.portCapacityBps",
    ),
    meaning: "Most that one IF port of the card carries.",
    fallback: "not held against the modes",
    source: CATALOGUE,
    example: "capacity 500 Mbit/s",
  },
  {
    name: "carries",
    in: ["card"],
    args: one(
      "traffic",
      {
        type: "word",
        words: {
          packet: "packets alone",
          tdm: "E1 and STM-1 alone",
          both: "packets and TDM beside each other",
        },
      },
      "Over the air.",
      "card.carries",
    ),
    meaning: "What an IF card sends over the air: both ends have to share some of it.",
    fallback: "not held against the far end",
    source: CATALOGUE,
    example: "carries packet",
  },
];
