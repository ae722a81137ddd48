/**
 * Positions written in projected coordinates: `utm 32 north 412345 E 5261234 N`, `epsg 2056 2600000 E 1200000 N`.
 * The half of the world is spelled out, since `32S` is the southern half to some and the band of 32 to 40 degrees north
 * (of the military grid) to others.
 */
import type { LatLon } from "../geodesy/coordinates.js";
import { type Crs, crsOfEpsg, knownCrsSummary } from "./crs.js";
import { placeOf } from "./projection.js";

/** The system that a position was written in. */
export interface WrittenSystem {
  /** `EPSG:2056`, or `UTM 32 north on WGS 84`. */
  readonly name: string;
  readonly epsg: number;
  /** Horizontal accuracy of its shift to WGS 84, metres; 0: none, undefined: not known. */
  readonly accuracyM: number | undefined;
}

export type ProjectedReading =
  | { readonly ok: true; readonly position: LatLon; readonly system: WrittenSystem }
  | { readonly ok: false; readonly reason: string; readonly readings: readonly string[] };

const FIGURE = String.raw`(-?\d+(?:\.\d+)?)`;
const UTM = new RegExp(String.raw`^utm (\d{1,2}) (north|south) ${FIGURE} ?([EN]) ${FIGURE} ?([EN])$`);
const EPSG = new RegExp(String.raw`^epsg (\d{4,6}) ${FIGURE} ?([EN]) ${FIGURE} ?([EN])$`);

/** Whether a position is meant as projected, by the word that it begins with. */
export function isProjected(text: string): boolean {
  return /^(utm|epsg)\b/i.test(text);
}

/** @param text words parted by single blanks */
export function parseProjected(text: string): ProjectedReading {
  const utm = UTM.exec(text);
  if (utm) {
    const [, zone, half, ...figures] = utm as unknown as readonly string[];
    if (Number(zone) < 1 || Number(zone) > 60) return no(`UTM has zones 1 to 60; there is no ${zone}`);
    const code = (half === "north" ? 32600 : 32700) + Number(zone);
    const named = { ...crsOfEpsg(code)!, name: `UTM ${Number(zone)} ${half} on WGS 84` };
    return withinUtm(placed(named, code, figures, isInUtm));
  }
  const epsg = EPSG.exec(text);
  if (epsg) {
    const [, code, ...figures] = epsg as unknown as readonly string[];
    const crs = crsOfEpsg(Number(code));
    if (!crs)
      return no(
        `EPSG:${code} is not known; ${knownCrsSummary()}; in another system, convert to degrees of WGS 84`,
      );
    if (crs.degrees)
      return no(`EPSG:${code} has degrees, not east and north; write latitude and longitude alone`);
    return isUtm(Number(code))
      ? withinUtm(placed(crs, Number(code), figures, isInUtm))
      : placed(crs, Number(code), figures, () => undefined);
  }
  const readings = projectedReadings(text);
  return no(
    readings.length > 1
      ? "this can be read in several ways; the half of the world and the letters E and N are spelled out"
      : expected(text),
    readings,
  );
}

const SHAPES = {
  utm: {
    pieces: [/^utm$/, /^\d{1,2}$/, /^(north|south)$/],
    words: "utm, a zone, north or south, and an easting and a northing with their letters E and N",
  },
  epsg: {
    pieces: [/^epsg$/, /^\d{4,6}$/],
    words: "epsg, a code, and an easting and a northing with their letters E and N",
  },
} as const;

/** What is expected, and the first piece that is something else. */
function expected(text: string): string {
  const { pieces, words } = SHAPES[/^utm/i.test(text) ? "utm" : "epsg"];
  const figures = /^-?\d+(\.\d+)?[EN]?$|^[EN]$/;
  const wrong = text.split(" ").find((piece, index) => !(pieces[index] ?? figures).test(piece));
  const named = wrong === undefined ? "" : `; ${wrong} is none of it`;
  return `${words} are expected here${named}`;
}

