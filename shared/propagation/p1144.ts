/** Interpolation in the maps of the Recommendations. Rec. ITU-R P.1144, bilinear (any edition). */
import type { MethodReference } from "./method.js";

export const METHOD: MethodReference = {
  recommendation: "ITU-R P.1144",
  section: "bilinear",
  title: "Interpolation in maps",
  status: "verified",
  note: "Checked against an independent library and through map examples.",
  checked: {
    by: "an independent library",
    vectors: ["bilinear"],
    tolerance: "1e-12",
  },
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
 *
 *     I = I(R,C) (R+1-r)(C+1-c) + I(R+1,C) (r-R)(C+1-c) + I(R,C+1) (R+1-r)(c-C) + I(R+1,C+1) (r-R)(c-C)
 *
 * with r and c the row and column of the point in grid steps, R = floor(r), C = floor(c). The last row and column
 * belong to the grid: there R or C is the one before.
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
