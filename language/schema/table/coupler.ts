/** What brings several units to one antenna, and what leads the signal to it. */
import { CATALOGUE, entryArgs, frequency, one, quantity, type Rows } from "./values.js";

const loss = quantity("ratio", { min: "0 dB", max: "40 dB" });
const decibels = quantity("ratio", { min: "0 dB", max: "120 dB" });

export const couplerRows: Rows = [
  {
    name: "coupler",
    in: ["file"],
    args: entryArgs("coupler"),
    block: "coupler",
    meaning: "What joins several outdoor units to one antenna.",
    source: CATALOGUE,
    example: "coupler H18-U {",
  },
  {
    name: "kind",
    in: ["coupler"],
    args: [
      {
        name: "value",
        value: {
          type: "word",
          words: {
            hybrid: "hybrid coupler: two units on one polarization",
            omt: "orthomode transducer: two units on two polarizations",
            "dual-polarized": "dual-polarized coupler: four units, two on each polarization",
            splitter: "transmit relay and receive splitter of an all-indoor hot standby",
          },
        },
        meaning: "Sort of coupler.",
        into: "coupler.kind",
      },
    ],
    meaning: "Sort of coupler.",
    source: CATALOGUE,
    example: "kind hybrid",
  },
  {
    name: "main-loss",
    in: ["coupler"],
    alsoCalled: ["loss", "insertion-loss", "main"],
    args: [
      {
        name: "value",
        value: loss,
        meaning: "Loss of the main arm, or of each arm when they are equal.",
        into: "coupler.mainLossDb",
      },
    ],
    meaning: "Loss of the main arm, or of each arm when they are equal.",
    source: CATALOGUE,
    example: "main-loss 1.6 dB",
  },
  {
    name: "standby-loss",
    in: ["coupler"],
    alsoCalled: ["standby", "coupled-loss"],
    args: [
      { name: "value", value: loss, meaning: "Loss of the standby arm.", into: "coupler.standbyLossDb" },
    ],
    meaning: "Loss of the standby arm.",
    fallback: "that of the main arm",
    source: CATALOGUE,
    example: "standby-loss 6.4 dB",
  },
  {
    name: "second-main-loss",
    in: ["coupler"],
    args: [
      {
        name: "value",
        value: loss,
        meaning: "Loss of the main arm of the second polarization.",
        into: "coupler.secondMainLossDb",
      },
    ],
    meaning: "Loss of the main arm of the second polarization, where its way is another.",
    fallback: "that of the first polarization",
    source: CATALOGUE,
    example: "second-main-loss 1.8 dB",
  },
  {
    name: "second-standby-loss",
    in: ["coupler"],
    args: [
      {
        name: "value",
        value: loss,
        meaning: "Loss of the standby arm of the second polarization.",
        into: "coupler.secondStandbyLossDb",
      },
    ],
    meaning: "Loss of the standby arm of the second polarization, where its way is another.",
    fallback: "that of the first polarization, else of its own main arm",
    source: CATALOGUE,
    example: "second-standby-loss 6.7 dB",
  },
  {
    name: "transmit-loss",
    in: ["coupler"],
    args: one(
      "value",
      quantity("ratio", { min: "0 dB", max: "40 dB" }),
      "Loss outwards.",
      "coupler.transmitLossDb",
    ),
    meaning: "Loss outwards where it differs from the loss inwards: the relay of an all-indoor hot standby.",
    fallback: "as inwards",
    source: CATALOGUE,
    example: "transmit-loss 0.5 dB",
  },
  {
    name: "isolation",
    in: ["coupler"],
    args: one("value", decibels, "Between the ports of its units.", "coupler.isolationDb"),
    meaning: "Isolation between the ports of its units.",
    source: CATALOGUE,
    example: "isolation 25 dB",
  },
];

export const feederRows: Rows = [
  {
    name: "feeder",
    in: ["file"],
    args: entryArgs("feeder"),
    block: "feeder",
    meaning: "A waveguide or cable between unit and antenna.",
    source: CATALOGUE,
    example: "feeder FLEX-18 {",
  },
  {
    name: "kind",
    in: ["feeder"],
    args: [
      {
        name: "value",
        value: {
          type: "word",
          words: {
            flexible: "flexible waveguide, a short piece",
            rectangular: "rigid rectangular waveguide",
            elliptical: "elliptical waveguide, a long run",
            coaxial: "coaxial cable",
          },
        },
        meaning: "Sort of feeder.",
        into: "feeder.kind",
      },
    ],
    meaning: "Sort of feeder.",
    source: CATALOGUE,
    example: "kind flexible",
  },
  {
    name: "loss",
    in: ["feeder"],
    alsoCalled: ["attenuation"],
    args: [
      {
        name: "value",
        value: quantity("loss per length", {
          min: "0 dB/m",
          max: "10 dB/m",
          usual: ["0.5 to 100 dB/100m", "0.005 to 5 dB/m"],
        }),
        meaning: "Loss for each metre.",
        into: "loss.lossDbPerM",
      },
      {
        name: "at",
        label: "at",
        optional: true,
        value: frequency,
        meaning: "Frequency of this figure.",
        into: "loss.frequencyHz",
      },
    ],
    repeatable: true,
    meaning: "Loss per length. Several points are interpolated over frequency.",
    source: CATALOGUE,
    example: "loss 1.1 dB/m at 18.7 GHz",
  },
  {
    name: "guide",
    in: ["feeder"],
    args: one("size", { type: "free", example: "R220" }, "Name after IEC, EIA or RCSC.", "feeder.guide"),
    meaning: "Size of the rectangular guide. Its loss cannot lie below that of smooth copper.",
    fallback: "the loss is not held against physics",
    source: "IEC 60153-2, EIA RS-261, names partly from memory",
    example: "guide R220",
  },
];
