import { over, plus, times } from "../units/as-written.js";

/**
 * Written coordinates: decimal degrees, and degrees, minutes and seconds, of one angle with its hemisphere.
 */

/** A place on WGS84: north and east positive. */
export interface LatLon {
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
}

/** What an angle measures. */
export type Axis = "latitude" | "longitude";

/** An angle that was read, with the axis its hemisphere letter told (if it had one), or why it could not be. */
export type ParsedAngle =
  | { readonly ok: true; readonly degrees: number; readonly axis: Axis | undefined }
  | { readonly ok: false; readonly reason: string };

const HEMISPHERES: Record<string, { axis: Axis; sign: 1 | -1 }> = {
  N: { axis: "latitude", sign: 1 },
  S: { axis: "latitude", sign: -1 },
  E: { axis: "longitude", sign: 1 },
  W: { axis: "longitude", sign: -1 },
};

/**
 * Reads one angle: `47.4534`, `-30.58`, `47.4534°N`, `N47.4534`, `47°27'12.4"N`, `47°27.2067'N`, `47:27:12.4N`,
 * `54d27'12.4"N`, also with typographic signs (′ ″ ’ ” º) and spaces between the parts.
 *
 * A sign and a hemisphere letter together are refused: some readers negate twice, some do not.
 * @param axis what the angle is to be; without it the letter decides, and without both the range is -360 to 360
 * @example parseAngle(`47°27'12.4"N`) // { ok: true, degrees: 47.453444, axis: "latitude" }
 */
export function parseAngle(text: string, axis?: Axis): ParsedAngle {
  const plain = unifySigns(text);
  const shape = /^([NSEW])?\s*([+-])?\s*([^NSEW]*?)\s*([NSEW])?$/i.exec(plain);
  if (shape === null || plain === "") return refuse(`"${text.trim()}" is not an angle`);
  const [, before, sign, digits, after] = shape;
  if (before !== undefined && after !== undefined) return refuse("a hemisphere letter stands at both sides");
  const letter = (before ?? after)?.toUpperCase();
  if (letter !== undefined && sign !== undefined) {
    return refuse(`write either a sign or ${letter}, not both: together they are ambiguous`);
  }
  const hemisphere = letter === undefined ? undefined : HEMISPHERES[letter];
  if (hemisphere !== undefined && axis !== undefined && hemisphere.axis !== axis) {
    return refuse(`${letter} belongs to a ${hemisphere.axis}, but a ${axis} is expected here`);
  }
  const magnitude = parseMagnitude(digits!, text);
  if (typeof magnitude === "string") return refuse(magnitude);

  const known = axis ?? hemisphere?.axis;
  const limit = known === "latitude" ? 90 : known === "longitude" && hemisphere !== undefined ? 180 : 360;
  if (magnitude > limit) {
    const written = magnitude < 1e6 ? ` ${magnitude}°` : "";
    return refuse(`${known ?? "angle"}${written} is beyond ${limit}°`);
  }
  const negative = sign === "-" || hemisphere?.sign === -1;
  // Adding 0 turns -0 (0°0'0"S) into 0.
  return { ok: true, degrees: (negative ? -magnitude : magnitude) + 0, axis: known };
}

/** A place that was read, or why it could not be. */
export type ParsedPosition =
  | { readonly ok: true; readonly position: LatLon }
  | { readonly ok: false; readonly reason: string };

/**
 * Reads two angles parted by a space or comma; latitude first unless the hemisphere letters say otherwise.
 * @example parsePosition(`47°27'12.4"N 30°34'51.0"W`)
 */
export function parsePosition(text: string): ParsedPosition {
  const parts = splitPosition(text.trim());
  if (parts === undefined)
    return refuse("two angles are expected, latitude and longitude, parted by a space");
  const first = parseAngle(parts[0]);
  const second = parseAngle(parts[1]);
  if (!first.ok) return first;
  if (!second.ok) return second;
  if (first.axis !== undefined && first.axis === second.axis) return refuse(`both angles are ${first.axis}s`);
  const swapped = first.axis === "longitude" || second.axis === "latitude";
  const latitude = parseAngle(swapped ? parts[1] : parts[0], "latitude");
  const longitude = parseAngle(swapped ? parts[0] : parts[1], "longitude");
  if (!latitude.ok) return latitude;
  if (!longitude.ok) return longitude;
  return { ok: true, position: { latitudeDeg: latitude.degrees, longitudeDeg: longitude.degrees } };
}

