/**
 * Coordinates as people write them in lists, brought to the spellings that the language reads: degrees, minutes and
 * seconds with blanks, dashes or letters between them, a decimal comma, the hemisphere before or behind.
 */
import { type Axis, type ParsedAngle, parseAngle } from "../geodesy/coordinates.js";
import { stepOf } from "./figures.js";

type Notation = "decimal degrees" | "degrees and minutes" | "degrees, minutes and seconds";

export type ReadAngle =
  | {
      readonly ok: true;
      readonly degrees: number;
      readonly notation: Notation;
      /** What one of the last digit is worth, degrees. */
      readonly stepDeg: number;
      /** Of the seconds, where there are any. */
      readonly secondDecimals?: number;
    }
  | { readonly ok: false; readonly reason: string };

/**
 * @param text one angle
 * @example readAngle("N 54 27 12,4", "latitude") // 54.453444, degrees, minutes and seconds
 * @example readAngle("0304510W", "longitude") // -3.086111
 */
export function readAngle(text: string, axis: Axis): ReadAngle {
  const written = canonical(text);
  const parsed: ParsedAngle = parseAngle(written, axis);
  if (!parsed.ok) return { ok: false, reason: parsed.reason };
  const limit = axis === "latitude" ? 90 : 360;
  if (Math.abs(parsed.degrees) > limit) return { ok: false, reason: `${axis} ${text} is beyond ${limit}°` };
  const parts = written
    .replace(/[NSEW+\-\s]/gi, "")
    .split(/[°'":]/)
    .filter((part) => part !== "");
  const notation: Notation =
    parts.length > 2
      ? "degrees, minutes and seconds"
      : parts.length === 2
        ? "degrees and minutes"
        : "decimal degrees";
  const last = stepOf(parts.at(-1)!);
  const stepDeg = last / 60 ** (parts.length - 1);
  const secondDecimals = parts.length > 2 ? Math.min(6, Math.round(-Math.log10(last))) : undefined;
  return { ok: true, degrees: wrapped(parsed.degrees, axis), notation, stepDeg, secondDecimals };
}

/** Longitudes beyond 180 count on. */
function wrapped(degrees: number, axis: Axis): number {
  if (axis === "latitude" || Math.abs(degrees) <= 180) return degrees;
  return degrees > 180 ? degrees - 360 : degrees + 360;
}

const WORDS: readonly (readonly [RegExp, string])[] = [
  [/\b(north|nord|norte)\b/gi, "N"],
  [/\b(south|sud|süd|sur)\b/gi, "S"],
  [/\b(east|ost|este)\b/gi, "E"],
  [/\b(west|ouest|oeste)\b/gi, "W"],
  [/\s*(?:deg(?:rees)?|grad|gr)\.?\s*/gi, "°"],
  [/(\d)\s*(?:min(?:utes)?)\.?\s*/gi, "$1'"],
  [/(\d)\s*sec(?:onds)?\.?\s*/gi, '$1"'],
  [/(\d+)\s*d\s*(\d+)\s*m\s*(\d+(?:\.\d+)?)\s*s/i, "$1°$2'$3\""],
];

function canonical(text: string): string {
  let plain = text
    .trim()
    .replace(/[−–—]/g, "-")
    .replace(/[º˚]/g, "°")
    .replace(/(\d),(?=\d)/g, "$1.");
  for (const [pattern, sign] of WORDS) plain = plain.replace(pattern, sign);
  plain = plain
    .replace(/[´`‘’′ʹ]/g, "'")
    .replace(/''|[“”″ʺ]/g, '"')
    .trim();
  return packed(plain) ?? spaced(plain) ?? plain;
}

/** `542712.4N`: two digits a part behind the degrees. */
function packed(text: string): string | undefined {
  const found = /^([NSEW])?\s*(\d{2,3})(\d{2})(\d{2}(?:\.\d+)?)\s*([NSEW])?$/i.exec(text);
  if (!found || (found[1] ?? found[5]) === undefined) return undefined;
  const [, before = "", degrees, minutes, seconds, behind = ""] = found;
  return `${before}${degrees}°${minutes}'${seconds}"${behind}`;
}

/** `54 27 12.4 N`, `54-27-12.4N`, `-3 4 51`: parts without signs. */
function spaced(text: string): string | undefined {
  const found =
    /^([NSEW])?\s*([+-])?\s*(\d+)°?[\s-]+(\d+(?:\.\d+)?)'?(?:[\s-]+(\d+(?:\.\d+)?)"?)?\s*([NSEW])?$/i.exec(
      text,
    );
  if (!found) return undefined;
  const [, before = "", sign = "", degrees, minutes, seconds, behind = ""] = found;
  return `${before}${sign}${degrees}°${minutes}'${seconds === undefined ? "" : `${seconds}"`}${behind}`;
}

/** Both angles of one cell; undefined where it holds no two. */
export function splitPair(text: string): readonly [string, string] | undefined {
  const plain = text
    .trim()
    .replace(/^[([{]+|[)\]}]+$/g, "")
    .trim();
  for (const parting of [/\s*[;|/]\s*/, /\s*,\s+/, /\s+-\s+/]) {
    const parts = plain.split(parting);
    if (parts.length === 2) return [parts[0]!, parts[1]!];
  }
  const byLetter =
    /^(.*?\d[^NSEW]*[NSEW])[\s,]+(.+)$/i.exec(plain) ?? /^([NSEW][^NSEW]+?)[\s,]*([NSEW].+)$/i.exec(plain);
  if (byLetter) return [byLetter[1]!, byLetter[2]!];
  const blanks = plain.split(/\s+/);
  if (blanks.length === 2) return [blanks[0]!.replace(/,$/, ""), blanks[1]!];
  const commas = plain.split(",");
  if (commas.length === 2) return [commas[0]!, commas[1]!];
  return commas.length === 4 ? [`${commas[0]}.${commas[1]}`, `${commas[2]}.${commas[3]}`] : undefined;
}
