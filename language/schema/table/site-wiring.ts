/** What is joined to what at a site: services and their ports, feeds and their fuses, panels. */
import { LABEL_WORDS, PORT_NOTATION, TELLING_APART } from "../../../shared/equipment/wiring/labels.js";
import type { ValueSpec } from "../types.js";
import { portTypes } from "./part.js";
import { PRACTICE, quantity, type Rows, text } from "./values.js";

const slotNumber: ValueSpec = { type: "number", integer: true, min: 1, max: 99 };
const count: ValueSpec = { type: "number", integer: true, min: 1, max: 999 };
const chassisName: ValueSpec = { type: "free", example: "A" };

export const siteWiringRows: Rows = [
  {
    name: "service",
    in: ["site"],
    args: [
      { name: "title", value: text, meaning: "Whose traffic it is." },
      { name: "count", value: count, meaning: "How many ports it takes." },
      { name: "type", value: portTypes, meaning: "Of what kind." },
    ],
    block: "service",
    repeatable: true,
    meaning: "Traffic that is handed over at this site.",
    source: PRACTICE,
    example: 'service "village access" 2 GE',
  },
  {
    name: "port",
    in: ["service"],
    args: [
      {
        name: "slot",
        value: { type: "number", integer: true, min: 1, max: 99 },
        meaning: "Slot of the card.",
        into: "claim.slot",
      },
      {
        name: "port",
        slash: true,
        value: { type: "number", integer: true, min: 1, max: 99 },
        meaning: "Port of the card, counted from 1 in the order of its entry.",
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
    meaning: "Port that the service is joined to, one line each.",
    fallback: "proposed in a stable order",
    source: PRACTICE,
    example: "port 9 / 3",
  },
  {
    name: "feed",
    in: ["site"],
    args: [
      {
        name: "name",
        value: { type: "word", words: { A: "the first plant or bus", B: "the second" } },
        meaning: "Which of both feeds.",
      },
      {
        name: "fuse",
        label: "fuse",
        value: { type: "number", integer: true, min: 1, max: 999 },
        meaning: "Number of the fuse or breaker in the distribution.",
      },
      {
        name: "rating",
        label: "rated",
        optional: true,
        value: quantity("current", { above: "0 A", max: "1000 A", usual: ["1 to 250 A"] }),
        meaning: "What the fuse is made for.",
        fallback: "not told",
      },
      {
        name: "slot",
        label: "slot",
        optional: true,
        value: slotNumber,
        meaning: "Slot of the power card behind it.",
        fallback: "a chassis with its supply built in",
      },
      {
        name: "chassis",
        label: "in",
        optional: true,
        value: chassisName,
        meaning: "Name of the chassis at the site.",
        fallback: "the first",
      },
      {
        name: "hop",
        label: "to",
        optional: true,
        value: { type: "reference", kind: "hop" },
        meaning:
          "Hop whose all-outdoor unit it feeds over a pair of its own; of several units of it, one line each in their order.",
        fallback: "it feeds a chassis",
      },
    ],
    repeatable: true,
    meaning: "Fuse of the -48 V distribution and the power card, or the unit on a fibre, that it feeds.",
    fallback: "proposed: the first power card of a chassis or unit of a hop on feed A, the second on B",
    source: PRACTICE,
    example: "feed A fuse 3 rated 16 A slot 6",
  },
  {
    name: "balun",
    in: ["site"],
    args: [
      { name: "title", value: text, meaning: "Which panel it is." },
      { name: "count", value: count, meaning: "How many E1 it joins." },
    ],
    repeatable: true,
    meaning:
      "Panel of the rack that joins E1 of 75 ohm to E1 of 120 ohm. It is no card and makes no ports: a service of the other impedance reaches its card over it.",
    fallback: "E1 of the other impedance finds no port",
    source: PRACTICE,
    example: 'balun "panel 1" 16',
  },
];

export const labelRows: Rows = [
  {
    name: "labels",
    in: ["network"],
    args: [
      {
        name: "rule",
        value: {
          type: "text",
          stands: LABEL_WORDS,
          oneOf: { words: TELLING_APART, why: "several cables of a site would have the same label" },
        },
        meaning: "Text with words in braces.",
        into: "network.labels",
      },
    ],
    meaning: `What is written at both ends of every cable. Part and port: ${PORT_NOTATION}`,
    fallback: '"{cable} to {there}"',
    source: PRACTICE,
    example: 'labels "{site} {cable} to {there}"',
  },
];
