import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { elevationAngles, slantDistanceM } from "../../shared/geodesy/elevation.js";

const DEGREE = Math.PI / 180;

describe("elevation", () => {
  test("equals the small-angle form (h2 - h1)/d - d/(2 k a) on ordinary hops", () => {
    // 40 km, 100 m to 400 m, k = 4/3: 7.5 mrad - 2.354 mrad; back -7.5 - 2.354.
    const found = elevationAngles({ distanceM: 40_000, height1M: 100, height2M: 400, k: 4 / 3 });
    expect(found.elevation1Deg * DEGREE * 1000).toBeCloseTo(7.5 - 2.3544, 2);
    expect(found.elevation2Deg * DEGREE * 1000).toBeCloseTo(-7.5 - 2.3544, 2);
  });

  test("equal heights look down by half the central angle", () => {
    const found = elevationAngles({ distanceM: 30_000, height1M: 100, height2M: 100, k: 4 / 3 });
    const half = 30_000 / (2 * (4 / 3) * 6_371_000) / DEGREE;
    expect(found.elevation1Deg).toBeCloseTo(-half, 10);
    expect(found.elevation2Deg).toBeCloseTo(-half, 10);
  });

  test("the two elevations and the central angle make a triangle, for k of either sign", () => {
    const height = fc.double({ min: -400, max: 5000, noNaN: true });
    fc.assert(
      fc.property(
        fc.double({ min: 10, max: 300_000, noNaN: true }),
        height,
        height,
        fc.constantFrom(0.5, 2 / 3, 1, 4 / 3, 10, -2),
        (distanceM, height1M, height2M, k) => {
          const { elevation1Deg, elevation2Deg } = elevationAngles({ distanceM, height1M, height2M, k });
          const central = distanceM / (k * 6_371_000) / DEGREE;
          expect(elevation1Deg + elevation2Deg).toBeCloseTo(-central, 8);
        },
      ),
    );
  });

  test("over a flat Earth the elevations are opposite", () => {
    const flat = { distanceM: 1000, height1M: 0, height2M: 1000, k: Number.POSITIVE_INFINITY };
    expect(elevationAngles(flat).elevation1Deg).toBeCloseTo(45, 12);
    expect(elevationAngles(flat).elevation2Deg).toBeCloseTo(-45, 12);
  });

  test("refuses k = 0 and a distance of 0", () => {
    const hop = { distanceM: 1000, height1M: 0, height2M: 0, k: 4 / 3 };
    expect(() => elevationAngles({ ...hop, k: 0 })).toThrow(RangeError);
    expect(() => elevationAngles({ ...hop, distanceM: 0 })).toThrow(RangeError);
  });
});

describe("slant distance", () => {
  test("3, 4, 5", () => {
    expect(slantDistanceM(4000, 0, 3000)).toBe(5000);
    expect(slantDistanceM(4000, 3000, 0)).toBe(5000);
  });
});
