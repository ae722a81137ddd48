/** Figures of a method. Every number in them is finite. */
export type Figures<T> = T & {
  readonly ok: true;
  /** Where the inputs leave the stated range of the method, one sentence each; empty inside it. */
  readonly validity: readonly string[];
};

/** No figure, and why: an input that means nothing, or one for which the method itself has no meaning. */
export interface Refusal<S> {
  readonly ok: false;
  readonly refusal: string;
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

export function refuse<S = undefined>(refusal: string, steps?: S): Refusal<S> {
  return steps === undefined || !allFinite(steps) ? { ok: false, refusal } : { ok: false, refusal, steps };
}

/**
 * The figures as an outcome, or a refusal where arithmetic left the numbers: an absurd but finite input (a path
 * of 1e300 m) must not surface as Infinity or NaN.
 */
export function figures<T extends object>(
  values: T,
  validity: readonly (string | undefined)[] = [],
): Figures<T> | Refusal<never> {
  if (!allFinite(values)) {
    return { ok: false, refusal: "The inputs lie so far outside the method that it yields no number." };
  }
  return { ...values, ok: true, validity: validity.filter((note) => note !== undefined) };
}

/** Figures that are finite by how they are made: the check, which costs more than many formulas, is left out. */
export function soundFigures<T extends object>(values: T): Figures<T> {
  return { ...values, ok: true, validity: NO_REMARKS };
}

const NO_REMARKS: readonly string[] = [];

/** First input that is not a number above zero, in words. */
export function notPositive(inputs: Readonly<Record<string, number>>): string | undefined {
  return firstFailing(inputs, (value) => value > 0, "above zero");
}

/** First input that is not a number of zero or more, in words. */
export function negative(inputs: Readonly<Record<string, number>>): string | undefined {
  return firstFailing(inputs, (value) => value >= 0, "zero or more");
}

/** First input that is not a finite number, in words. */
export function notFinite(inputs: Readonly<Record<string, number>>): string | undefined {
  return firstFailing(inputs, () => true, "a finite number");
}

/** First input outside lowest..highest (both included), in words. */
export function outside(
  inputs: Readonly<Record<string, number>>,
  lowest: number,
  highest: number,
): string | undefined {
  return firstFailing(inputs, (value) => value >= lowest && value <= highest, `from ${lowest} to ${highest}`);
}

/** A validity note when the value leaves lowest..highest. */
export function rangeNote(
  value: number,
  lowest: number,
  highest: number,
  quantity: string,
  unit: string,
): string | undefined {
  return value >= lowest && value <= highest
    ? undefined
    : `${quantity} ${Number(value.toPrecision(4))} ${unit} is outside the range of the method, ${lowest} to ${highest} ${unit}.`;
}

function firstFailing(
  inputs: Readonly<Record<string, number>>,
  accepts: (value: number) => boolean,
  wanted: string,
): string | undefined {
  // for..in: these checks run for every hop, and an array of entries each time is what they would spend it on.
  for (const name in inputs) {
    const value = inputs[name]!;
    if (!Number.isFinite(value) || !accepts(value)) return `${name} must be ${wanted}, is ${value}.`;
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
