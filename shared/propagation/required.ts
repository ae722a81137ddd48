/**
 * Inputs for which a formula of the propagation modules has no meaning at all (a distance of 0, a negative frequency,
 * NaN) are a mistake of the calling program and throw a RangeError. A value that only leaves the range that a
 * Recommendation states gets a remark instead (`outsideRange` in outcome.ts), and the figure is still given.
 */

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
