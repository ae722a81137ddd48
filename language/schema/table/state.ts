/** When a thing stands: a line of its own in a block, or words at the end of a line. */
import type { ArgSpec, Context, ValueSpec } from "../types.js";
import { PRACTICE, type Rows } from "./values.js";

const word: ValueSpec = {
  type: "word",
  words: {
    built: "it stands, from the date on if there is one",
    planned: "it will stand from the date on; without a date, after all that have one",
    removed: "it is gone from the date on; without a date, it is gone",
  },
};
const IN: readonly Context[] = ["site", "hop", "demand", "site chassis"];
const date: ValueSpec = { type: "date" };
const dates: readonly ArgSpec[] = [
  {
    name: "date",
    optional: true,
    value: date,
    meaning: "First day that it is so.",
    fallback: "see the state",
  },
  {
    name: "until",
    label: "until",
    optional: true,
    value: date,
    meaning: "Day on which it is taken down, of a thing that stands for a time.",
    fallback: "it stays",
  },
];

/** `state planned 2027-03-01` at the end of a line. */
export const stateArgs: readonly ArgSpec[] = [
  {
    name: "state",
    label: "state",
    optional: true,
    value: word,
    meaning: "Whether it is built, planned or removed.",
    fallback: "it stands at all times",
  },
  ...dates,
];

export const stateRows: Rows = [
  {
    name: "state",
    in: IN,
    alsoCalled: ["status", "phase", "stage"],
    args: [{ name: "state", value: word, meaning: "Whether it is built, planned or removed." }, ...dates],
    meaning:
      "When it stands. What a line installs (antenna, coupler, feeder, radio, card) has its state at the end of the line, and may be written several times where no two of them stand at once: what hangs, and what replaces it.",
    fallback: "it stands at all times",
    source: PRACTICE,
    example: "state planned 2027-03-01",
  },
];
