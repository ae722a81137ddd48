/** The norths that an azimuth is counted from: true, magnetic, and that of a map's grid. */
import { declinationAt } from "../../as-built/declination.js";
import type { Site } from "../../design/design.js";
import { fixed, signed } from "../../format/numbers.js";
import { type GridNorth, gridNorth } from "../../geodesy/grid-convergence.js";

/** Grid north of the system that the site's position is stated in, else of UTM. */
export function gridNorthAt({ position, gridEpsg }: Site): GridNorth | undefined {
  return position && gridNorth(position, gridEpsg);
}

/** Positive east. @param day ISO date; undefined: there is none to take it for */
export function declinationOn(site: Site, day: string | undefined): number | undefined {
  return day === undefined ? undefined : declinationAt(site, day);
}

/** The azimuth counted from a north that lies further east. @param northDeg from true north, positive east */
export function countedFrom(azimuthDeg: number, northDeg: number): number {
  return (((azimuthDeg - northDeg) % 360) + 360) % 360;
}

/** `+1.2°` */
export function signedDegrees(angleDeg: number, digits: number): string {
  return signed((value) => `${fixed(value, digits)}°`, angleDeg);
}

/** 359.96 is 0.0 and not 360.0. */
export function azimuthText(azimuthDeg: number, digits: number): string {
  const text = fixed(azimuthDeg, digits);
  return `${Number(text) >= 360 ? fixed(0, digits) : text}°`;
}
