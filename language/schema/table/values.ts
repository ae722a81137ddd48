/** Short forms for the value types that recur in the table. */
import type { Dimension } from "../../../shared/units/units.js";
import type { NamedKind } from "../kinds.js";
import type { ArgSpec, Property, ValueSpec } from "../types.js";

export type Rows = readonly Property[];

export const text: ValueSpec = { type: "text" };

export function quantity(
  dimension: Dimension,
  limits: { min?: string; max?: string; above?: string } = {},
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
export const frequency = quantity("frequency", { min: "1 GHz", max: "120 GHz" });
export const bandwidth = quantity("frequency", { min: "0.1 MHz", max: "5 GHz" });

/** `17.7 GHz to 19.7 GHz` */
export const frequencyRange: readonly ArgSpec[] = [
  { name: "from", value: frequency, meaning: "Lower edge." },
  { name: "to", label: "to", value: frequency, meaning: "Upper edge." },
];
