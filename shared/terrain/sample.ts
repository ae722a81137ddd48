import { type PixelTransform, type Placement, pixelTransform, type Raster, VOID_INT16 } from "./raster.js";

/** No raster covers the point. */
export const UNCOVERED = -2;
/** Some raster covers the point, but a height that would carry weight is void. */
export const VOID = -1;
/** The raster that should answer is not in memory yet. */
export const PENDING = -3;

/** A coordinate this close to a row or column of pixel centres (in pixels) counts as on it. */
const ON_CENTRE = 1e-7;

/** Points asked for, and what is known of each so far: arrays of one length, filled in place. */
export interface Sampling {
  readonly count: number;
  /** The points in the raster's own coordinates (see `Placement`). NaN where they have none. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Metres; NaN until filled. */
  readonly heightM: Float64Array;
  /** UNCOVERED, VOID, PENDING, or the index of the source that gave the height. */
  readonly origin: Int16Array;
}

/** Points from the first up to the end, which is not one of them. */
export interface Span {
  readonly first: number;
  readonly end: number;
}

/**
 * Fills every point that has no height yet and lies between the outermost pixel centres of the raster:
 * bilinear between the four nearest centres, void when any of the four that carries weight is void.
 *
 *     upper = a + fc (b - a),   lower = d + fc (e - d),   height = upper + fr (lower - upper)
 *
 * with a, b the centres above and d, e those below the point, fc and fr its place between columns and rows, 0..1: the
 * bilinear form of Rec. ITU-R P.1144. Nothing is extrapolated into the half pixel outside.
 * @param xOffset added to every x (a turn of 360 degrees, where the raster counts longitudes otherwise)
 * @param span no other points are looked at
 * @returns the number of points filled
 */
export function fillFromRaster(
  raster: Raster,
  points: Sampling,
  source: number,
  xOffset = 0,
  span: Span = { first: 0, end: points.count },
): number {
  const { width, height, heightsM } = raster;
  const t = pixelTransform(raster.placement);
  return heightsM instanceof Int16Array
    ? fillInt16(heightsM, width, height, t, points, source, xOffset, span)
    : fillFloat32(heightsM, width, height, t, points, source, xOffset, span);
}

/**
 * Marks as PENDING every point without a height that the raster covers, so that no coarser raster answers for it
 * before this one is in memory.
 * @returns the number of points marked
 */
export function markPending(
  width: number,
  height: number,
  placement: Placement,
  points: Sampling,
  xOffset = 0,
  { first, end }: Span = { first: 0, end: points.count },
): number {
  const t = pixelTransform(placement);
  let marked = 0;
  for (let i = first; i < end; i++) {
    if (points.origin[i]! >= 0 || points.origin[i] === PENDING) continue;
    if (!covers(width, height, t, points.x[i]! + xOffset, points.y[i]!)) continue;
    points.origin[i] = PENDING;
    marked++;
  }
  return marked;
}

/** Whether the point (raster coordinates) lies between the outermost pixel centres. */
export function covers(width: number, height: number, t: PixelTransform, x: number, y: number): boolean {
  const column = t.column0 + t.columnPerX * x + t.columnPerY * y;
  const row = t.row0 + t.rowPerX * x + t.rowPerY * y;
  return (
    column >= -ON_CENTRE &&
    column <= width - 1 + ON_CENTRE &&
    row >= -ON_CENTRE &&
    row <= height - 1 + ON_CENTRE
  );
}

// The two loops below are the same but for the test for a void. They stand apart so that each meets one kind of
// array only, which lets the engine compile the element reads without asking for the kind.

