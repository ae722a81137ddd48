import { describe, expect, test } from "vitest";
import { referenceAtmosphere } from "../../shared/propagation/p835.js";
import { loadVectors, testRows } from "../support/vectors.js";

const vectors = loadVectors<{ source: string; rows: [number, number, number, number, number][] }>(
  "propagation/p835.json",
);

describe("P.835 reference atmosphere", () => {
  testRows(
    "0 to 100 km",
    vectors.source,
    vectors.rows,
    ([heightKm, pressure, temperature, density, vapour], is) => {
      const air = referenceAtmosphere(heightKm * 1000);
      // 15 to 16 digits are printed; the polynomial above 86 km loses three of them.
      is.close("pressure", air.pressureHPa, pressure, { relative: 1e-12 });
      is.close("temperature", air.temperatureK, temperature, { relative: 1e-14 });
      is.close("density", air.waterVapourDensityGm3, density, { relative: 1e-12 });
      is.close("vapour pressure", air.vapourPressureHPa, vapour, { relative: 1e-12 });
    },
  );

  test("continuous at the bounds of the layers", () => {
    for (const heightKm of [11.019, 20.063, 32.162, 47.35, 51.413, 71.802, 86]) {
      const below = referenceAtmosphere(heightKm * 1000 - 1);
      const above = referenceAtmosphere(heightKm * 1000 + 1);
      expect(Math.abs(below.pressureHPa / above.pressureHPa - 1)).toBeLessThan(1e-3);
      expect(Math.abs(below.temperatureK - above.temperatureK)).toBeLessThan(0.1);
    }
  });

  test("below sea level the first layer goes on; far outside is refused", () => {
    // The Dead Sea's shore, about -430 m: the first row of the table with H negative.
    expect(referenceAtmosphere(-430).temperatureK).toBeCloseTo(288.15 + 6.5 * 0.43003, 4);
    expect(() => referenceAtmosphere(100_001)).toThrow(RangeError);
    expect(() => referenceAtmosphere(Number.NaN)).toThrow(RangeError);
  });
});
