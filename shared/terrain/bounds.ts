import type { Crs } from "./crs.js";
import type { LatLon } from "./profile.js";
import { projectionOf } from "./projection.js";
import { type Placement, pixelTransform } from "./raster.js";
import { covers } from "./sample.js";

/** A box in degrees that holds a raster or a path, with something to spare. `eastDeg` may pass 180. */
export interface Bounds {
  readonly southDeg: number;
  readonly northDeg: number;
  readonly westDeg: number;
  readonly eastDeg: number;
}

const STEPS_A_SIDE = 20;

/**
 * The box around a raster, found by walking along its edge, which is curved in degrees when the raster is projected.
 * Undefined when the edge has no place on the globe.
 */
export function rasterBounds(
  width: number,
  height: number,
  placement: Placement,
  crs: Crs,
): Bounds | undefined {
  const projection = projectionOf(crs);
  let southDeg = Infinity;
  let northDeg = -Infinity;
  let westDeg = Infinity;
  let eastDeg = -Infinity;
  let first: number | undefined;
  let before = 0;
  for (const [column, row] of edge(width, height)) {
    const [lon, lat] = projection.inverse(
      placement.x0 + column * placement.xPerColumn + row * placement.xPerRow,
      placement.y0 + column * placement.yPerColumn + row * placement.yPerRow,
    );
    if (!Number.isFinite(lon) || !Number.isFinite(lat) || Math.abs(lat) > 90.01) return undefined;
    // Geographic rasters are as wide as they say; the others' longitudes come folded into one turn.
    const unfolded = first === undefined || crs.degrees ? lon : before + turnToNearest(lon - before);
    first ??= lon;
    before = unfolded;
    southDeg = Math.min(southDeg, lat);
    northDeg = Math.max(northDeg, lat);
    westDeg = Math.min(westDeg, unfolded);
    eastDeg = Math.max(eastDeg, unfolded);
  }
  if (eastDeg - westDeg > 720 || Math.abs(westDeg) > 720) return undefined;
  if (!crs.degrees) {
    const t = pixelTransform(placement);
    for (const poleDeg of [90, -90]) {
      const [x, y] = projection.forward(0, poleDeg);
      if (!covers(width, height, t, x, y)) continue;
      westDeg = -180;
      eastDeg = 180;
      southDeg = Math.min(southDeg, poleDeg);
      northDeg = Math.max(northDeg, poleDeg);
    }
  }
  // The edge bends between the points walked, so the box gets a margin; being too large costs only a look.
  const spareLat = crs.degrees ? 1e-6 : (northDeg - southDeg) / 100 + 1e-6;
  const spareLon = crs.degrees ? 1e-6 : (eastDeg - westDeg) / 100 + 1e-6;
  return {
    southDeg: southDeg - spareLat,
    northDeg: northDeg + spareLat,
    westDeg: westDeg - spareLon,
    eastDeg: eastDeg + spareLon,
  };
}

/** The box around a geodesic, its bulge towards the pole included; it begins within -180..180 as `Path` does. */
export function pathBounds(from: LatLon, to: LatLon): Bounds {
  const eastward = turnToNearest(to.longitudeDeg - from.longitudeDeg);
  const begin = turnToNearest(from.longitudeDeg);
  const end = begin + eastward;
  // A geodesic rises above the chord by at most dLon^2 / 16 (radians), from sin(2 lat) <= 1; beyond a radian, take all.
  const turnRad = (Math.abs(eastward) * Math.PI) / 180;
  const bulgeDeg = turnRad > 1 ? 180 : ((turnRad * turnRad) / 16) * 1.2 * (180 / Math.PI) + 1e-6;
  return {
    southDeg: Math.max(-90, Math.min(from.latitudeDeg, to.latitudeDeg) - bulgeDeg),
    northDeg: Math.min(90, Math.max(from.latitudeDeg, to.latitudeDeg) + bulgeDeg),
    westDeg: Math.min(begin, end) - 1e-6,
    eastDeg: Math.max(begin, end) + 1e-6,
  };
}

/** The turns (multiples of 360 degrees) by which `path` must be moved to meet `raster`; none when they do not meet. */
export function meetingTurns(raster: Bounds, path: Bounds): number[] {
  if (raster.southDeg > path.northDeg || raster.northDeg < path.southDeg) return [];
  const turns: number[] = [];
  const first = Math.ceil((raster.westDeg - path.eastDeg) / 360);
  for (let turn = first; path.westDeg + turn * 360 <= raster.eastDeg; turn++) turns.push(turn * 360 + 0);
  return turns;
}

/** Ground size of a pixel at the raster's middle: metres along a row and along a column. */
export function pixelSizeM(
  width: number,
  height: number,
  placement: Placement,
  crs: Crs,
): { alongRowM: number; alongColumnM: number } {
  const projection = projectionOf(crs);
  const at = (column: number, row: number) =>
    projection.inverse(
      placement.x0 + column * placement.xPerColumn + row * placement.xPerRow,
      placement.y0 + column * placement.yPerColumn + row * placement.yPerRow,
    );
  const middle = at((width - 1) / 2, (height - 1) / 2);
  const distanceM = (other: readonly [number, number]): number => {
    const metresADegree = 111_320;
    const dx = turnToNearest(other[0] - middle[0]) * metresADegree * Math.cos((middle[1] * Math.PI) / 180);
    return Math.hypot(dx, (other[1] - middle[1]) * metresADegree);
  };
  return {
    alongRowM: distanceM(at((width + 1) / 2, (height - 1) / 2)),
    alongColumnM: distanceM(at((width - 1) / 2, (height + 1) / 2)),
  };
}

/** An angle difference folded into -180..180 degrees. */
export function turnToNearest(deg: number): number {
  return deg - 360 * Math.round(deg / 360);
}

function* edge(width: number, height: number): Generator<readonly [number, number]> {
  const right = width - 1;
  const bottom = height - 1;
  for (let i = 0; i < STEPS_A_SIDE; i++) yield [(right * i) / STEPS_A_SIDE, 0];
  for (let i = 0; i < STEPS_A_SIDE; i++) yield [right, (bottom * i) / STEPS_A_SIDE];
  for (let i = 0; i < STEPS_A_SIDE; i++) yield [right - (right * i) / STEPS_A_SIDE, bottom];
  for (let i = 0; i <= STEPS_A_SIDE; i++) yield [0, bottom - (bottom * i) / STEPS_A_SIDE];
}
