/** Where a row lies: two angles, one cell with both, or projected coordinates with the code of their system. */
import type { Axis } from "../geodesy/coordinates.js";
import { type Crs, crsOfEpsg, knownCrsSummary } from "../terrain/crs.js";
import { placeOf } from "../terrain/projection.js";
import type { StatedPosition } from "./facts.js";
import { type DecimalMark, numberOf, plainText, stepOf } from "./figures.js";
import { readAngle, splitPair } from "./notation.js";

export type ReadPosition =
  | { readonly ok: true; readonly position: StatedPosition; readonly how: string }
  | { readonly ok: false; readonly reason: string };

/** Some metres: whoever writes fewer digits still means no other place within it, and one beyond it. */
const COARSEST_DEG = 1e-4;

const no = (reason: string): ReadPosition => ({ ok: false, reason });

export function positionOfAngles(latitude: string, longitude: string): ReadPosition {
  const north = readAngle(latitude, "latitude");
  if (!north.ok) return no(north.reason);
  const east = readAngle(longitude, "longitude");
  if (!east.ok) return no(east.reason);
  return {
    ok: true,
    position: {
      latitudeDeg: north.degrees,
      longitudeDeg: east.degrees,
      // A spreadsheet drops zeros at the end, so that the finer of the two speaks for both.
      stepDeg: Math.min(COARSEST_DEG, north.stepDeg, east.stepDeg),
      secondDecimals:
        north.secondDecimals === undefined || east.secondDecimals === undefined
          ? undefined
          : Math.max(north.secondDecimals, east.secondDecimals),
    },
    how:
      north.notation === east.notation
        ? north.notation
        : `latitude in ${north.notation}, longitude in ${east.notation}`,
  };
}

export function positionOfPair(text: string): ReadPosition {
  const pair = splitPair(text);
  if (!pair) return no(`"${text}" holds no latitude and longitude`);
  const letters = pair.map((part) => /[NSEW]/i.exec(part)?.[0].toUpperCase());
  const exchanged = letters[0] === "E" || letters[0] === "W" || letters[1] === "N" || letters[1] === "S";
  return exchanged ? positionOfAngles(pair[1], pair[0]) : positionOfAngles(pair[0], pair[1]);
}

/** @param code of the system; easting and northing as the list has them, whatever order the code itself names */
export function positionOfProjected(
  easting: string,
  northing: string,
  code: number,
  mark: DecimalMark,
): ReadPosition {
  const crs = crsOfEpsg(code);
  if (!crs) return no(`EPSG:${code} is not known; ${knownCrsSummary()}`);
  if (crs.degrees) return no(`EPSG:${code} has no easting and northing but degrees`);
  const x = numberOf(easting, mark);
  const y = numberOf(northing, mark);
  if (x === undefined || y === undefined) return no(`"${easting} ${northing}" are no two figures`);
  const place = placeOf(crs, x, y);
  if (!place) return no(`${easting} ${northing} lie outside of EPSG:${code}`);
  const step = Math.min(stepOf(plainText(x)), stepOf(plainText(y)));
  return {
    ok: true,
    position: { ...place, stepDeg: Math.min(COARSEST_DEG, step / 111_320) },
    how: `${crs.name}, ${accuracyWords(crs)}`,
  };
}

function accuracyWords({ accuracyM }: Crs): string {
  if (accuracyM === undefined) return "accuracy of its shift not known";
  return accuracyM === 0 ? "on WGS 84 itself" : `its shift to WGS 84 good to about ${accuracyM} m`;
}

/** `32N` and `32 S` of the trade; the half alone may be a band letter, so only N and S count, S as the southern half. */
export function epsgOfZone(text: string): number | undefined {
  const [, zone, half] = /^(?:utm\s*)?(?:zone\s*)?(\d{1,2})\s*([NS]|north|south)$/i.exec(text.trim()) ?? [];
  const number = Number(zone);
  if (zone === undefined || number < 1 || number > 60) return undefined;
  return (/^n/i.test(half!) ? 32600 : 32700) + number;
}

/** An EPSG code in a cell or a head. */
export function epsgIn(text: string): number | undefined {
  const found = /(?:epsg[ :_-]*)?(\d{4,5})$/i.exec(text.trim())?.[1];
  return found === undefined ? undefined : Number(found);
}

/** Datums that are WGS 84 within the metres said; undefined: another, and coordinates on it lie elsewhere. */
export function metresFromWgs84(datum: string): number | undefined {
  const plain = datum.toLowerCase().replace(/[^a-z0-9]/g, "");
  if (/^(wgs84|wgs1984|epsg4326|gps|worldgeodeticsystem1984)$/.test(plain)) return 0;
  return /^(etrs89|nad83|gda94|gda2020|sirgas2000|sirgas|rgf93|jgd2011|nzgd2000|epsg(4258|4269|4171|4283|7844|4167|6668))$/.test(
    plain,
  )
    ? 2
    : undefined;
}

/** One angle of parts in columns of their own. */
export function angleOfParts(parts: {
  readonly degrees?: string;
  readonly minutes?: string;
  readonly seconds?: string;
  readonly hemisphere?: string;
}): string {
  const { degrees = "", minutes = "", seconds = "", hemisphere = "" } = parts;
  const behind = minutes === "" ? "" : `${minutes}'${seconds === "" ? "" : `${seconds}"`}`;
  return `${degrees.replace(/°$/, "")}°${behind}${hemisphere.trim().slice(0, 1)}`;
}

/** A figure that can be no angle of this axis. */
export function isBeyond(text: string, axis: Axis, mark: DecimalMark): boolean {
  const value = numberOf(text, mark);
  return value !== undefined && Math.abs(value) > (axis === "latitude" ? 90 : 360);
}
