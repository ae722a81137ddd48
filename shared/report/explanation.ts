import type { HopResult, InputUsed, MethodUsed } from "../evaluate/result.js";
import type { Step } from "./steps.js";

/** One computed figure and everything that it rests on, without layout. */
export interface Explanation {
  /** For example `fade margin KELD to TARN`. */
  readonly figure: string;
  readonly value: string;
  readonly methods: readonly MethodUsed[];
  /** What went in, and where each came from. */
  readonly inputs: readonly InputUsed[];
  /** Intermediate values, under the symbols of the method. */
  readonly steps: readonly Step[];
  readonly notes: readonly string[];
}

export type Sources = ReturnType<typeof sourcesOf>;

/** Methods by a part of their source or purpose, inputs by a part of their name. */
export function sourcesOf(result: HopResult) {
  return {
    methods: (pattern: RegExp) =>
      result.methods.filter(({ source, what }) => pattern.test(`${source} ${what}`)),
    inputs: (pattern: RegExp) => result.inputs.filter(({ name }) => pattern.test(name)),
    notes: (pattern: RegExp) => result.notes.filter((note) => pattern.test(note)),
  };
}

export function explanation(figure: string, value: string, more: Partial<Explanation> = {}): Explanation {
  return { figure, value, methods: [], inputs: [], steps: [], notes: [], ...more };
}
