/** Interpolation in the maps of the Recommendations. Rec. ITU-R P.1144, bilinear and bicubic (any edition). */
import type { MethodReference } from "./method.js";

export const METHOD: MethodReference = {
  recommendation: "ITU-R P.1144",
  section: "bilinear, bicubic",
  title: "Interpolation in maps",
  status: "verified",
  note: "Checked against an independent library and through map examples.",
};

/** A regular grid of values, row after row. */
export interface MapGrid {
  readonly rows: number;
  readonly columns: number;
  readonly values: Float64Array;
  /** Place of the first value, and the step to the next row and column; negative when the file runs the other way. */
  readonly firstLatitudeDeg: number;
  readonly latitudeStepDeg: number;
  readonly firstLongitudeDeg: number;
  readonly longitudeStepDeg: number;
}

/**
 * Place of a point in a grid, in rows and columns counted from 0, not whole. The longitude is first brought into
 * the turn in which the grid lies, so that -5 finds 355.
 */
export function gridPosition(grid: MapGrid, latitudeDeg: number, longitudeDeg: number) {
  const span = (grid.columns - 1) * grid.longitudeStepDeg;
  const west = Math.min(grid.firstLongitudeDeg, grid.firstLongitudeDeg + span);
  // Rounding must not turn a point on the western edge into one 360 degrees further east.
  const turns = Math.floor((longitudeDeg - west) / 360 + 1e-13);
  return {
    row: (latitudeDeg - grid.firstLatitudeDeg) / grid.latitudeStepDeg,
    column: (longitudeDeg - 360 * turns - grid.firstLongitudeDeg) / grid.longitudeStepDeg,
  };
}

/**
 * Bilinear interpolation between the four values around a point.
 * @returns undefined outside the grid
 * @see Rec. ITU-R P.1144, bilinear; checked against an independent library
 */
export function bilinear(grid: MapGrid, row: number, column: number): number | undefined {
  const inside = row >= 0 && row <= grid.rows - 1 && column >= 0 && column <= grid.columns - 1;
  if (!inside || grid.rows < 2 || grid.columns < 2) return undefined;
  const R = Math.min(Math.floor(row), grid.rows - 2);
  const C = Math.min(Math.floor(column), grid.columns - 2);
  const at = (r: number, c: number) => grid.values[r * grid.columns + c]!;
  const below = row - R;
  const right = column - C;
  return (
    at(R, C) * (1 - below) * (1 - right) +
    at(R + 1, C) * below * (1 - right) +
    at(R, C + 1) * (1 - below) * right +
    at(R + 1, C + 1) * below * right
  );
}

/**
 * Bicubic interpolation from the sixteen values around a point (cubic convolution, a = -0.5).
 * @returns undefined outside the grid and in its outermost cells, where sixteen values are not to be had
 * @see Rec. ITU-R P.1144, bicubic; checked outside this project through P.836, here by exact polynomials
 */
export function bicubic(grid: MapGrid, row: number, column: number): number | undefined {
  const enough = row >= 1 && row <= grid.rows - 2 && column >= 1 && column <= grid.columns - 2;
  if (!enough || grid.rows < 4 || grid.columns < 4) return undefined;
  const R = Math.min(Math.floor(row), grid.rows - 3);
  const C = Math.min(Math.floor(column), grid.columns - 3);
  let sum = 0;
  for (let r = R - 1; r <= R + 2; r++) {
    let across = 0;
    for (let c = C - 1; c <= C + 2; c++)
      across += grid.values[r * grid.columns + c]! * cubicWeight(column - c);
    sum += across * cubicWeight(row - r);
  }
  return sum;
}

function cubicWeight(offset: number): number {
  const x = Math.abs(offset);
  const a = -0.5;
  if (x <= 1) return (a + 2) * x ** 3 - (a + 3) * x ** 2 + 1;
  return x <= 2 ? a * x ** 3 - 5 * a * x ** 2 + 8 * a * x - 4 * a : 0;
}
