/**
 * When a thing of the design stands: it is built, planned or removed, with a date. Days are ISO dates, which order as
 * text; a span holds from its first day up to, not with, the day on which the thing is taken down.
 */

export type StateWord = "built" | "planned" | "removed";

export interface State {
  readonly word: StateWord;
  /** Of `built` and `planned`: first day it stands; of `removed`: day it is gone. */
  readonly date?: string;
  /** Day it is gone, where it is only for a time. */
  readonly until?: string;
}

export interface Span {
  readonly from: string;
  readonly until: string;
}

/** Before every date. */
const EVER = "";
/** The day on which all that is planned stands, what has no date included. */
export const ALL_BUILT = "9999-12-31";
/** After every date. */
const NEVER = "~";

/** Whether the end of a span is a day of the calendar. */
export function isDated(end: string): boolean {
  return end !== EVER && end !== NEVER && end !== ALL_BUILT;
}

/** Without a state a thing stands at all times; planned without a date, it comes after all that have one. */
export function spanOf(state: State | undefined): Span {
  switch (state?.word) {
    case undefined:
      return { from: EVER, until: NEVER };
    case "built":
      return { from: state.date ?? EVER, until: state.until ?? NEVER };
    case "planned":
      return { from: state.date ?? ALL_BUILT, until: state.until ?? NEVER };
    case "removed":
      return { from: EVER, until: state.date ?? EVER };
  }
}

export function standsOn({ from, until }: Span, day: string): boolean {
  return from <= day && day < until;
}

/** Both stand at once, on one day at least. */
export function overlap(one: Span, other: Span): boolean {
  return later(one.from, other.from) < earlier(one.until, other.until);
}

/** When both stand; its end is not behind its beginning where they never do. */
export function intersection(one: Span, other: Span): Span {
  return { from: later(one.from, other.from), until: earlier(one.until, other.until) };
}

/** `outer` stands whenever `inner` does. */
export function covers(outer: Span, inner: Span): boolean {
  return inner.from >= inner.until || (outer.from <= inner.from && inner.until <= outer.until);
}

/**
 * The days from which on something is other than before, behind the first one.
 * @param first ISO date of the first day that counts
 * @returns at least `first`; in order, each once
 */
export function stagesFrom(first: string, spans: Iterable<Span>): readonly string[] {
  const days = new Set<string>();
  for (const { from, until } of spans)
    for (const day of [from, until]) if (day > first && day !== NEVER) days.add(day);
  return [first, ...[...days].sort()];
}

/** `from 2027-03-01 on`, `until 2027-03-01`, `from 2027-03-01 until 2028-01-01`; empty for all times. */
export function spanWords({ from, until }: Span): string {
  const begin = from === EVER ? "" : from === ALL_BUILT ? "once all that is planned stands" : `from ${from}`;
  const end = until === NEVER ? "" : `until ${until === ALL_BUILT ? "all that is planned stands" : until}`;
  if (begin !== "" && end === "" && from !== ALL_BUILT) return `${begin} on`;
  return [begin, end].filter((part) => part !== "").join(" ");
}

/** `planned 2027-03-01`, as it is written. */
export function stateWords({ word, date, until }: State): string {
  return [word, date, until === undefined ? undefined : `until ${until}`].filter(Boolean).join(" ");
}

/** What of a design is looked at. */
export interface View {
  /** ISO date. */
  readonly on: string;
  /** Only what is built by now: what is planned is left out, whatever its date. */
  readonly builtOnly?: true;
}

/** All that is planned stands, and what is to be removed is gone. */
export const WHOLE: View = { on: ALL_BUILT };

/** What a view shows: `on 2027-03-01`, `when all that is planned stands`, `what is built by 2026-11-28`. */
export function viewWords({ on, builtOnly }: View): string {
  if (builtOnly) return `what is built by ${on}`;
  return on === ALL_BUILT ? "when all that is planned stands" : `on ${on}`;
}

export function standsIn({ on, builtOnly }: View, state: State | undefined): boolean {
  return !(builtOnly && state?.word === "planned") && standsOn(spanOf(state), on);
}

function later(one: string, other: string): string {
  return one > other ? one : other;
}

function earlier(one: string, other: string): string {
  return one < other ? one : other;
}
