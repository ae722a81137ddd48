import type { RefusalReason, Remark } from "../../propagation/remark.js";
import { sameData } from "./data.js";
import { type Input, type InputBasis, type InputOrigin, type InputUsed, isSameInput } from "./input.js";
import { type Lack, type ModeRefused, modeNamed, type Step } from "./lack.js";
import type { MethodId } from "./methods.js";
import type { Note, Speaker } from "./note.js";

/** What an evaluation says beside its figures; filled while the steps run, each thing once. */
export interface Trace {
  readonly inputs: InputUsed[];
  readonly methods: MethodId[];
  readonly missing: Lack[];
  readonly notes: Note[];
  /** Things of the design that were told of already. */
  readonly told: Set<object>;
  /** Intermediate values by method, kept only for an explanation. */
  readonly steps?: Map<string, object>;
}

export function newTrace(): Trace {
  return { inputs: [], methods: [], missing: [], notes: [], told: new Set() };
}

/** Tells an input once. */
export function use(trace: Trace, input: Input, origin: InputOrigin | InputBasis): void {
  if (trace.inputs.some((known) => isSameInput(known, input))) return;
  trace.inputs.push({ ...input, ...(typeof origin === "string" ? { origin } : origin) });
}

/** Whether this thing of the design was not told of yet. Each mode of each direction comes by the same few. */
export function isFirst(trace: Trace, thing: object): boolean {
  if (trace.told.has(thing)) return false;
  trace.told.add(thing);
  return true;
}

/** Cites a method, once. */
export function cite(trace: Trace, method: MethodId): void {
  if (!trace.methods.includes(method)) trace.methods.push(method);
}

/** Keeps the intermediate values of a method when an explanation asks for them. */
export function record(trace: Trace, method: string, steps: object | undefined): void {
  if (steps !== undefined) trace.steps?.set(method, steps);
}

/** Both directions and every mode come by the same lacks. */
export function missing(trace: Trace, lack: Lack): void {
  const isKnown = trace.missing.some(
    ({ reason, of, fact }) =>
      of[0] === lack.of[0] && sameData(reason, lack.reason) && sameData(fact, lack.fact),
  );
  if (!isKnown) trace.missing.push(lack);
}

/** A method that refuses its input, for the step that it would have computed. */
export function refused(
  trace: Trace,
  step: Step,
  reason: RefusalReason,
  mode?: { readonly of: NonNullable<Lack["mode"]>; readonly figure: ModeRefused["figure"] },
): void {
  missing(trace, {
    code: "refusal",
    of: [step],
    reason: {
      code: "refused",
      reason,
      ...(mode && { of: { figure: mode.figure, modulation: mode.of.modulation } }),
    },
    ...(mode && { mode: modeNamed(mode.of) }),
  });
}

/** What a method says of its validity. */
export function remarksOf(of: Speaker, validity: readonly Remark[]): readonly Note[] {
  // Hardly any method has one, and this is asked for each mode of each direction.
  return validity.length === 0 ? NO_NOTES : validity.map((remark) => ({ code: "method-remark", of, remark }));
}

const NO_NOTES: readonly Note[] = [];

/** Both directions and every mode remark the same. */
export function note(trace: Trace, ...notes: readonly Note[]): void {
  for (const one of notes) if (!trace.notes.some((known) => sameData(known, one))) trace.notes.push(one);
}
