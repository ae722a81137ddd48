/** Channel plans that a design brings itself. */
import { bandwidth, frequency, quantity, type Rows, text } from "./values.js";

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
        value: quantity("frequency", { usual: ["-12000 to 12000 MHz", "-12 to 12 GHz"] }),
        meaning: "Offset of the lower half: f(n) = f0 + go + n step.",
      },
      {
        name: "return",
        label: "return",
        value: quantity("frequency", { usual: ["-12000 to 12000 MHz", "-12 to 12 GHz"] }),
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
