import proj4 from "proj4";
import type { LatLon } from "../geodesy/coordinates.js";
import type { Crs } from "./crs.js";

/** WGS 84 degrees into a raster's coordinates and back. The only file that touches the projection library. */
export interface Projection {
  /** [x, y]; NaN where the point has no image. */
  forward(longitudeDeg: number, latitudeDeg: number): readonly [number, number];
  /** [longitudeDeg, latitudeDeg]; NaN where there is none. */
  inverse(x: number, y: number): readonly [number, number];
}

const projections = new Map<string, Projection>();

/**
 * @throws Error when the definition is not understood
 */
export function projectionOf(crs: Crs): Projection {
  if (crs.definition === undefined) return IDENTITY;
  let projection = projections.get(crs.definition);
  if (!projection) projections.set(crs.definition, (projection = makeProjection(crs.definition)));
  return projection;
}

const IDENTITY: Projection = { forward: (x, y) => [x, y], inverse: (x, y) => [x, y] };
const NOWHERE = [Number.NaN, Number.NaN] as const;

function makeProjection(definition: string): Projection {
  let converter: proj4.Converter;
  try {
    converter = proj4("+proj=longlat +datum=WGS84 +no_defs", definition);
  } catch (error) {
    // The library throws plain strings as well as errors.
    throw new Error(
      `coordinate system not understood: ${error instanceof Error ? error.message : String(error)}`,
    );
  }
  // Outside its domain the library throws for some projections and yields non-finite numbers for others.
  const guarded = (call: () => number[]): readonly [number, number] => {
    try {
      const [x, y] = call();
      return Number.isFinite(x) && Number.isFinite(y) ? [x!, y!] : NOWHERE;
    } catch {
      return NOWHERE;
    }
  };
  return {
    forward: (lon, lat) => guarded(() => converter.forward([lon, lat])),
    inverse: (x, y) => guarded(() => converter.inverse([x, y])),
  };
}

/**
 * The place of projected coordinates in metres; undefined outside of the system: far outside a projection yields some
 * place or other, from which no way leads back.
 */
export function placeOf(crs: Crs, eastM: number, northM: number): LatLon | undefined {
  const projection = projectionOf(crs);
  const [longitudeDeg, latitudeDeg] = projection.inverse(eastM, northM);
  const [backEastM, backNorthM] = projection.forward(longitudeDeg, latitudeDeg);
  const leadsBack = Math.abs(backEastM - eastM) < 1 && Math.abs(backNorthM - northM) < 1;
  return leadsBack && Math.abs(latitudeDeg) <= 90 ? { latitudeDeg, longitudeDeg } : undefined;
}

/** Nodes at most this far apart are projected; the points between are interpolated on the straight line. */
const NODE_SPACING_M = 250;

/**
 * Projects the points of a path. Projection costs microseconds a point, so every 250 m is projected exactly and
 * the points between lie on the chord. The error of the chord stayed below 0.02 m on the ground in every system and
 * place tested (eight systems of seven kinds, up to 80 degrees of latitude); it grows with the square of the spacing.
 * @param spacingM distance between neighbouring points of the path
 */
export function projectPath(
  projection: Projection,
  count: number,
  spacingM: number,
  longitudeDeg: Float64Array,
  latitudeDeg: Float64Array,
  x: Float64Array,
  y: Float64Array,
): void {
  const stride = spacingM > 0 ? Math.max(1, Math.floor(NODE_SPACING_M / spacingM)) : 1;
  const place = (i: number): void => {
    const [px, py] = projection.forward(longitudeDeg[i]!, latitudeDeg[i]!);
    x[i] = px;
    y[i] = py;
  };
  if (count > 0) place(0);
  for (let from = 0; from < count - 1; from += stride) {
    const to = Math.min(from + stride, count - 1);
    place(to);
    const stepX = (x[to]! - x[from]!) / (to - from);
    const stepY = (y[to]! - y[from]!) / (to - from);
    for (let i = from + 1; i < to; i++) {
      x[i] = x[from]! + stepX * (i - from);
      y[i] = y[from]! + stepY * (i - from);
    }
  }
}
