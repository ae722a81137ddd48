/** Numbers in files of strangers: what `Number` reads beyond a decimal (0x10, 1e999, Infinity, blanks) is none there. */

const PLAIN = /^[+\-−]?(?:\d+\.?\d*|\.\d+)$/;
const SCIENTIFIC = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?$/;

/**
 * @returns undefined for anything but digits with at most one point and a sign, and for more than a number holds
 * @example plainDecimal("-12.5") // -12.5
 * @example plainDecimal("0x10") // undefined
 */
export function plainDecimal(text: string): number | undefined {
  return PLAIN.test(text) ? finite(text.replace("−", "-")) : undefined;
}

/**
 * The same with an exponent allowed, as programs write it into grids and maps.
 * @example decimal("-3.4e+38") // -3.4e38
 * @example decimal("1e999") // undefined
 */
export function decimal(text: string): number | undefined {
  return SCIENTIFIC.test(text) ? finite(text) : undefined;
}

function finite(text: string): number | undefined {
  const value = Number(text);
  return Number.isFinite(value) ? value : undefined;
}
