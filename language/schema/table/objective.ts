/** What a hop is judged against. */
import { one, PRACTICE, quantity, type Rows, ref, text } from "./values.js";

export const objectiveRows: Rows = [
  {
    name: "objective",
    in: ["file", "network"],
    args: [
      { name: "name", value: { type: "name" }, meaning: "Name that hops refer to." },
      { name: "title", optional: true, value: text, meaning: "What it is called on reports." },
      {
        name: "like",
        label: "like",
        optional: true,
        value: ref("objective"),
        meaning: "Objective whose facts hold unless stated here.",
      },
    ],
    block: "objective",
    meaning:
      "What a hop is judged against. On a hop that names it, or has it from the defaults, all that it states must be met: what is missed is an error, and so is what cannot be judged (`not-judged`), unless the hop accepts it.",
    source: PRACTICE,
    example: "objective trunk {",
  },
  {
    name: "availability",
    in: ["objective"],
    alsoCalled: ["unavailability", "uptime"],
    args: [
      {
        name: "value",
        value: quantity("percentage", { min: "90 %", max: "99.99999 %" }),
        meaning: "Part of the average year, propagation, both directions.",
        into: "objective.availabilityPercent",
      },
    ],
    meaning: "Availability that the hop must reach.",
    fallback: "availability is computed but not judged",
    source: PRACTICE,
    example: "availability 99.995 %",
  },
  {
    name: "availability-class",
    in: ["objective"],
    args: [
      {
        name: "portion",
        value: {
          type: "word",
          words: {
            "long-haul": "international, or national long haul",
            "short-haul": "national short haul",
            access: "national access",
          },
        },
        meaning: "Part of the network.",
        into: "objective.availabilityClass.portion",
      },
      {
        name: "length",
        label: "over",
        optional: true,
        value: quantity("length", { above: "0 m", max: "2500 km", usual: ["1 to 2500 km"] }),
        meaning: "Length of the link that the hop is part of; the hop has its share by length.",
        into: "objective.availabilityClass.linkLengthM",
        fallback: "the hop is the link",
      },
      {
        name: "propagation",
        label: "propagation",
        optional: true,
        value: quantity("percentage", { above: "0 %", max: "100 %" }),
        meaning: "Part of the unavailability that propagation may take.",
        into: "objective.availabilityClass.propagationPercent",
        fallback:
          "propagation and equipment together are held against the whole; `mtbf` and `repair-time` must be known then",
      },
    ],
    meaning: "Availability that F.1703 asks of the link, all causes together, each direction.",
    fallback: "not judged",
    source: "Rec. ITU-R F.1703, from memory",
    example: "availability-class long-haul over 180 km propagation 50 %",
  },
  {
    name: "quality",
    in: ["objective"],
    args: [
      {
        name: "portion",
        value: {
          type: "word",
          words: {
            intermediate: "international portion, intermediate country",
            terminating: "international portion, terminating country",
            "short-haul": "national short haul",
            access: "national access",
          },
        },
        meaning: "Part of the 27 500 km path.",
        into: "objective.quality.portion",
      },
      {
        name: "length",
        label: "over",
        optional: true,
        value: quantity("length", { above: "0 m", max: "27500 km", usual: ["1 to 27500 km"] }),
        meaning: "Length of the link that the hop is part of; the hop has its share by length.",
        into: "objective.quality.linkLengthM",
        fallback: "the hop is the link",
      },
      {
        name: "share",
        label: "share",
        optional: true,
        value: quantity("percentage", { above: "0 %", max: "20 %" }),
        meaning: "Share of the end-to-end objective of a national portion.",
        into: "objective.quality.sharePercent",
        fallback: "8 %",
      },
      {
        name: "block-ratio",
        label: "block-ratio",
        optional: true,
        value: { type: "number", min: 0.01, max: 1 },
        meaning: "Block ratio of the international portion.",
        into: "objective.quality.blockRatio",
        fallback: "1",
      },
    ],
    meaning: "Severely errored seconds that F.1668 allows in any month, held against the clear-air outage.",
    fallback: "not judged",
    source: "Rec. ITU-R F.1668 and ITU-T G.826, from memory",
    example: "quality intermediate over 200 km block-ratio 1",
  },
  {
    name: "capacity",
    in: ["objective"],
    alsoCalled: ["throughput", "rate", "bitrate", "traffic"],
    args: [
      {
        name: "value",
        value: quantity("bit rate", {
          above: "0 bit/s",
          max: "400 Gbit/s",
          usual: ["2 to 20000 Mbit/s", "1 to 20 Gbit/s", "1500 to 99000 kbit/s"],
        }),
        meaning: "Rate that must hold.",
        into: "objective.capacityBps",
      },
    ],
    meaning: "Capacity that must hold at the availability asked; the lowest mode that carries it is judged.",
    fallback: "the lowest mode in use is judged",
    source: PRACTICE,
    example: "capacity 300 Mbit/s",
  },
  {
    name: "margin",
    in: ["objective"],
    alsoCalled: ["fade-margin"],
    args: [
      {
        name: "value",
        value: quantity("ratio", { min: "0 dB", max: "80 dB" }),
        meaning: "Least fade margin.",
        into: "objective.fadeMarginDb",
      },
    ],
    meaning: "Least fade margin that the judged mode must have.",
    fallback: "the margin must not be negative",
    source: PRACTICE,
    example: "margin 25 dB",
  },
  {
    name: "clearance",
    in: ["objective"],
    args: [
      {
        name: "zone",
        value: quantity("Fresnel fraction", { min: "0 F1", max: "3 F1" }),
        meaning: "Part of the first Fresnel zone that must be free.",
        into: "criterion.fresnelFraction",
      },
      {
        name: "k",
        label: "at k",
        value: { type: "number", min: 0.1, max: 20 },
        meaning: "Effective Earth radius factor it must be free at.",
        into: "criterion.kFactor",
      },
    ],
    repeatable: true,
    meaning: "A clearance criterion; all of them must hold.",
    fallback: "1 F1 at k 1.33 is computed but not judged",
    source: "Rec. ITU-R P.530-18 section 2.2.2 (form of the rule from memory)",
    example: "clearance 1 F1 at k 1.33",
  },
  {
    name: "diversity-clearance",
    in: ["objective"],
    args: [
      {
        name: "zone",
        value: quantity("Fresnel fraction", { min: "0 F1", max: "3 F1" }),
        meaning: "Part of the first Fresnel zone that must be free under the ray to a diversity antenna.",
        into: "criterion.fresnelFraction",
      },
      {
        name: "k",
        label: "at k",
        value: { type: "number", min: 0.1, max: 20 },
        meaning: "Effective Earth radius factor it must be free at.",
        into: "criterion.kFactor",
      },
    ],
    repeatable: true,
    meaning:
      "A clearance criterion of the diversity antennas, in place of `clearance`. P.530 lets the lower antenna have less: 0.3 to 0.6 F1 at median k over a wide obstruction, 0 to 0.3 F1 over one or two narrow ones.",
    fallback: "the criteria of `clearance` hold for the diversity antennas too",
    source: "Rec. ITU-R P.530-18 section 2.2.2.2, from memory",
    example: "diversity-clearance 0.3 F1 at k 1.33",
  },
  {
    name: "standby-margin",
    in: ["objective"],
    args: one(
      "value",
      quantity("ratio", { min: "0 dB", max: "60 dB" }),
      "Least margin.",
      "objective.standbyMarginDb",
    ),
    meaning:
      "Fade margin that must be left in every state with a unit on standby: at the receiver, at the sender, at both ends.",
    fallback: "the threshold must be reached in each of them",
    source: PRACTICE,
    example: "standby-margin 10 dB",
  },
];
