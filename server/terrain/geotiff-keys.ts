import { type Crs, crsOfEpsg, knownCrsSummary } from "../../shared/terrain/crs.js";
import type { Placement } from "../../shared/terrain/raster.js";
import { TerrainFileError } from "./raster-file.js";

/** The geo keys as the library names them (OGC GeoTIFF 1.1, chapter 7). */
export type GeoKeys = Readonly<Record<string, unknown>> | null;

const PIXEL_IS_POINT = 2;
const PROJECTED = 1;
const GEOGRAPHIC = 2;
const USER_DEFINED = 32767;
const METRE_PER_FOOT = 0.3048;
const METRE_PER_US_SURVEY_FOOT = 1200 / 3937;

/**
 * Where the pixel centres stand. With pixel-is-area (the default where no key says otherwise) the stated place is
 * the outer corner of a pixel, so its centre is half a pixel on; with pixel-is-point it is the centre itself.
 */
export function geotiffPlacement(
  pixelScale: unknown,
  tiepoint: unknown,
  transformation: unknown,
  keys: GeoKeys,
): Placement {
  const toCentre = keys?.GTRasterTypeGeoKey === PIXEL_IS_POINT ? 0 : 0.5;
  const m = list(transformation);
  const [scaleX, scaleY] = list(pixelScale);
  const [i, j, , x, y] = list(tiepoint);
  let p: Placement | undefined;
  if (m.length === 16) {
    p = { x0: m[3]!, xPerColumn: m[0]!, xPerRow: m[1]!, y0: m[7]!, yPerColumn: m[4]!, yPerRow: m[5]! };
  } else if (scaleX !== undefined && scaleY !== undefined && y !== undefined) {
    p = {
      x0: x! - i! * scaleX,
      xPerColumn: scaleX,
      xPerRow: 0,
      y0: y + j! * scaleY,
      yPerColumn: 0,
      yPerRow: -scaleY,
    };
  }
  const determinant = p ? p.xPerColumn * p.yPerRow - p.xPerRow * p.yPerColumn : 0;
  if (!p || !Number.isFinite(p.x0 + p.y0 + determinant) || determinant === 0) {
    throw new TerrainFileError(
      "has no georeference, so nobody knows where it lies",
      "write it anew with its placement",
    );
  }
  return {
    ...p,
    x0: p.x0 + toCentre * (p.xPerColumn + p.xPerRow),
    y0: p.y0 + toCentre * (p.yPerColumn + p.yPerRow),
  };
}

export function geotiffCrs(keys: GeoKeys): Crs {
  const model = keys?.GTModelTypeGeoKey;
  const code =
    model === PROJECTED
      ? keys?.ProjectedCSTypeGeoKey
      : model === GEOGRAPHIC
        ? keys?.GeographicTypeGeoKey
        : undefined;
  if (typeof code !== "number" || code === 0) {
    throw new TerrainFileError("names no coordinate system", "write it anew with its EPSG code");
  }
  if (code === USER_DEFINED) {
    throw new TerrainFileError(
      "defines a coordinate system of its own, without an EPSG code",
      knownCrsSummary(),
    );
  }
  const crs = crsOfEpsg(code);
  if (!crs)
    throw new TerrainFileError(`EPSG:${code} is not among the coordinate systems known`, knownCrsSummary());
  return crs;
}

/** Metres per stored unit of height: the vertical unit key, else what GDAL wrote as the band's unit, else metres. */
export function geotiffUnitScale(keys: GeoKeys, unitType: unknown): number {
  const code = keys?.VerticalUnitsGeoKey;
  const noCode = code === undefined || code === 0;
  const name = typeof unitType === "string" ? unitType.trim().toLowerCase() : "";
  if (code === 9002 || (noCode && /^(ft|foot|feet)$/.test(name))) return METRE_PER_FOOT;
  if (code === 9003 || (noCode && /^us[- ]?(survey )?f(t|oot|eet)$/.test(name)))
    return METRE_PER_US_SURVEY_FOOT;
  if (code === 9001 || (noCode && /^(|m|met(er|re)s?)$/.test(name))) return 1;
  const unit = noCode ? `"${name.slice(0, 20)}"` : `EPSG:${String(code)}`;
  throw new TerrainFileError(`heights are in the unit ${unit}`, "write it anew in metres");
}

function list(value: unknown): number[] {
  return value === undefined || value === null ? [] : Array.from(value as Iterable<number>, Number);
}
