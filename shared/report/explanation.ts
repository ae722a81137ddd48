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

/** Notes that say why a level is what it is. */
export const LEVEL_NOTES = /^(Gain|Loss|Gases|Diffraction|The level|The path lies|The carriers cross)/;

/** What a result rests on and no figure told: nothing is left out of an explanation. */
export function explainRest(result: HopResult, told: readonly Explanation[]): Explanation[] {
  const of = <T>(all: readonly T[], part: (one: Explanation) => readonly T[]) => {
    const known = new Set(told.flatMap(part));
    return all.filter((one) => !known.has(one));
  };
  const rest = {
    methods: of(result.methods, ({ methods }) => methods),
    inputs: of(result.inputs, ({ inputs }) => inputs),
    notes: of(result.notes, ({ notes }) => notes),
  };
  const count = rest.methods.length + rest.inputs.length + rest.notes.length;
  return count === 0
    ? []
    : [explanation("beside these figures", "what the hop as a whole and its other modes rest on", rest)];
}

export function explanation(figure: string, value: string, more: Partial<Explanation> = {}): Explanation {
  return { figure, value, methods: [], inputs: [], steps: [], notes: [], ...more };
}
