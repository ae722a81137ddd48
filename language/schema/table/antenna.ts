/** Antennas: gain and pattern, then what hangs on them and what they do to a structure. */
import type { ValueSpec } from "../types.js";
import { CATALOGUE, entryArgs, frequency, frequencyRange, one, quantity, type Rows } from "./values.js";

const yesNo: ValueSpec = { type: "word", words: { yes: "it is so", no: "it is not so" } };

export const antennaRows: Rows = [
  {
    name: "antenna",
    in: ["file"],
    args: entryArgs("antenna"),
    block: "antenna",
    meaning: "An antenna.",
    source: CATALOGUE,
    example: 'antenna DISH60-18 "0.6 m parabolic" {',
  },
  {
    name: "band",
    in: ["antenna", "coupler", "feeder"],
    alsoCalled: ["frequency", "range", "tuning"],
    args: frequencyRange,
    meaning: "Frequencies it is made for.",
    fallback: "not held against the hop's frequencies",
    source: CATALOGUE,
    example: "band 17.7 GHz to 19.7 GHz",
  },
  {
    name: "diameter",
    in: ["antenna"],
    alsoCalled: ["size", "dish"],
    args: [
      {
        name: "value",
        value: quantity("length", {
          above: "0 m",
          max: "6 m",
          usual: ["0.15 to 4.6 m", "15 to 460 cm", "150 to 4600 mm", "1 to 15 ft"],
        }),
        meaning: "Diameter of the aperture.",
      },
    ],
    meaning: "Diameter; without a gain the gain is estimated from it.",
    source: CATALOGUE,
    example: "diameter 0.6 m",
  },
  {
    name: "gain",
    in: ["antenna"],
    args: [
      {
        name: "value",
        value: quantity("gain", { min: "-5 dBi", max: "65 dBi", usual: ["10 to 60 dBi", "8 to 58 dBd"] }),
        meaning: "Gain over the isotropic antenna.",
      },
      { name: "at", label: "at", optional: true, value: frequency, meaning: "Frequency of this figure." },
    ],
    repeatable: true,
    meaning: "Gain at the antenna port. Several points are interpolated over frequency.",
    fallback: "estimated from the diameter",
    source: CATALOGUE,
    example: "gain 38.2 dBi at 18.7 GHz",
  },
  {
    name: "beamwidth",
    in: ["antenna"],
    alsoCalled: ["hpbw"],
    args: [
      {
        name: "value",
        value: quantity("angle", {
          above: "0 deg",
          max: "180 deg",
          usual: ["0.1 to 120 deg", "2 to 200 mrad"],
        }),
        meaning: "Full width, 3 dB down.",
      },
    ],
    meaning: "Full half-power beamwidth.",
    source: CATALOGUE,
    example: "beamwidth 1.9 deg",
  },
  {
    name: "front-to-back",
    in: ["antenna"],
    alsoCalled: ["f/b"],
    args: [
      {
        name: "value",
        value: quantity("ratio", { min: "0 dB", max: "100 dB" }),
        meaning: "Front-to-back ratio.",
      },
    ],
    meaning: "Front-to-back ratio.",
    source: CATALOGUE,
    example: "front-to-back 62 dB",
  },
  {
    name: "xpd",
    in: ["antenna"],
    alsoCalled: ["cross-polarization", "cross-polar", "xpi"],
    args: [
      { name: "value", value: quantity("ratio", { min: "0 dB", max: "70 dB" }), meaning: "On boresight." },
    ],
    meaning: "Cross-polar discrimination on boresight.",
    source: CATALOGUE,
    example: "xpd 30 dB",
  },
  {
    name: "polarizations",
    in: ["antenna"],
    args: [
      {
        name: "value",
        value: {
          type: "word",
          words: { single: "one port, one polarization at a time", dual: "both polarizations at once" },
        },
        meaning: "What the antenna takes.",
      },
    ],
    meaning: "Whether the antenna takes one polarization or both at once.",
    fallback: "single",
    source: CATALOGUE,
    example: "polarizations single",
  },
  {
    name: "pattern",
    in: ["antenna"],
    args: [
      {
        name: "angle",
        value: quantity("angle", { min: "0 deg", max: "180 deg", usual: ["0 to 180 deg"] }),
        meaning: "Angle off boresight.",
      },
      {
        name: "below",
        value: quantity("ratio", { min: "0 dB", max: "120 dB" }),
        meaning: "Co-polar discrimination below the boresight gain.",
      },
      {
        name: "cross",
        label: "cross",
        optional: true,
        value: quantity("ratio", { min: "0 dB", max: "120 dB" }),
        meaning: "Cross-polar discrimination below the boresight gain.",
      },
    ],
    repeatable: true,
    meaning: "A point of the radiation pattern envelope.",
    source: CATALOGUE,
    example: "pattern 5 deg 25 dB cross 40 dB",
  },
  {
    name: "direct-mounting",
    in: ["antenna"],
    args: one("value", yesNo, "Whether units and couplers may sit on its back."),
    meaning: "Whether units and couplers may sit on its back.",
    fallback: "judged by the diameter: usual up to 1.2 m, not above 1.8 m",
    source: CATALOGUE,
    example: "direct-mounting yes",
  },
  {
    name: "takes",
    in: ["antenna"],
    args: one(
      "polarization",
      {
        type: "word",
        words: {
          vertical: "vertical only",
          horizontal: "horizontal only",
          either: "one of the two, by turning unit or feed",
        },
      },
      "What its port takes.",
    ),
    meaning: "Polarization that the port takes.",
    fallback: "either",
    source: CATALOGUE,
    example: "takes either",
  },
  {
    name: "wind-coefficient",
    in: ["antenna"],
    args: one("value", { type: "number", min: 0.1, max: 3 }, "Drag over the frontal area."),
    meaning: "Drag coefficient over the frontal area.",
    fallback: "1.3, a planning aid",
    source: CATALOGUE,
    example: "wind-coefficient 1.2",
  },
  {
    name: "second-band",
    in: ["antenna"],
    args: frequencyRange,
    meaning: "The other band of a dual-band antenna with two feeds.",
    fallback: "one band",
    source: CATALOGUE,
    example: "second-band 71 GHz to 86 GHz",
  },
];
