/**
 * Arithmetic on numbers as they are written. A double holds most decimals only nearly, so a product of two of them
 * may end in a digit that nobody wrote (0.55 times 100 is 55.00000000000001); here it is the double nearest to the
 * exact decimal, which prints as the decimal itself.
 */

/** The decimal that a double prints as: `digits` times a power of ten, `digits` an integer. */
interface Decimal {
  readonly digits: number;
  readonly exponent: number;
}

/** Product of two decimals; beyond the 15 digits that a double holds, the ordinary product. */
export function times(a: number, b: number): number {
  if (b === 1 || (Number.isInteger(a) && Number.isInteger(b))) return a * b;
  const [x, y] = [decimalOf(a), decimalOf(b)];
  const digits = x.digits * y.digits;
  return Number.isSafeInteger(digits) ? numberOf(digits, x.exponent + y.exponent) : a * b;
}

/** Quotient of two decimals, b not 0; beyond the 15 digits that a double holds, the ordinary quotient. */
export function over(a: number, b: number): number {
  if (Number.isInteger(a) && Number.isInteger(b)) return a / b;
  const [x, y] = [decimalOf(a), decimalOf(b)];
  const shift = x.exponent - y.exponent;
  const [above, below] = [x.digits * 10 ** Math.max(0, shift), y.digits * 10 ** Math.max(0, -shift)];
  return Number.isSafeInteger(above) && Number.isSafeInteger(below) ? above / below : a / b;
}

/** Sum of two decimals; beyond the 15 digits that a double holds, the ordinary sum. */
export function plus(a: number, b: number): number {
  if (Number.isInteger(a) && Number.isInteger(b)) return a + b;
  const [x, y] = [decimalOf(a), decimalOf(b)];
  const exponent = Math.min(x.exponent, y.exponent);
  const digits = x.digits * 10 ** (x.exponent - exponent) + y.digits * 10 ** (y.exponent - exponent);
  return Number.isSafeInteger(digits) ? numberOf(digits, exponent) : a + b;
}

/** @param value finite */
function decimalOf(value: number): Decimal {
  const [mantissa = "", power = "0"] = String(value).split("e");
  const point = mantissa.indexOf(".");
  const decimals = point < 0 ? 0 : mantissa.length - 1 - point;
  return { digits: Number(mantissa.replace(".", "")), exponent: Number(power) - decimals };
}

function numberOf(digits: number, exponent: number): number {
  return Number(`${digits}e${exponent}`);
}
