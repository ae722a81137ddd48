import { describe, expect, test } from "vitest";
import { bilinear, gridPosition, type MapGrid } from "../../shared/propagation/p1144.js";
import { loadVectors, testRows } from "../support/vectors.js";

interface Vectors {
  source: string;
  latitudesDeg: number[];
  longitudesDeg: number[];
  grid: number[][];
  rows: [latitudeDeg: number, longitudeDeg: number, value: number][];
}
const vectors = loadVectors<Vectors>("propagation/bilinear.json");
const invented: MapGrid = {
  rows: vectors.latitudesDeg.length,
  columns: vectors.longitudesDeg.length,
  values: Float64Array.from(vectors.grid.flat()),
  firstLatitudeDeg: vectors.latitudesDeg[0]!,
  latitudeStepDeg: vectors.latitudesDeg[1]! - vectors.latitudesDeg[0]!,
  firstLongitudeDeg: vectors.longitudesDeg[0]!,
  longitudeStepDeg: vectors.longitudesDeg[1]! - vectors.longitudesDeg[0]!,
};
/** The same map written north to south, with longitudes from 0 on. */
const turned: MapGrid = {
  ...invented,
  values: Float64Array.from([...vectors.grid].reverse().flat()),
  firstLatitudeDeg: vectors.latitudesDeg.at(-1)!,
  latitudeStepDeg: -invented.latitudeStepDeg,
  firstLongitudeDeg: invented.firstLongitudeDeg + 360,
};

describe("P.1144 bilinear", () => {
  testRows("invented grid", vectors.source, vectors.rows, ([latitude, longitude, value], is) => {
    for (const grid of [invented, turned]) {
      const { row, column } = gridPosition(grid, latitude, longitude);
      is.close("value", bilinear(grid, row, column), value, { absolute: 1e-12 });
      const shifted = gridPosition(grid, latitude, longitude + 360);
      is.close("a turn further", bilinear(grid, shifted.row, shifted.column), value, { absolute: 1e-11 });
    }
  });

  test("four values are a grid, fewer are none", () => {
    const four = { ...invented, rows: 2, columns: 2, values: Float64Array.of(1, 2, 3, 4) };
    expect(bilinear(four, 0, 0)).toBe(1);
    expect(bilinear(four, 1, 1)).toBe(4);
    expect(bilinear(four, 0.5, 0.5)).toBe(2.5);
    expect(bilinear({ ...four, columns: 1, values: Float64Array.of(1, 2) }, 0, 0)).toBeUndefined();
    expect(bilinear({ ...four, rows: 1, values: Float64Array.of(1, 2) }, 0, 0)).toBeUndefined();
  });

  test("nothing outside the grid", () => {
    const { row, column } = gridPosition(invented, 3, 0);
    expect(bilinear(invented, row, column)).toBeUndefined();
    expect(bilinear(invented, 0, -0.1)).toBeUndefined();
    expect(bilinear(invented, Number.NaN, 0)).toBeUndefined();
  });
});
