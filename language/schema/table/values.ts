/** Short forms for the value types that recur in the table. */
import type { Dimension } from "../../../shared/units/units.js";
import type { Parts } from "../into.js";
import type { NamedKind } from "../kinds.js";
import type { ArgSpec, Property, QuantitySpec, ReferenceSpec, WordSpec } from "../types.js";

export type Rows = readonly Property[];

type RangePlace = {
  [P in keyof Parts]: Parts[P] extends { readonly fromHz: number; readonly toHz: number } ? P : never;
}[keyof Parts];

/** Where a fact comes from, in the words of the reference. */
export const CATALOGUE = "data of the equipment";
export const PRACTICE = "common practice";

export const text = { type: "text" } as const;
export const yesNo = { type: "word", words: { yes: "it is so", no: "it is not so" } } as const;

export function quantity(
  dimension: Dimension,
  limits: Omit<QuantitySpec, "type" | "dimension"> = {},
): QuantitySpec {
  return { type: "quantity", dimension, ...limits };
}

export function ref<Kind extends NamedKind>(kind: Kind): ReferenceSpec<Kind> {
  return { type: "reference", kind };
}

/** Words that share one form of meaning. */
export function phrase(words: readonly string[], meaning: (word: string) => string): WordSpec {
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
export function frequencyRange(...into: readonly RangePlace[]): readonly ArgSpec[] {
  return [
    {
      name: "from",
      value: frequency,
      meaning: "Lower edge.",
      into: into.map((place) => `${place}.fromHz` as const),
    },
    {
      name: "to",
      label: "to",
      value: frequency,
      meaning: "Upper edge.",
      into: into.map((place) => `${place}.toHz` as const),
    },
  ];
}

/** What an argument takes and where it goes, as the last two of `one`. */
type Given<Arg> = Arg extends { readonly value: infer Value; readonly into?: infer Place }
  ? [
      name: string,
      value: Value,
      meaning: string,
      ...(undefined extends Place ? [into?: undefined] : [into: Place]),
    ]
  : never;

/** The one value of a statement. */
export function one(...[name, value, meaning, into]: Given<ArgSpec>): readonly ArgSpec[] {
  return [{ name, value, meaning, into } as ArgSpec];
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
