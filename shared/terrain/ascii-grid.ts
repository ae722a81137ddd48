import { decimal } from "../units/decimal.js";
import { northUp, type Placement } from "./raster.js";

/**
 * ESRI ASCII grid: a header of name-value lines in any letter case and order, then the heights, rows from north to
 * south. `xllcorner` is the outer corner of the lower left pixel, `xllcenter` its centre.
 */
export interface AsciiGridHeader {
  readonly width: number;
  readonly height: number;
  readonly placement: Placement;
  /** -9999 by custom where the header has no NODATA_value. */
  readonly noData: number;
  /** Where the first height begins, in bytes. */
  readonly bodyOffset: number;
}

/** More pixels than this are refused: a text of that size belongs into a binary raster. */
const MOST_PIXELS = 200_000_000;

const NAMES = [
  "ncols",
  "nrows",
  "xllcorner",
  "yllcorner",
  "xllcenter",
  "yllcenter",
  "cellsize",
  "dx",
  "dy",
  "nodata_value",
];

/**
 * @param head the beginning of the file (1 kB is enough), or all of it
 * @throws Error saying which header line is missing or impossible
 */
export function parseAsciiGridHeader(head: Uint8Array): AsciiGridHeader {
  const text = latin1(head.subarray(0, 4096));
  const fields = new Map<string, number>();
  const line = /[ \t\r\n]*([A-Za-z_]+)[ \t]+(\S+)[ \t]*(?:\r\n|\n|\r)/y;
  let bodyOffset = 0;
  for (let match = line.exec(text); match; match = line.exec(text)) {
    const name = match[1]!.toLowerCase();
    // A grid may begin with "nan"; only a known name is a header line.
    if (!NAMES.includes(name)) break;
    const value = decimal(match[2]!) ?? Number.NaN;
    if (Number.isNaN(value) && !(name === "nodata_value" && NOT_A_NUMBER.test(match[2]!))) {
      throw new Error(`header line ${name} holds "${match[2]!.slice(0, 20)}", a number is expected`);
    }
    fields.set(name, value);
    bodyOffset = line.lastIndex;
  }
  const need = (name: string): number => {
    const value = fields.get(name);
    if (value === undefined) throw new Error(`header line ${name} is missing`);
    return value;
  };
  const width = need("ncols");
  const height = need("nrows");
  if (!Number.isInteger(width) || !Number.isInteger(height) || width < 2 || height < 2) {
    throw new Error(`a grid of ${width} x ${height} pixels cannot be sampled, 2 x 2 is the least`);
  }
  if (width * height > MOST_PIXELS)
    throw new Error(`${width} x ${height} pixels are too many for a text grid`);
  const dx = fields.get("dx") ?? need("cellsize");
  const dy = fields.get("dy") ?? need("cellsize");
  if (!(dx > 0 && dy > 0)) throw new Error("cellsize must be above 0");
  const west = fields.get("xllcenter") ?? need("xllcorner") + dx / 2;
  const south = fields.get("yllcenter") ?? need("yllcorner") + dy / 2;
  return {
    width,
    height,
    placement: northUp(west, south + (height - 1) * dy, dx, dy),
    noData: fields.get("nodata_value") ?? -9999,
    bodyOffset,
  };
}

/**
 * Reads the heights, as stored (voids still hold the nodata value).
 * @throws Error when a value is no number, or when there are too few or too many of them
 */
export function parseAsciiGridBody(bytes: Uint8Array, header: AsciiGridHeader): Float64Array {
  const expected = header.width * header.height;
  const stored = new Float64Array(expected);
  let count = 0;
  let at = header.bodyOffset;
  for (;;) {
    while (at < bytes.length && bytes[at]! <= 32) at++;
    if (at >= bytes.length) break;
    const begin = at;
    while (at < bytes.length && bytes[at]! > 32) at++;
    if (count === expected) throw new Error(`more than the ${expected} heights that the header announces`);
    stored[count++] = parseNumber(bytes, begin, at, header.width, count);
  }
  if (count < expected) throw new Error(`${count} heights of ${expected}: the file is cut short`);
  return stored;
}

const NOT_A_NUMBER = /^-?nan$/i;
/** No height is written with more characters. */
const LONGEST = 40;

/** Plain decimals digit by digit, because a text grid holds millions of them; those with an exponent as they come. */
function parseNumber(bytes: Uint8Array, begin: number, end: number, width: number, ordinal: number): number {
  let at = begin;
  const negative = bytes[at] === 45;
  if (negative) at++;
  let digits = 0;
  let decimals = -1;
  let mantissa = 0;
  for (; at < end; at++) {
    const code = bytes[at]!;
    if (code >= 48 && code <= 57) {
      mantissa = mantissa * 10 + (code - 48);
      digits++;
      if (decimals >= 0) decimals++;
    } else if (code === 46 && decimals < 0) decimals = 0;
    else break;
  }
  // Up to 15 digits the quotient is the correctly rounded value.
  if (at === end && digits > 0 && digits <= 15) {
    const value = decimals > 0 ? mantissa / 10 ** decimals : mantissa;
    return negative ? -value : value;
  }
  const text = latin1(bytes.subarray(begin, Math.min(end, begin + LONGEST)));
  if (NOT_A_NUMBER.test(text)) return Number.NaN;
  const value = end - begin > LONGEST ? undefined : decimal(text);
  if (value === undefined) {
    const row = Math.floor((ordinal - 1) / width);
    throw new Error(`row ${row + 1}, column ${ordinal - row * width}: "${text.slice(0, 20)}" is no number`);
  }
  return value;
}

function latin1(bytes: Uint8Array): string {
  let text = "";
  for (const byte of bytes) text += String.fromCharCode(byte);
  return text;
}
