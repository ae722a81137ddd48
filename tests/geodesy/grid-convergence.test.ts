/** Grid north, against a published example, the closed formula, and what every grid must do. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { gridNorth, utmCode } from "../../shared/geodesy/grid-convergence.js";

const dms = (d: number, m: number, s: number) => d + m / 60 + s / 3600;

test("the example of the technical manual of GDA94, as remembered", () => {
  // ICSM, Geocentric Datum of Australia Technical Manual: Flinders Peak in zone 55 of MGA, grid convergence
  // -1 deg 35' 03.65", which is added to a true azimuth there; from memory, not checked against the print.
  const flindersPeak = { latitudeDeg: -dms(37, 57, 3.7203), longitudeDeg: dms(144, 25, 29.5244) };
  const found = gridNorth(flindersPeak, 28355)!;
  expect(found.grid).toBe("EPSG:28355");
  expect(Math.abs(found.convergenceDeg - dms(1, 35, 3.65))).toBeLessThan(0.005 / 3600);
});

/**
 * gamma of the transverse Mercator projection on the ellipsoid as a series in the difference of longitude L, rad:
 * L s (1 + L2 c2 (1 + 3 n2 + 2 n4) / 3 + L4 c4 (2 - t2) / 15), s, c, t of the latitude, n2 = e'2 c2.
 * J. P. Snyder, Map Projections - A Working Manual (USGS Professional Paper 1395), of the same series as (8-9) to (8-15); from memory.
 */
function seriesDeg(latitudeDeg: number, fromMeridianDeg: number): number {
  const [phi, L] = [(latitudeDeg * Math.PI) / 180, (fromMeridianDeg * Math.PI) / 180];
  const f = 1 / 298.257223563;
  const e2 = f * (2 - f);
  const [s, c] = [Math.sin(phi), Math.cos(phi)];
  const n2 = (e2 / (1 - e2)) * c * c;
  const t2 = (s / c) ** 2;
  const third = (L * L * c * c * (1 + 3 * n2 + 2 * n2 * n2)) / 3;
  const fifth = (L ** 4 * c ** 4 * (2 - t2)) / 15;
  return (L * s * (1 + third + fifth) * 180) / Math.PI;
}

test("UTM agrees with the series, everywhere that UTM is", () => {
  fc.assert(
    fc.property(
      fc.double({ min: -80, max: 84, noNaN: true }),
      fc.double({ min: -180, max: 179.999, noNaN: true }),
      (latitudeDeg, longitudeDeg) => {
        const code = utmCode({ latitudeDeg, longitudeDeg })!;
        const { convergenceDeg } = gridNorth({ latitudeDeg, longitudeDeg })!;
        const meridian = (code % 100) * 6 - 183;
        expect(Math.abs(convergenceDeg - seriesDeg(latitudeDeg, longitudeDeg - meridian))).toBeLessThan(1e-4);
      },
    ),
  );
});

test.each([
  ["north of the equator, east of the middle: grid north lies east", 47, 10, 1],
  ["north of it, west of the middle: west", 47, 8, -1],
  ["south of it, east of the middle: west", -47, 10, -1],
])("%s", (_, latitudeDeg, longitudeDeg, sign) => {
  expect(Math.sign(gridNorth({ latitudeDeg, longitudeDeg })!.convergenceDeg)).toBe(sign);
});

test("on the middle meridian and the equator there is none", () => {
  expect(gridNorth({ latitudeDeg: 47, longitudeDeg: 9 })!.convergenceDeg).toBeCloseTo(0, 7);
  expect(gridNorth({ latitudeDeg: 0, longitudeDeg: 10 })!.convergenceDeg).toBeCloseTo(0, 7);
});

describe("a system that the design names", () => {
  test("the oblique grid of Switzerland has its north at Berne, and turns eastwards", () => {
    const bern = gridNorth({ latitudeDeg: 46.9524, longitudeDeg: 7.4396 }, 2056)!;
    expect(Math.abs(bern.convergenceDeg)).toBeLessThan(0.01);
    // About sin(latitude) of the difference of longitude.
    const east = gridNorth({ latitudeDeg: 46.9524, longitudeDeg: 9.4396 }, 2056)!;
    expect(Math.abs(east.convergenceDeg - 2 * Math.sin((46.9524 * Math.PI) / 180))).toBeLessThan(0.02);
  });

  test("one that keeps areas keeps no angles, and none is told", () => {
    expect(gridNorth({ latitudeDeg: 30, longitudeDeg: 40 }, 3035)).toBeUndefined();
  });

  test("degrees, a code that nobody knows and places beyond the system have none", () => {
    expect(gridNorth({ latitudeDeg: 47, longitudeDeg: 8 }, 4326)).toBeUndefined();
    expect(gridNorth({ latitudeDeg: 47, longitudeDeg: 8 }, 99999)).toBeUndefined();
    expect(gridNorth({ latitudeDeg: 85, longitudeDeg: 8 })).toBeUndefined();
    expect(gridNorth({ latitudeDeg: 90, longitudeDeg: 8 }, 32632)).toBeUndefined();
    expect(gridNorth({ latitudeDeg: Number.NaN, longitudeDeg: 8 })).toBeUndefined();
  });

  test("whatever place and code: a finite angle or none", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -90, max: 90 }),
        fc.double({ min: -400, max: 400 }),
        fc.constantFrom(2056, 21781, 3035, 27700, 31370, 2154, 31287, 32632, 3857, 25832, 5514),
        (latitudeDeg, longitudeDeg, epsg) => {
          const found = gridNorth({ latitudeDeg, longitudeDeg }, epsg);
          if (found) expect(Math.abs(found.convergenceDeg)).toBeLessThanOrEqual(180);
        },
      ),
    );
  });
});

test.each([
  // Zones of the military grid: 32V and those of Svalbard are wider, 31V and 32X to 36X give way.
  [60, 4, 32632],
  [55, 4, 32631],
  [75, 8, 32631],
  [75, 10, 32633],
  [75, 22, 32635],
  [75, 40, 32637],
  [-45, 179.9, 32760],
  [10, 180, 32601],
  [10, -180, 32601],
])("the zone of %f, %f is that of EPSG:%i", (latitudeDeg, longitudeDeg, code) => {
  expect(utmCode({ latitudeDeg, longitudeDeg })).toBe(code);
});
