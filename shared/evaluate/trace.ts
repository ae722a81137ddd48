import { type MethodReference, statusText } from "../propagation/method.js";
import { type Lack, modeNamed, type Step } from "./lack.js";
import type { InputUsed, MethodUsed } from "./result.js";

/** What an evaluation says beside its figures; filled while the steps run, each sentence once. */
export interface Trace {
  readonly inputs: InputUsed[];
  readonly methods: MethodUsed[];
  readonly missing: Lack[];
  readonly notes: string[];
  /** Methods cited, and things of the design told of, already. */
  readonly cited: Set<object>;
  /** Names of the inputs told already. */
  readonly used: Set<string>;
  /** Intermediate values by method, kept only for an explanation. */
  readonly steps?: Map<string, object>;
}

export function newTrace(): Trace {
  return { inputs: [], methods: [], missing: [], notes: [], cited: new Set(), used: new Set() };
}

/** Tells an input once; a value given as a function is written out only then. */
export function use(
  trace: Trace,
  name: string,
  value: string | (() => string),
  origin: InputUsed["origin"],
  note?: string,
): void {
  if (trace.used.has(name)) return;
  trace.used.add(name);
  const text = typeof value === "string" ? value : value();
  trace.inputs.push(note === undefined ? { name, value: text, origin } : { name, value: text, origin, note });
}

/** Whether this thing of the design was not told of yet. Each mode of each direction comes by the same few. */
export function isFirst(trace: Trace, thing: object): boolean {
  if (trace.cited.has(thing)) return false;
  trace.cited.add(thing);
  return true;
}

/** Cites a method of the propagation modules. */
export function cite(trace: Trace, method: MethodReference): void {
  if (!isFirst(trace, method)) return;
  citeAs(trace, sourceOf(method), statusText(method.status), method.title);
}

/** For example `Rec. ITU-R P.530-18 section 2.3.1` or `Rec. ITU-R P.841 Annex 1`. */
export function sourceOf({ recommendation, section }: MethodReference): string {
  const document = recommendation.startsWith("ITU-") ? `Rec. ${recommendation}` : recommendation;
  if (section === "") return document;
  return /^\d/.test(section) ? `${document} section ${section}` : `${document} ${section}`;
}

export function citeAs(trace: Trace, source: string, status: string, what: string): void {
  if (!trace.methods.some((method) => method.source === source && method.what === what)) {
    trace.methods.push({ source, status, what });
  }
}

/** Keeps the intermediate values of a method when an explanation asks for them. */
export function record(trace: Trace, method: string, steps: object | undefined): void {
  if (steps !== undefined) trace.steps?.set(method, steps);
}

/** Both directions and every mode come by the same lacks. */
export function missing(trace: Trace, lack: Lack): void {
  const isKnown = trace.missing.some(({ said, of }) => said === lack.said && of[0] === lack.of[0]);
  if (!isKnown) trace.missing.push(lack);
}

/** A method that refuses its input, for the step that it would have computed. */
export function refused(trace: Trace, step: Step, said: string, mode?: Lack["mode"]): void {
  missing(trace, {
    code: "refusal",
    of: [step],
    said: said.replace(/\.$/, ""),
    ...(mode && { mode: modeNamed(mode) }),
  });
}

export function note(trace: Trace, ...sentences: readonly string[]): void {
  for (const sentence of sentences) if (!trace.notes.includes(sentence)) trace.notes.push(sentence);
}