/**
 * Writes an angle as degrees, minutes and seconds: `47°27'12.4"N`. Rounds before it parts, so that 60" never appears.
 * @param degrees finite
 * @param secondDecimals 0 to 6; one decimal is about 3 m
 */
export function formatDms(degrees: number, axis: Axis, secondDecimals = 1): string {
  const scale = 10 ** secondDecimals;
  const units = Math.round(Math.abs(degrees) * 3600 * scale);
  const whole = Math.floor(units / (3600 * scale));
  const minutes = Math.floor(units / (60 * scale)) % 60;
  const seconds = (units % (60 * scale)) / scale;
  const width = secondDecimals === 0 ? 2 : secondDecimals + 3;
  const letter = hemisphereLetter(units === 0 ? 0 : degrees, axis);
  const two = String(minutes).padStart(2, "0");
  return `${whole}°${two}'${seconds.toFixed(secondDecimals).padStart(width, "0")}"${letter}`;
}

function hemisphereLetter(degrees: number, axis: Axis): string {
  if (axis === "latitude") return degrees < 0 ? "S" : "N";
  return degrees < 0 ? "W" : "E";
}

function refuse(reason: string): { ok: false; reason: string } {
  return { ok: false, reason };
}

/** One spelling for each sign: ° ' " and the ASCII minus. */
function unifySigns(text: string): string {
  return text
    .trim()
    .replace(/[º˚]/g, "°")
    .replace(/[′’‘ʹ]/g, "'")
    .replace(/[″”“ʺ]|''/g, '"')
    .replace(/[−–]/g, "-")
    .replace(/(\d)\s*d\s*/i, "$1°");
}

/** Degrees without sign, or the reason why the digits are not an angle. */
function parseMagnitude(digits: string, text: string): number | string {
  const parts = splitParts(digits);
  if (parts === undefined) {
    if (/\d,\d/.test(digits)) return "a decimal point is expected, not a comma";
    const spaced = /^(\d+)\s+(\d+)(?:\s+(\d+(?:\.\d*)?))?$/.exec(digits);
    if (spaced) {
      const [, whole, minutes, seconds] = spaced;
      const letter = /[NSEW]/i.exec(text)?.[0].toUpperCase() ?? "";
      const written = `${whole}°${minutes}'${seconds === undefined ? "" : `${seconds}"`}${letter}`;
      return `"${text.trim()}" is not an angle: write the signs for degrees, minutes and seconds, ${written}`;
    }
    return `"${text.trim()}" is not an angle: degrees, or degrees, minutes and seconds are expected`;
  }
  const names = ["degrees", "minutes", "seconds"];
  // Counted in the last part's unit and divided once: 47°41'15" is 47.6875, whatever 41/60 is held as.
  let total = 0;
  for (const [i, part] of parts.entries()) {
    if (i < parts.length - 1 && part.includes(".")) {
      return `${names[i]} ${part} have a fraction, but ${names[i + 1]} follow`;
    }
    const value = Number(part);
    if (i > 0 && value >= 60) return `${names[i]} ${part} are not below 60`;
    total = plus(times(total, 60), value);
  }
  return over(total, 60 ** (parts.length - 1));
}

const NUMBER = String.raw`(\d+(?:\.\d*)?|\.\d+)`;
const WITH_SIGNS = new RegExp(
  String.raw`^${NUMBER}\s*(?:°\s*(?:${NUMBER}\s*(?:'\s*(?:${NUMBER}\s*"?)?)?)?)?$`,
);
const WITH_COLONS = new RegExp(`^${NUMBER}:${NUMBER}(?::${NUMBER})?$`);

/** The one to three numbers of an angle: with ° ' " signs, or with colons. */
function splitParts(digits: string): string[] | undefined {
  const found = WITH_SIGNS.exec(digits) ?? WITH_COLONS.exec(digits);
  return found?.slice(1).filter((part) => part !== undefined);
}

function splitPosition(text: string): [string, string] | undefined {
  const tokens = text.split(/\s*,\s*|\s+/);
  if (tokens.length === 2) return [tokens[0]!, tokens[1]!];
  // Angles with inner spaces: the first ends at its hemisphere letter, or at the comma.
  const byLetter = /^([^NSEW]+[NSEW])[\s,]+(.+)$/i.exec(text) ?? /^([^,]+),([^,]+)$/.exec(text);
  return byLetter === null ? undefined : [byLetter[1]!, byLetter[2]!];
}
