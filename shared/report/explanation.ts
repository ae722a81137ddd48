import type { InputCode, InputUsed } from "../evaluate/account/input.js";
import type { MethodId } from "../evaluate/account/methods.js";
import type { Note } from "../evaluate/account/note.js";
import { isAbout, type Topic } from "../evaluate/account/note-facts.js";
import type { HopResult } from "../evaluate/account/result.js";
import type { Step } from "./steps.js";

/** One computed figure and everything that it rests on, without layout. */
export interface Explanation {
  /** For example `fade margin KELD to TARN`. */
  readonly figure: string;
  readonly value: string;
  readonly methods: readonly MethodId[];
  /** What went in, and where each came from. */
  readonly inputs: readonly InputUsed[];
  /** Intermediate values, under the symbols of the method. */
  readonly steps: readonly Step[];
  readonly notes: readonly Note[];
}

export type Sources = ReturnType<typeof sourcesOf>;

/** Methods and inputs by their codes, notes by what they are about. */
export function sourcesOf(result: HopResult) {
  return {
    methods: (...ids: readonly MethodId[]) => result.methods.filter((id) => ids.includes(id)),
    inputs: (...codes: readonly InputCode[]) => result.inputs.filter(({ code }) => codes.includes(code)),
    notes: (...topics: readonly Topic[]) => result.notes.filter((note) => isAbout(note, ...topics)),
  };
}

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
