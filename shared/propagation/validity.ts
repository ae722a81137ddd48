/**
 * How the propagation modules speak about inputs they do not vouch for.
 *
 * A value outside the range that a Recommendation states gets a note, and the figure is still given: the
 * caller shows both. A value for which the formula has no meaning at all (a distance of 0, a negative
 * frequency, NaN) is a mistake of the calling program and throws a RangeError.
 */

/** Notes on inputs outside a stated range; empty when all are inside. */
export type ValidityNotes = readonly string[];

/** One stated range, and the value to hold against it. */
export interface StatedRange {
  readonly quantity: string;
  readonly value: number;
  readonly min: number;
  /** Infinity where no upper bound is stated. */
  readonly max: number;
  readonly unit: string;
  /** Who states the range, for example "Rec. ITU-R P.838-3". */
  readonly source: string;
}

/** One note for each range that its value leaves. */
export function outsideOf(...ranges: readonly StatedRange[]): ValidityNotes {
  return ranges
    .filter((range) => !(range.value >= range.min && range.value <= range.max))
    .map(({ quantity, value, min, max, unit, source }) =>
      max === Number.POSITIVE_INFINITY
        ? `${quantity} ${value} ${unit} is below ${min} ${unit} (${source})`
        : `${quantity} ${value} ${unit} is outside ${min} to ${max} ${unit} (${source})`,
    );
}

/** @throws RangeError unless `value` is finite and above 0. */
export function requirePositive(name: string, value: number): void {
  if (!(value > 0 && value < Number.POSITIVE_INFINITY)) {
    throw new RangeError(`${name} must be above 0 and finite, not ${value}`);
  }
}

/** @throws RangeError unless `value` is finite and at least 0. */
export function requireNotNegative(name: string, value: number): void {
  if (!(value >= 0 && value < Number.POSITIVE_INFINITY)) {
    throw new RangeError(`${name} must be at least 0 and finite, not ${value}`);
  }
}

/** @throws RangeError unless `value` is finite. */
export function requireFinite(name: string, value: number): void {
  if (!Number.isFinite(value)) throw new RangeError(`${name} must be finite, not ${value}`);
}
