/** Short forms for the value types that recur in the table. */
import type { Dimension } from "../../../shared/units/units.js";
import type { NamedKind } from "../kinds.js";
import type { ArgSpec, Property, ValueSpec } from "../types.js";

export type Rows = readonly Property[];

/** Where a fact comes from, in the words of the reference. */
export const CATALOGUE = "data of the equipment";
export const PRACTICE = "common practice";

export const text: ValueSpec = { type: "text" };

export function quantity(
  dimension: Dimension,
  limits: Omit<Extract<ValueSpec, { type: "quantity" }>, "type" | "dimension"> = {},
): ValueSpec {
  return { type: "quantity", dimension, ...limits };
}

export function ref(kind: NamedKind): ValueSpec {
  return { type: "reference", kind };
}

/** Words that share one form of meaning. */
export function phrase(words: readonly string[], meaning: (word: string) => string): ValueSpec {
  return { type: "word", words: Object.fromEntries(words.map((word) => [word, meaning(word)])) };
}

/** A frequency from the bottom of the fixed service's bands to its top. */
export const frequency = quantity("frequency", {
  min: "1 GHz",
  max: "120 GHz",
  usual: ["1.3 to 95 GHz", "1300 to 95000 MHz"],
});
export const bandwidth = quantity("frequency", {
  min: "0.1 MHz",
  max: "5 GHz",
  usual: ["1.5 to 2500 MHz", "1500 to 99000 kHz"],
});

/** `17.7 GHz to 19.7 GHz` */
export const frequencyRange: readonly ArgSpec[] = [
  { name: "from", value: frequency, meaning: "Lower edge." },
  { name: "to", label: "to", value: frequency, meaning: "Upper edge." },
];

/** The one value of a statement. */
export function one(name: string, value: ValueSpec, meaning: string): readonly ArgSpec[] {
  return [{ name, value, meaning }];
}

/** Name, title and `like` of a catalogue entry. */
export function entryArgs(kind: NamedKind, users = "hops"): readonly ArgSpec[] {
  return [
    { name: "name", value: { type: "name" }, meaning: `Name that ${users} refer to.` },
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
