/**
 * How far the north of a map's grid lies from true north. Found numerically, by a step to the north on the ellipsoid and
 * where it leads on the grid, so that one page serves every system that the projection library knows.
 */
import { type Crs, crsOfEpsg } from "../terrain/crs.js";
import { projectionOf } from "../terrain/projection.js";
import type { LatLon } from "./coordinates.js";

export interface GridNorth {
  /** `UTM 32 north, EPSG:32632`, `EPSG:2056` */
  readonly grid: string;
  /** From true north to grid north, degrees, positive east: an azimuth on the grid is the true one less this. */
  readonly convergenceDeg: number;
}

/** UTM is defined between these. */
const UTM_SOUTH_DEG = -80;
const UTM_NORTH_DEG = 84;

/** The steps lead some 11 m away. */
const STEP_DEG = 1e-4;

/** So far a grid may bend a right angle, and stretch one way more than the other: more, and it keeps no angles. */
const MOST_BEND = 1e-3;

/**
 * Grid north at a place.
 * @param epsg code of a projected system; undefined: UTM, in the zone of the place
 * @returns undefined outside of the system, for one that is not known, has degrees or keeps no angles (what an azimuth is on such a grid depends on the azimuth), or whose axes do not run east and north
 */
export function gridNorth(at: LatLon, epsg?: number): GridNorth | undefined {
  const code = epsg ?? utmCode(at);
  const crs = code === undefined ? undefined : crsOfEpsg(code);
  if (crs === undefined || crs.degrees) return undefined;
  const convergenceDeg = convergenceIn(crs, at);
  return convergenceDeg === undefined ? undefined : { grid: gridName(crs, code!), convergenceDeg };
}

/**
 *     gamma = -atan2(dE, dN) along a meridian northwards
 *
 * with dE and dN the step on the grid. The difference between the straight line on the grid and the image of the
 * geodesic (arc to chord) stays below a hundredth of a degree on the longest hop and is left out.
 */
function convergenceIn(crs: Crs, { latitudeDeg, longitudeDeg }: LatLon): number | undefined {
  if (!(Math.abs(latitudeDeg) < 90 - 2 * STEP_DEG) || !Number.isFinite(longitudeDeg)) return undefined;
  const projection = projectionOf(crs);
  const step = (north: number, east: number) => {
    const east1 = longitudeDeg + (east * STEP_DEG) / Math.cos((latitudeDeg * Math.PI) / 180);
    return projection.forward(east1, latitudeDeg + north * STEP_DEG);
  };
  const between = ([x1, y1]: readonly [number, number], [x2, y2]: readonly [number, number]) =>
    [x2 - x1, y2 - y1] as const;
  const [northE, northN] = between(step(-1, 0), step(1, 0));
  const [eastE, eastN] = between(step(0, -1), step(0, 1));
  const [northM, eastM] = [Math.hypot(northE, northN), Math.hypot(eastE, eastN)];
  if (!(northM > 0 && eastM > 0)) return undefined;
  // On the ellipsoid a degree of latitude is up to 1 % shorter or longer than one of longitude brought to the equator.
  const stretch = (eastM / northM) * radiusRatio(latitudeDeg);
  const isAngleTrue = Math.abs((northE * eastE + northN * eastN) / (northM * eastM)) < MOST_BEND;
  const turnsRight = northN * eastE - northE * eastN > 0;
  if (!isAngleTrue || !turnsRight || Math.abs(stretch - 1) > MOST_BEND) return undefined;
  return (-Math.atan2(northE, northN) * 180) / Math.PI + 0;
}

/** M/N = (1 - e2)/(1 - e2 sin2 phi), the radii of curvature along the meridian and across it, WGS84. */
function radiusRatio(latitudeDeg: number): number {
  const FLATTENING = 1 / 298.257223563;
  const e2 = FLATTENING * (2 - FLATTENING);
  return (1 - e2) / (1 - e2 * Math.sin((latitudeDeg * Math.PI) / 180) ** 2);
}

function gridName({ name }: Crs, code: number): string {
  const north = code > 32600 && code <= 32660;
  if (!north && !(code > 32700 && code <= 32760)) return name;
  return `UTM ${code % 100} ${north ? "north" : "south"}, ${name}`;
}

/** Code of the zone on WGS 84, with the wider zones of south-western Norway and of Svalbard; undefined beyond UTM. */
export function utmCode({ latitudeDeg, longitudeDeg }: LatLon): number | undefined {
  if (!(latitudeDeg >= UTM_SOUTH_DEG && latitudeDeg <= UTM_NORTH_DEG) || !Number.isFinite(longitudeDeg))
    return undefined;
  const longitude = ((((longitudeDeg + 180) % 360) + 360) % 360) - 180;
  return (latitudeDeg < 0 ? 32700 : 32600) + zoneOf(latitudeDeg, longitude);
}

function zoneOf(latitudeDeg: number, longitudeDeg: number): number {
  if (latitudeDeg >= 56 && latitudeDeg < 64 && longitudeDeg >= 3 && longitudeDeg < 12) return 32;
  if (latitudeDeg >= 72 && longitudeDeg >= 0 && longitudeDeg < 42)
    return longitudeDeg < 9 ? 31 : longitudeDeg < 21 ? 33 : longitudeDeg < 33 ? 35 : 37;
  return Math.floor((longitudeDeg + 180) / 6) + 1;
}