function fillInt16(
  heights: Int16Array,
  width: number,
  height: number,
  t: PixelTransform,
  points: Sampling,
  source: number,
  xOffset: number,
  { first, end }: Span,
): number {
  const { x, y, heightM, origin } = points;
  const { columnPerX, columnPerY, rowPerX, rowPerY } = t;
  const column0 = t.column0 + columnPerX * xOffset;
  const row0 = t.row0 + rowPerX * xOffset;
  const lastColumn = width - 1 + ON_CENTRE;
  const lastRow = height - 1 + ON_CENTRE;
  let filled = 0;
  for (let i = first; i < end; i++) {
    if (origin[i]! >= 0 || origin[i] === PENDING) continue;
    const px = x[i]!;
    const py = y[i]!;
    const column = column0 + columnPerX * px + columnPerY * py;
    const row = row0 + rowPerX * px + rowPerY * py;
    // Written so that NaN fails it.
    if (!(column >= -ON_CENTRE && column <= lastColumn && row >= -ON_CENTRE && row <= lastRow)) continue;
    let c = column | 0;
    let r = row | 0;
    let fc = column - c;
    let fr = row - r;
    if (fc < ON_CENTRE) fc = 0;
    else if (fc > 1 - ON_CENTRE) {
      fc = 0;
      c++;
    }
    if (fr < ON_CENTRE) fr = 0;
    else if (fr > 1 - ON_CENTRE) {
      fr = 0;
      r++;
    }
    // A corner without weight is not looked at: the step to it is zero, so the one beside it is read twice.
    const at = r * width + c;
    const right = fc > 0 ? 1 : 0;
    const below = fr > 0 ? width : 0;
    const a = heights[at]!;
    const b = heights[at + right]!;
    const d = heights[at + below]!;
    const e = heights[at + below + right]!;
    if (a === VOID_INT16 || b === VOID_INT16 || d === VOID_INT16 || e === VOID_INT16) {
      origin[i] = VOID;
      continue;
    }
    const upper = a + fc * (b - a);
    heightM[i] = upper + fr * (d + fc * (e - d) - upper);
    origin[i] = source;
    filled++;
  }
  return filled;
}

function fillFloat32(
  heights: Float32Array,
  width: number,
  height: number,
  t: PixelTransform,
  points: Sampling,
  source: number,
  xOffset: number,
  { first, end }: Span,
): number {
  const { x, y, heightM, origin } = points;
  const { columnPerX, columnPerY, rowPerX, rowPerY } = t;
  const column0 = t.column0 + columnPerX * xOffset;
  const row0 = t.row0 + rowPerX * xOffset;
  const lastColumn = width - 1 + ON_CENTRE;
  const lastRow = height - 1 + ON_CENTRE;
  let filled = 0;
  for (let i = first; i < end; i++) {
    if (origin[i]! >= 0 || origin[i] === PENDING) continue;
    const px = x[i]!;
    const py = y[i]!;
    const column = column0 + columnPerX * px + columnPerY * py;
    const row = row0 + rowPerX * px + rowPerY * py;
    if (!(column >= -ON_CENTRE && column <= lastColumn && row >= -ON_CENTRE && row <= lastRow)) continue;
    let c = column | 0;
    let r = row | 0;
    let fc = column - c;
    let fr = row - r;
    if (fc < ON_CENTRE) fc = 0;
    else if (fc > 1 - ON_CENTRE) {
      fc = 0;
      c++;
    }
    if (fr < ON_CENTRE) fr = 0;
    else if (fr > 1 - ON_CENTRE) {
      fr = 0;
      r++;
    }
    const at = r * width + c;
    const right = fc > 0 ? 1 : 0;
    const below = fr > 0 ? width : 0;
    const a = heights[at]!;
    const d = heights[at + below]!;
    const upper = a + fc * (heights[at + right]! - a);
    const value = upper + fr * (d + fc * (heights[at + below + right]! - d) - upper);
    // A void is NaN, and NaN at any corner makes the sum NaN.
    if (Number.isNaN(value)) {
      origin[i] = VOID;
      continue;
    }
    heightM[i] = value;
    origin[i] = source;
    filled++;
  }
  return filled;
}
