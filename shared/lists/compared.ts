/** Figures that a list states and the design computes, held against each other. */
import { degrees, kilometres } from "../format/numbers.js";
import { inverse } from "../geodesy/geodesic.js";
import type { HopRow, Told } from "./facts.js";
import type { BookedSite } from "./site-book.js";

/** Azimuths of registers have one decimal; what is further off has another cause than rounding. */
const AZIMUTH_AGREES_DEG = 0.1;
const LENGTH_AGREES = 0.01;

export interface Compared {
  azimuths: number;
  azimuthsOff: number;
  greatestOffDeg: number;
  readonly told: Told[];
}

/** Adds the azimuths and the length of a row to what was compared. */
export function compareRow(row: HopRow, a: BookedSite, b: BookedSite, into: Compared): void {
  const [first, second] = row.ends!;
  const from = first.site.position ?? placeOf(a);
  const to = second.site.position ?? placeOf(b);
  if (!from || !to || (!first.azimuth && !second.azimuth && !row.length)) return;
  const way = inverse({ from, to });
  const held = [
    [first.azimuth, way.azimuthFromDeg, a.name],
    [second.azimuth, way.azimuthToDeg, b.name],
  ] as const;
  for (const [stated, computed, at] of held) {
    if (!stated) continue;
    into.azimuths++;
    const offDeg = Math.abs(((stated.value - computed + 540) % 360) - 180);
    into.greatestOffDeg = Math.max(into.greatestOffDeg, offDeg);
    // One decimal is rounded by up to half of it, and the geodesic is not.
    if (offDeg <= AZIMUTH_AGREES_DEG) continue;
    into.azimuthsOff++;
    into.told.push({
      from: row.from,
      what: "remark",
      reason: `states azimuth ${degrees(stated.value)} at ${at}; between the positions it is ${degrees(computed)}`,
    });
  }
  if (!row.length) return;
  const offM = Math.abs(row.length.value - way.distanceM);
  if (offM > Math.max(LENGTH_AGREES * way.distanceM, row.length.step))
    into.told.push({
      from: row.from,
      what: "remark",
      reason: `states a length of ${kilometres(row.length.value)}; between the positions it is ${kilometres(way.distanceM)}`,
    });
}

function placeOf({ known, rows }: BookedSite) {
  return rows.find(({ position }) => position)?.position ?? known?.position;
}

/** Fewer sites than this tell nothing of a shift that is common to them. */
const LEAST_SHIFTED = 3;
const LEAST_SHIFT_M = 20;
const MOST_SHIFT_M = 1_000;

/** Sites that a list has all moved by one step stand there on another datum. @returns a sentence; undefined: no such */
export function commonShift(sites: readonly BookedSite[]): string | undefined {
  const moved = sites.flatMap((site) => {
    const stated = site.rows.find(({ position }) => position)?.position;
    return site.known?.position && stated ? [inverse({ from: site.known.position, to: stated })] : [];
  });
  if (moved.length < LEAST_SHIFTED) return undefined;
  const east = mean(moved.map(({ distanceM, azimuthFromDeg }) => distanceM * Math.sin(rad(azimuthFromDeg))));
  const north = mean(moved.map(({ distanceM, azimuthFromDeg }) => distanceM * Math.cos(rad(azimuthFromDeg))));
  const shiftM = Math.hypot(east, north);
  if (!(shiftM > LEAST_SHIFT_M && shiftM < MOST_SHIFT_M)) return undefined;
  const strays = moved.some(
    ({ distanceM, azimuthFromDeg }) =>
      Math.hypot(
        distanceM * Math.sin(rad(azimuthFromDeg)) - east,
        distanceM * Math.cos(rad(azimuthFromDeg)) - north,
      ) >
      0.2 * shiftM,
  );
  if (strays) return undefined;
  return `all ${moved.length} sites that the design has lie about ${Math.round(shiftM)} m ${side(north, "north", "south")}${side(east, "east", "west")} of where it has them: the list may stand on another datum`;
}

function side(metres: number, positive: string, negative: string): string {
  return Math.abs(metres) < LEAST_SHIFT_M / 2 ? "" : metres > 0 ? positive : negative;
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function rad(deg: number): number {
  return (deg * Math.PI) / 180;
}
