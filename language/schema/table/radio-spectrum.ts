/** What radios and antennas say of interference: spectra of modes, power control, patterns from elsewhere. */
import type { Context } from "../types.js";
import { bandwidth, CATALOGUE, one, PRACTICE, quantity, type Rows } from "./values.js";

const offset = quantity("frequency", {
  min: "0 MHz",
  max: "20 GHz",
  usual: ["0 to 5000 MHz", "0 to 20 GHz"],
});
const down = quantity("ratio", { min: "0 dB", max: "150 dB" });
const POWER_CONTROL: readonly Context[] = ["hop", "defaults hop", "end", "defaults end"];

export const spectrumRows: Rows = [
  {
    name: "power-control",
    in: ["radio"],
    alsoCalled: ["atpc"],
    args: one(
      "range",
      quantity("ratio", { min: "0 dB", max: "60 dB" }),
      "By how much it can let the power down.",
      "radio.powerControlRangeDb",
    ),
    meaning: "Range of automatic transmit power control.",
    fallback: "none is known",
    source: CATALOGUE,
    example: "power-control 20 dB",
  },
  {
    name: "spectrum",
    in: ["radio"],
    args: [
      {
        name: "bandwidth",
        optional: true,
        value: bandwidth,
        meaning: "Width of the modes that it is of.",
        fallback: "of all widths",
      },
      {
        name: "modulation",
        optional: true,
        value: { type: "free", example: "128QAM" },
        meaning: "Modulation of the mode that it is of.",
        fallback: "of all modulations",
      },
    ],
    block: "spectrum",
    repeatable: true,
    meaning:
      "Transmit mask and receive selectivity, or C/I by offset, as the data sheet has them. A list of a nearer block (width and modulation, before width, before all) takes the place of that of a wider one.",
    fallback: "derived from channel width and roll-off, and capped",
    source: CATALOGUE,
    example: "spectrum 55 MHz {",
  },
  {
    name: "roll-off",
    in: ["spectrum"],
    args: one(
      "value",
      { type: "number", min: 0, max: 1 },
      "0 is a rectangle, 1 twice its width.",
      "spectrum.rollOff",
    ),
    meaning: "Roll-off of the raised cosine that the spectrum is derived from, where no mask is stated.",
    fallback: "a usual one, named at the result",
    source: CATALOGUE,
    example: "roll-off 0.2",
  },
  {
    name: "mask",
    in: ["spectrum"],
    alsoCalled: ["transmit-mask", "spectrum-mask", "emission-mask"],
    args: [
      { name: "offset", value: offset, meaning: "From the centre.", into: "spectrumPoint.offsetHz" },
      {
        name: "down",
        value: down,
        meaning: "Below the density at the centre.",
        into: "spectrumPoint.attenuationDb",
      },
    ],
    repeatable: true,
    meaning:
      "A point of the transmit spectrum mask, the same on both sides; straight between points, two points of one offset are a step.",
    fallback: "derived from width and roll-off",
    source: CATALOGUE,
    example: "mask 40 MHz 35 dB",
  },
  {
    name: "selectivity",
    in: ["spectrum"],
    alsoCalled: ["receive-filter", "receiver-selectivity"],
    args: [
      { name: "offset", value: offset, meaning: "From the centre.", into: "spectrumPoint.offsetHz" },
      {
        name: "down",
        value: down,
        meaning: "Below the gain at the centre.",
        into: "spectrumPoint.attenuationDb",
      },
    ],
    repeatable: true,
    meaning: "A point of the receive selectivity, the same on both sides.",
    fallback: "derived from width and roll-off",
    source: CATALOGUE,
    example: "selectivity 60 MHz 50 dB",
  },
  {
    name: "carrier-to-interference",
    in: ["spectrum"],
    alsoCalled: ["c/i", "ci", "c-i", "protection-ratio", "w/u"],
    args: [
      {
        name: "offset",
        value: offset,
        meaning: "Between the two centres.",
        into: "carrierToInterference.offsetHz",
      },
      {
        name: "one",
        value: quantity("ratio", { min: "-120 dB", max: "80 dB", usual: ["-60 to 60 dB"] }),
        meaning: "C/I at which the threshold is raised by 1 dB.",
        into: "carrierToInterference.for1Db",
      },
      {
        name: "three",
        value: quantity("ratio", { min: "-120 dB", max: "80 dB", usual: ["-60 to 60 dB"] }),
        meaning: "C/I at which it is raised by 3 dB.",
        into: "carrierToInterference.for3Db",
      },
    ],
    repeatable: true,
    meaning:
      "C/I at the threshold for 1 dB and 3 dB of degradation by an interferer of the same kind, by its offset; in place of mask and selectivity.",
    fallback: "from mask and selectivity",
    source: CATALOGUE,
    example: "carrier-to-interference 55 MHz -5 dB -9 dB",
  },
];

export const antennaPatternRows: Rows = [
  {
    name: "pattern-file",
    in: ["antenna"],
    args: [
      {
        name: "file",
        value: { type: "path" },
        meaning:
          "CSV relative to this file: angle in degrees, co-polar and cross-polar discrimination in dB below the boresight gain, a row a point.",
      },
    ],
    meaning:
      "Pattern envelope from a table. With a line of heads (`angle`, `co`, `cross`, in any order) or without one (then in this order; the cross-polar column may be left out).",
    fallback: "the points of `pattern`",
    source: CATALOGUE,
    example: 'pattern-file "patterns/dish60-18.csv"',
  },
  {
    name: "reference-pattern",
    in: ["antenna"],
    args: one(
      "pattern",
      {
        type: "word",
        words: { "F.699": "envelope for each entry, from diameter or gain" },
        left: {
          "F.1245": {
            instead:
              "F.1245 averages side lobes, for the sum of many: the network chooses it, with `sum-pattern F.1245` in its `interference`",
          },
        },
      },
      "Recommendation.",
      "antenna.referencePattern",
    ),
    meaning: "A reference pattern in place of one of its own, chosen and not fallen back upon.",
    fallback: "F.699 where there is no other pattern, named at the result",
    source: "Rec. ITU-R F.699-8, read in two public implementations",
    example: "reference-pattern F.699",
  },
];

export const powerControlRows: Rows = [
  {
    name: "power-control",
    in: POWER_CONTROL,
    alsoCalled: ["atpc"],
    args: [
      {
        name: "use",
        value: [
          { type: "word", words: { yes: "as far as the radio can", no: "always at the stated power" } },
          quantity("ratio", { min: "0 dB", max: "60 dB" }),
        ],
        meaning: "By how much the power is let down while nothing fades.",
      },
    ],
    meaning:
      "Automatic transmit power control: interference is computed with the power let down, and again with all of it. Of a signal that lies above its threshold by less only so much counts, below it nothing. What an end states counts before what its hop does.",
    fallback: "no: interference is that of the stated power",
    source: PRACTICE,
    example: "power-control 10 dB",
  },
];
