/**
 * A raster of heights in memory, in one canonical form, so that sampling needs no case distinctions:
 * either 16-bit integers with -32768 for a void, or 32-bit floats with NaN for a void. Every decoder
 * converts into one of the two (declared nodata, scale, offset and unit are applied while decoding).
 *
 * A value is the height in metres at the CENTRE of its pixel, whatever the file says about corners.
 */
export interface Raster {
  readonly width: number;
  readonly height: number;
  /** Row by row in the file's order; metres; -32768 (integers) or NaN (floats) where void. */
  readonly heightsM: Int16Array | Float32Array;
  readonly placement: Placement;
}

/**
 * Where the pixel centres stand in the raster's own coordinates (degrees of longitude and latitude, or
 * metres east and north): x = x0 + column * xPerColumn + row * xPerRow, and y likewise. South-up and
 * rotated rasters are ordinary cases of it.
 */
export interface Placement {
  readonly x0: number;
  readonly xPerColumn: number;
  readonly xPerRow: number;
  readonly y0: number;
  readonly yPerColumn: number;
  readonly yPerRow: number;
}

/** The inverse of a placement: column = column0 + x * columnPerX + y * columnPerY, and row likewise. */
export interface PixelTransform {
  readonly column0: number;
  readonly columnPerX: number;
  readonly columnPerY: number;
  readonly row0: number;
  readonly rowPerX: number;
  readonly rowPerY: number;
}

/** The integer that stands for "no height here" in an Int16Array raster. */
export const VOID_INT16 = -32768;

/** A north-up placement from the centre of the first pixel and the pixel's size (both sizes positive). */
export function northUp(x0: number, y0: number, pixelWidth: number, pixelHeight: number): Placement {
  return { x0, xPerColumn: pixelWidth, xPerRow: 0, y0, yPerColumn: 0, yPerRow: -pixelHeight };
}

/**
 * @throws RangeError when the placement folds the raster into a line (no inverse exists); decoders refuse
 * such a file before they get here.
 */
export function pixelTransform(p: Placement): PixelTransform {
  const determinant = p.xPerColumn * p.yPerRow - p.xPerRow * p.yPerColumn;
  if (!Number.isFinite(determinant) || determinant === 0)
    throw new RangeError("raster placement has no inverse");
  const columnPerX = p.yPerRow / determinant;
  const columnPerY = -p.xPerRow / determinant;
  const rowPerX = -p.yPerColumn / determinant;
  const rowPerY = p.xPerColumn / determinant;
  return {
    columnPerX,
    columnPerY,
    column0: -(columnPerX * p.x0 + columnPerY * p.y0),
    rowPerX,
    rowPerY,
    row0: -(rowPerX * p.x0 + rowPerY * p.y0),
  };
}

/** The placement of the part of a raster that begins at `column`, `row`. */
export function shiftedPlacement(p: Placement, column: number, row: number): Placement {
  return {
    ...p,
    x0: p.x0 + column * p.xPerColumn + row * p.xPerRow,
    y0: p.y0 + column * p.yPerColumn + row * p.yPerRow,
  };
}
