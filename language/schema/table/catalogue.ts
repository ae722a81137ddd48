import type { NamedKind } from "../kinds.js";
import type { ArgSpec } from "../types.js";
import { bandwidth, frequency, frequencyRange, quantity, type Rows, ref, text } from "./values.js";

const CATALOGUE = "data of the equipment";
const PRACTICE = "common practice";

/** Name, title and `like` of a catalogue entry. */
function entryArgs(kind: NamedKind): readonly ArgSpec[] {
  return [
    { name: "name", value: { type: "name" }, meaning: "Name that hops refer to." },
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

export const radioRows: Rows = [
  {
    name: "radio",
    in: ["file"],
    args: entryArgs("radio"),
    block: "radio",
    meaning:
      "A radio: the outdoor unit with its modes. `template radio` makes one that can only be inherited.",
    source: CATALOGUE,
    example: 'radio R18 "18 GHz split-mount unit" {',
  },
  {
    name: "tuning",
    in: ["radio"],
    args: frequencyRange,
    meaning: "Frequencies that the unit covers.",
    source: CATALOGUE,
    example: "tuning 17.7 GHz to 19.7 GHz",
  },
  {
    name: "low-half",
    in: ["radio"],
    args: frequencyRange,
    meaning: "Where a low-half unit transmits.",
    source: CATALOGUE,
    example: "low-half 17.7 GHz to 18.69 GHz",
  },
  {
    name: "high-half",
    in: ["radio"],
    args: frequencyRange,
    meaning: "Where a high-half unit transmits.",
    source: CATALOGUE,
    example: "high-half 18.71 GHz to 19.7 GHz",
  },
  {
    name: "duplex",
    in: ["radio"],
    args: [
      {
        name: "spacing",
        value: quantity("frequency", { above: "0 Hz", max: "12 GHz" }),
        meaning: "Distance of go and return.",
      },
    ],
    meaning: "Duplex spacing the unit works with.",
    fallback: "any",
    source: CATALOGUE,
    example: "duplex 1010 MHz",
  },
  {
    name: "noise-figure",
    in: ["radio"],
    args: [
      {
        name: "value",
        value: quantity("ratio", { min: "0 dB", max: "20 dB" }),
        meaning: "Receiver noise figure.",
      },
    ],
    meaning: "Noise figure at the antenna port; with a mode's SNR it gives the threshold.",
    source: CATALOGUE,
    example: "noise-figure 6.5 dB",
  },
  {
    name: "overload",
    in: ["radio"],
    args: [
      {
        name: "level",
        value: quantity("power level", { min: "-60 dBm", max: "20 dBm" }),
        meaning: "Received level.",
      },
    ],
    meaning: "Highest received level the receiver works with.",
    fallback: "overload is not judged",
    source: CATALOGUE,
    example: "overload -20 dBm",
  },
  {
    name: "mode",
    in: ["radio"],
    args: [
      { name: "bandwidth", value: bandwidth, meaning: "Channel width." },
      {
        name: "modulation",
        value: { type: "free", example: "128QAM" },
        meaning: "Modulation, as hops will name it.",
      },
      {
        name: "rate",
        label: "rate",
        optional: true,
        value: quantity("bit rate", { above: "0 bit/s" }),
        meaning: "Net bit rate.",
      },
      {
        name: "power",
        label: "power",
        optional: true,
        value: quantity("power level", { min: "-40 dBm", max: "50 dBm" }),
        meaning: "Transmit power in this mode, at the unit's antenna port.",
      },
      {
        name: "threshold",
        label: "threshold",
        optional: true,
        value: quantity("power level", { min: "-130 dBm", max: "0 dBm" }),
        meaning: "Received level at the reference bit error ratio.",
        fallback: "computed from the noise figure and the SNR",
      },
      {
        name: "snr",
        label: "snr",
        optional: true,
        value: quantity("ratio", { min: "-10 dB", max: "60 dB" }),
        meaning: "Signal-to-noise ratio the demodulator needs.",
      },
    ],
    repeatable: true,
    meaning: "An operating mode: a channel width with a modulation.",
    source: CATALOGUE,
    example: "mode 55 MHz 128QAM rate 310 Mbit/s power 20 dBm threshold -70.5 dBm",
  },
  {
    name: "signature",
    in: ["radio"],
    args: [
      { name: "bandwidth", value: bandwidth, meaning: "Channel width of the mode." },
      { name: "modulation", value: { type: "free", example: "128QAM" }, meaning: "Modulation of the mode." },
      {
        name: "width",
        label: "width",
        value: quantity("frequency", { above: "0 Hz", max: "5 GHz" }),
        meaning: "Width of the signature.",
      },
      {
        name: "depth",
        label: "depth",
        value: quantity("ratio", { min: "0 dB", max: "60 dB" }),
        meaning: "Depth of the signature.",
      },
      {
        name: "delay",
        label: "delay",
        optional: true,
        value: quantity("delay", { above: "0 ns", max: "100 ns" }),
        meaning: "Delay of the two-ray channel it was measured with.",
        fallback: "6.3 ns",
      },
    ],
    repeatable: true,
    meaning: "Signature of a mode: the notches that bring it down. Selective fading follows from it.",
    fallback: "selective fading is not counted",
    source: "Rec. ITU-R P.530-18 section 5.1, from memory",
    example: "signature 55 MHz 128QAM width 30 MHz depth 20 dB delay 6.3 ns",
  },
  {
    name: "dispersive-margin",
    in: ["radio"],
    args: [
      { name: "bandwidth", value: bandwidth, meaning: "Channel width of the mode." },
      { name: "modulation", value: { type: "free", example: "128QAM" }, meaning: "Modulation of the mode." },
      {
        name: "value",
        value: quantity("ratio", { min: "0 dB", max: "90 dB" }),
        meaning: "Dispersive fade margin.",
      },
    ],
    repeatable: true,
    meaning: "Dispersive fade margin of a mode, where its signature is not known.",
    fallback: "selective fading is not counted",
    source: PRACTICE,
    example: "dispersive-margin 55 MHz 128QAM 45 dB",
  },
  {
    name: "xpic-gain",
    in: ["radio"],
    args: [
      {
        name: "value",
        value: quantity("ratio", { min: "0 dB", max: "50 dB" }),
        meaning: "Difference of cross-polar isolation with and without the canceller.",
      },
    ],
    meaning: "What the canceller of cross-polar interference gains.",
    fallback: "20 dB on an arrangement with xpic, said in the findings",
    source: "Rec. ITU-R P.530-18 section 4",
    example: "xpic-gain 20 dB",
  },
  {
    name: "hysteresis",
    in: ["radio"],
    args: [
      {
        name: "value",
        value: quantity("ratio", { min: "0 dB", max: "20 dB" }),
        meaning: "Level above the threshold at which a higher mode is taken again.",
      },
    ],
    meaning: "Hysteresis of adaptive modulation. Until the level has come back by it, the lower mode stays.",
    fallback: "0 dB",
    source: CATALOGUE,
    example: "hysteresis 2 dB",
  },
  {
    name: "mtbf",
    in: ["radio"],
    args: [
      {
        name: "value",
        value: quantity("duration", { above: "0 h" }),
        meaning: "Mean time between failures of one unit with all that fails with it.",
      },
    ],
    meaning: "Mean time between failures of one unit; with a hop's `repair-time` equipment outage follows.",
    fallback: "equipment outage is not computed",
    source: CATALOGUE,
    example: "mtbf 50 y",
  },
  {
    name: "switch-over",
    in: ["radio"],
    args: [
      {
        name: "value",
        value: quantity("duration", { min: "0 s", max: "1 h" }),
        meaning: "Interruption when the standby takes over.",
      },
    ],
    meaning: "How long traffic is lost when a standby takes over after a failure.",
    fallback: "0 s",
    source: CATALOGUE,
    example: "switch-over 50 ms",
  },
];

export const antennaRows: Rows = [
  {
    name: "antenna",
    in: ["file"],
    args: entryArgs("antenna"),
    block: "antenna",
    meaning: "An antenna.",
    source: CATALOGUE,
    example: 'antenna A18-06 "0.6 m parabolic" {',
  },
  {
    name: "band",
    in: ["antenna", "coupler", "feeder"],
    args: frequencyRange,
    meaning: "Frequencies it is made for.",
    fallback: "not held against the hop's frequencies",
    source: CATALOGUE,
    example: "band 17.7 GHz to 19.7 GHz",
  },
  {
    name: "diameter",
    in: ["antenna"],
    args: [
      {
        name: "value",
        value: quantity("length", { above: "0 m", max: "6 m" }),
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
        value: quantity("gain", { min: "-5 dBi", max: "65 dBi" }),
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
    args: [
      {
        name: "value",
        value: quantity("angle", { above: "0 deg", max: "180 deg" }),
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
        value: quantity("angle", { min: "0 deg", max: "180 deg" }),
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
];

const loss = quantity("ratio", { min: "0 dB", max: "40 dB" });

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
      },
    ],
    meaning: "Sort of coupler.",
    source: CATALOGUE,
    example: "kind hybrid",
  },
  {
    name: "main-loss",
    in: ["coupler"],
    args: [
      { name: "value", value: loss, meaning: "Loss of the main arm, or of each arm when they are equal." },
    ],
    meaning: "Loss of the main arm, or of each arm when they are equal.",
    source: CATALOGUE,
    example: "main-loss 1.6 dB",
  },
  {
    name: "standby-loss",
    in: ["coupler"],
    args: [{ name: "value", value: loss, meaning: "Loss of the standby arm." }],
    meaning: "Loss of the standby arm.",
    fallback: "that of the main arm",
    source: CATALOGUE,
    example: "standby-loss 6.4 dB",
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
    example: "feeder FW18 {",
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
      },
    ],
    meaning: "Sort of feeder.",
    source: CATALOGUE,
    example: "kind flexible",
  },
  {
    name: "loss",
    in: ["feeder"],
    args: [
      {
        name: "value",
        value: quantity("loss per length", { min: "0 dB/m", max: "10 dB/m" }),
        meaning: "Loss for each metre.",
      },
      { name: "at", label: "at", optional: true, value: frequency, meaning: "Frequency of this figure." },
    ],
    repeatable: true,
    meaning: "Loss per length. Several points are interpolated over frequency.",
    source: CATALOGUE,
    example: "loss 1.1 dB/m at 18.7 GHz",
  },
];

export const planRows: Rows = [
  {
    name: "plan",
    in: ["file"],
    args: [
      { name: "name", value: { type: "name" }, meaning: "Name that channels refer to." },
      { name: "title", optional: true, value: text, meaning: "Where the plan comes from." },
    ],
    block: "plan",
    meaning: "A radio-frequency channel plan of your own, beside the built-in ones.",
    source: "national plan",
    example: 'plan P18 "national raster" {',
  },
  {
    name: "centre",
    in: ["plan"],
    args: [{ name: "frequency", value: frequency, meaning: "Reference frequency f0." }],
    meaning: "Reference frequency that the rows count from.",
    source: "national plan",
    example: "centre 18.7 GHz",
  },
  {
    name: "row",
    in: ["plan"],
    args: [
      {
        name: "width",
        value: bandwidth,
        meaning: "Channel width; also the step from channel to channel unless `step` is given.",
      },
      {
        name: "go",
        label: "go",
        value: quantity("frequency"),
        meaning: "Offset of the lower half: f(n) = f0 + go + n step.",
      },
      {
        name: "return",
        label: "return",
        value: quantity("frequency"),
        meaning: "Offset of the upper half: f'(n) = f0 + return + n step.",
      },
      {
        name: "channels",
        label: "channels",
        value: { type: "number", integer: true, min: 0, max: 999 },
        meaning: "First channel.",
      },
      {
        name: "to",
        label: "to",
        value: { type: "number", integer: true, min: 0, max: 999 },
        meaning: "Last channel.",
      },
      {
        name: "step",
        label: "step",
        optional: true,
        value: bandwidth,
        meaning: "Step from channel to channel.",
      },
    ],
    repeatable: true,
    meaning: "Channels of one width.",
    source: "national plan",
    example: "row 55 MHz go -1000 MHz return 10 MHz channels 1 to 17",
  },
];
