/** Whether an azimuth is off by just what a compass shows otherwise. */
import { decimalYear } from "../design/day.js";
import type { Site } from "../design/design.js";
import { MAGNETIC_YEARS, magneticField, UNRELIABLE_BELOW_NT } from "../geodesy/magnetic.js";

/** A compass is read so well, and iron is so near; ours. A smaller declination tells nothing. */
const READ_TO_DEG = 0.5;
const LEAST_DEG = 1;

/**
 * @param day ISO date; undefined: the middle of the model's years, from which each of them is off by some tenths
 * @returns positive east; undefined where no place is known, outside the years of the model and where no compass is a guide
 */
export function declinationAt({ position, groundM = 0 }: Site, day?: string): number | undefined {
  if (position === undefined || Math.abs(position.latitudeDeg) > 90) return undefined;
  const year = day === undefined ? (MAGNETIC_YEARS.from + MAGNETIC_YEARS.to) / 2 : decimalYear(day);
  const field = magneticField(position, groundM, year);
  return field === undefined || field.horizontalNt < UNRELIABLE_BELOW_NT ? undefined : field.declinationDeg;
}

/**
 * How an azimuth that is off came about. `set by compass`: the planned one was set on a compass, so that it looks further
 * by the declination; `read by compass`: it is as planned, and was read off a compass and written down as true.
 * @param turnDeg from the planned to the stated azimuth, clockwise positive
 */
export function compassSlip(
  turnDeg: number,
  declinationDeg: number | undefined,
): "set by compass" | "read by compass" | undefined {
  if (declinationDeg === undefined || Math.abs(declinationDeg) < LEAST_DEG) return undefined;
  if (Math.abs(turnDeg - declinationDeg) <= READ_TO_DEG) return "set by compass";
  return Math.abs(turnDeg + declinationDeg) <= READ_TO_DEG ? "read by compass" : undefined;
}
