import type { Quantity, RefusalReason, Remark, Wanted } from "./remark.js";

/** Figures of a method. Every number in them is finite. */
export type Figures<T> = T & {
  readonly ok: true;
  /** Where the inputs leave the stated range of the method; empty inside it. */
  readonly validity: readonly Remark[];
};

/** No figure, and why: an input that means nothing, or one for which the method itself has no meaning. */
export interface Refusal<S> {
  readonly ok: false;
  readonly refusal: RefusalReason;
  /** How far the method came, where that explains the refusal. */
  readonly steps?: S;
}

export type Outcome<T, S = undefined> = Figures<T> | Refusal<S>;

/**
 * Share of time in percent. With a bound the method does not reach the true share:
 * `at most` (the truth is smaller, perhaps much smaller) or `at least`.
 */
export interface TimeShare {
  readonly timePercent: number;
  readonly bound?: "at most" | "at least";
  /**
   * Set where a law was continued beyond its stated range: the share is an estimate then, and all that the
   * Recommendation itself says of it is that it is at most this.
   */
  readonly atMostPercent?: number;
}

export function refuse<S = undefined>(refusal: RefusalReason, steps?: S): Refusal<S> {
  return steps === undefined || !allFinite(steps) ? { ok: false, refusal } : { ok: false, refusal, steps };
}

/**
 * The figures as an outcome, or a refusal where arithmetic left the numbers: an absurd but finite input (a path
 * of 1e300 m) must not surface as Infinity or NaN.
 */
export function figures<T extends object>(
  values: T,
  validity: readonly (Remark | undefined)[] = [],
): Figures<T> | Refusal<never> {
  if (!allFinite(values)) {
    return { ok: false, refusal: { code: "beyond-numbers" } };
  }
  return { ...values, ok: true, validity: validity.filter((note) => note !== undefined) };
}

/** Figures that are finite by how they are made: the check, which costs more than many formulas, is left out. */
export function soundFigures<T extends object>(values: T): Figures<T> {
  return { ...values, ok: true, validity: NO_REMARKS };
}

const NO_REMARKS: readonly Remark[] = [];

/** First input that is not a number above zero. */
export function notPositive(inputs: Readonly<Record<string, number>>): RefusalReason | undefined {
  return firstUnusable(inputs, (value) => value > 0, "above-zero");
}

/** First input that is not a number of zero or more. */
export function negative(inputs: Readonly<Record<string, number>>): RefusalReason | undefined {
  return firstUnusable(inputs, (value) => value >= 0, "zero-or-more");
}

/** First input that is not a finite number. */
export function notFinite(inputs: Readonly<Record<string, number>>): RefusalReason | undefined {
  return firstUnusable(inputs, () => true, "finite");
}

/** First input outside lowest..highest (both included). */
export function outside(
  inputs: Readonly<Record<string, number>>,
  lowest: number,
  highest: number,
): RefusalReason | undefined {
  const input = firstFailing(inputs, (value) => value >= lowest && value <= highest);
  return input === undefined
    ? undefined
    : { code: "input-outside", input, ...known(inputs[input]!), lowest, highest };
}

/** A remark when the value leaves lowest..highest; the value to four digits, as it is told. */
export function outsideRange(
  value: number,
  lowest: number,
  highest: number,
  quantity: Quantity,
  unit: string,
): Remark | undefined {
  if (value >= lowest && value <= highest) return undefined;
  // The greatest numbers round up to infinity.
  const told = Number(value.toPrecision(4));
  const least = Math.min(lowest, Number.MAX_VALUE);
  return {
    code: "outside-range",
    quantity,
    value: Number.isFinite(told) ? told : value,
    lowest: least,
    highest,
    unit,
  };
}

function firstUnusable(
  inputs: Readonly<Record<string, number>>,
  accepts: (value: number) => boolean,
  wanted: Wanted,
): RefusalReason | undefined {
  const input = firstFailing(inputs, accepts);
  return input === undefined
    ? undefined
    : { code: "input-unusable", input, ...known(inputs[input]!), wanted };
}

/** A result holds finite numbers only. */
function known(value: number): { readonly value?: number } {
  return Number.isFinite(value) ? { value } : {};
}

function firstFailing(
  inputs: Readonly<Record<string, number>>,
  accepts: (value: number) => boolean,
): string | undefined {
  // for..in: these checks run for every hop, and an array of entries each time is what they would spend it on.
  for (const name in inputs) {
    const value = inputs[name]!;
    if (!Number.isFinite(value) || !accepts(value)) return name;
  }
  return undefined;
}

function allFinite(value: unknown): boolean {
  if (typeof value === "number") return Number.isFinite(value);
  if (typeof value !== "object" || value === null) return true;
  // Not for..in, which takes ten times as long over objects of many shapes.
  const inner = Array.isArray(value) ? value : Object.values(value);
  for (let i = 0; i < inner.length; i++) if (!allFinite(inner[i])) return false;
  return true;
}