/** Codes of UTM on WGS 84. */
function isUtm(code: number): boolean {
  return (code > 32600 && code <= 32660) || (code > 32700 && code <= 32760);
}

function withinUtm(found: ProjectedReading): ProjectedReading {
  if (!found.ok || (found.position.latitudeDeg <= 84 && found.position.latitudeDeg >= -80)) return found;
  return no("UTM ends at 84 degrees north and 80 degrees south; this lies beyond");
}

const no = (reason: string, readings: readonly string[] = []): ProjectedReading => ({
  ok: false,
  reason,
  readings,
});

/** @param figures two, each with its letter behind it */
function placed(
  crs: Crs,
  epsg: number,
  figures: readonly string[],
  faultOf: (eastM: number, northM: number) => string | undefined,
): ProjectedReading {
  const [first, letter, second, other] = figures as [string, string, string, string];
  if (letter === other) return no(`both figures are ${letter}; one is east, the other north`);
  const [eastM, northM] = letter === "E" ? [Number(first), Number(second)] : [Number(second), Number(first)];
  if (!Number.isFinite(eastM) || !Number.isFinite(northM))
    return no("the figures are longer than any place is far");
  const fault = faultOf(eastM, northM);
  if (fault !== undefined) return no(fault);
  const position = placeOf(crs, eastM, northM);
  if (!position) return no(`${eastM} E ${northM} N lies outside of ${crs.name}`);
  return { ok: true, position, system: { name: crs.name, epsg, accuracyM: crs.accuracyM } };
}

/** A zone is 6 degrees wide: its eastings stay within these figures everywhere, with room for a neighbour's site. */
function isInUtm(eastM: number, northM: number): string | undefined {
  if (eastM < 100_000 || eastM > 900_000)
    return `${eastM} m is no easting of UTM, which has 100000 to 900000`;
  if (northM < 0 || northM > 10_000_000) return `${northM} m is no northing of UTM, which has 0 to 10000000`;
  return undefined;
}

/** Bands of the military grid from the equator on are of the north. */
const NORTHERN_BANDS = /^[N-X]$/;

/**
 * What a usual notation may have been meant as, the likeliest first; empty: it is none.
 * @example projectedReadings("32S 412345 5261234") // `utm 32 south ...`, and `utm 32 north ...` for the band S
 */
export function projectedReadings(text: string): readonly string[] {
  const shape =
    /^(?:utm ?)?(?:zone ?)?(\d{1,2}) ?(north|south|[C-HJ-NP-X])[ ,]+([EN]?) ?(\d+(?:\.\d+)?) ?m? ?([EN]?)[ ,]+([EN]?) ?(\d+(?:\.\d+)?) ?m? ?([EN]?)$/i.exec(
      text,
    );
  if (!shape) return [];
  const [, zone, written, before, first, behind, beforeOther, second, behindOther] =
    shape as unknown as readonly string[];
  const halves = halvesOf(written!);
  const letter = (before || behind)!.toUpperCase();
  const other = (beforeOther || behindOther)!.toUpperCase();
  const northFirst = letter === "N" || other === "E";
  // Without letters the easting comes first, as everywhere in the trade.
  const [east, north] = northFirst ? [second, first] : [first, second];
  return halves
    .map((half) => `utm ${Number(zone)} ${half} ${east} E ${north} N`)
    .filter((reading) => parseProjected(reading).ok);
}

function halvesOf(written: string): readonly ("north" | "south")[] {
  const word = written.toLowerCase();
  if (word === "north" || word === "south") return [word];
  // S is the southern half to most, and a northern band to the others.
  if (written.toUpperCase() === "S") return ["south", "north"];
  return [NORTHERN_BANDS.test(written.toUpperCase()) ? "north" : "south"];
}

/** `its shift to WGS 84 is good to 1.5 m`; empty where there is none. */
export function shiftWords({ accuracyM }: WrittenSystem): string {
  if (accuracyM === 0) return "";
  return accuracyM === undefined
    ? "how good its shift to WGS 84 is, is not known"
    : `its shift to WGS 84 is good to about ${accuracyM} m`;
}
