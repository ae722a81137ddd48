/** What a part states of itself, whatever it is. */
import type { ValueSpec } from "../types.js";
import { CATALOGUE, one, quantity, type Rows, text } from "./values.js";

/** Ports of indoor cards and of all-outdoor units. */
export const portTypes = {
  type: "word",
  words: {
    IF: "intermediate frequency, to an outdoor unit",
    FE: "Ethernet, 100 Mbit/s",
    GE: "Ethernet, 1 Gbit/s",
    "2.5GE": "Ethernet, 2.5 Gbit/s",
    "10GE": "Ethernet, 10 Gbit/s",
    "E1-75": "2.048 Mbit/s, 75 ohm, coaxial",
    "E1-120": "2.048 Mbit/s, 120 ohm, pairs",
    "STM-1-electrical": "155.52 Mbit/s, 75 ohm, coaxial",
    "STM-1-optical": "155.52 Mbit/s, fibre",
    "order-wire": "voice between the sites",
    data: "auxiliary data",
    "alarm-in": "contact that is watched",
    "alarm-out": "contact that is switched",
    sync: "clock in or out",
  },
  left: { "STM-1": { instead: "write STM-1-electrical or STM-1-optical: one does not serve the other" } },
} as const satisfies ValueSpec;

export const partRows: Rows = [
  {
    name: "interface",
    in: ["radio", "antenna", "coupler", "feeder"],
    args: one("name", { type: "free", example: "UBR220" }, "Flange, or the word of the catalogue.", [
      "unit.interface",
      "mount.interface",
      "coupler.interface",
      "feeder.interface",
    ]),
    meaning:
      "Waveguide port towards the next part. Flanges are compared by face, type and guide, other words as they stand.",
    fallback: "not held against the next part",
    source: "IEC 60154-2 for names of flanges, from memory",
    example: "interface UBR220",
  },
  {
    name: "draws",
    in: ["radio", "chassis", "card"],
    alsoCalled: ["consumption", "power-consumption"],
    args: one(
      "power",
      quantity("consumption", { min: "0 W", max: "20 kW", usual: ["1 to 5000 W", "0.1 to 5 kW"] }),
      "Greatest consumption.",
      ["unit.drawsW", "chassis.drawsW", "card.drawsW"],
    ),
    meaning: "Greatest electrical consumption of one piece; of a chassis, without its cards.",
    fallback: "not in the sums, which say so",
    source: CATALOGUE,
    example: "draws 45 W",
  },
  {
    name: "weight",
    in: ["radio", "antenna", "coupler", "chassis", "card"],
    alsoCalled: ["mass"],
    args: one(
      "mass",
      quantity("mass", { min: "0 kg", max: "2000 kg", usual: ["0.1 to 1000 kg"] }),
      "Mass of one piece.",
      ["unit.weightKg", "mount.weightKg", "coupler.weightKg", "chassis.weightKg", "card.weightKg"],
    ),
    meaning: "Weight of one piece.",
    fallback: "not in the sums, which say so",
    source: CATALOGUE,
    example: "weight 4.5 kg",
  },
  {
    name: "order-code",
    in: ["radio", "antenna", "coupler", "feeder", "cable", "chassis", "card"],
    alsoCalled: ["part-number", "article"],
    args: [{ name: "code", value: text, meaning: "As it is ordered by." }],
    meaning:
      "What the part is ordered by; parts lists carry it. It is the entry's own and never inherited by `like`.",
    fallback: "parts lists have the name alone",
    source: CATALOGUE,
    example: 'order-code "HW-1807-A"',
  },
];
