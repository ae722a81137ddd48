import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { geodesicPoints, inverse } from "../../shared/geodesy/geodesic.js";
import { loadVectors, testRows } from "../support/vectors.js";
import { direct } from "./direct.js";

interface Pair {
  name?: string;
  note?: string;
  lat1: number;
  lon1: number;
  lat2: number;
  lon2: number;
  distanceM: number;
  azimuth1Deg: number;
  azimuth2Deg: number;
}
interface Vectors {
  inverse: { how: string; cases: (Pair & { name: string; azimuthFromPoint2Deg: number })[] };
  direct: { how: string; cases: Pair[] };
  publishedTestSet: { source: string; rows: Pair[] };
  publishedExample: {
    source: string;
    published: { distanceM: number; azimuth1: string; azimuthFromPoint2: string };
  };
  pathPoints: {
    how: string;
    paths: (Pair & {
      name: string;
      points: { fraction: number; lat: number; lon: number; azimuthDeg: number }[];
    })[];
  };
}
const vectors = loadVectors<Vectors>("geodesy/geodesic.json");
/** As the vector file states: 1e-6 m, 1e-10 degree, azimuths of paths over 100 m to 1e-7 degree. */
const DISTANCE = { absolute: 1e-6 };
const POSITION = { absolute: 1e-10 };

/** Smallest difference of two angles in degrees. */
function angleBetween(a: number, b: number): number {
  return Math.abs(((((a - b + 180) % 360) + 360) % 360) - 180);
}

function place(latitudeDeg: number, longitudeDeg: number) {
  return { latitudeDeg, longitudeDeg };
}

describe("inverse", () => {
  testRows("pairs of points", vectors.inverse.how, vectors.inverse.cases, (row, is) => {
    const found = inverse({ from: place(row.lat1, row.lon1), to: place(row.lat2, row.lon2) });
    is.close("distance", found.distanceM, row.distanceM, DISTANCE);
    // Coincident and antipodal points: the azimuths are a convention, the file says not to compare them.
    if (row.note !== undefined) return;
    const tolerance = { absolute: row.distanceM > 100 ? 1e-7 : 1e-6 };
    is.close("azimuth 1", angleBetween(found.azimuthFromDeg, row.azimuth1Deg), 0, tolerance);
    is.close("azimuth 2, back", angleBetween(found.azimuthToDeg, row.azimuthFromPoint2Deg), 0, tolerance);
    is.same("azimuth 1 is 0 to below 360", found.azimuthFromDeg >= 0 && found.azimuthFromDeg < 360, true);
    is.same("azimuth 2 is 0 to below 360", found.azimuthToDeg >= 0 && found.azimuthToDeg < 360, true);
  });

  testRows(
    "published test set",
    vectors.publishedTestSet.source,
    vectors.publishedTestSet.rows,
    (row, is) => {
      const found = inverse({ from: place(row.lat1, row.lon1), to: place(row.lat2, row.lon2) });
      is.close("distance", found.distanceM, row.distanceM, DISTANCE);
      const reached = direct(place(row.lat1, row.lon1), row.azimuth1Deg, row.distanceM);
      is.close("latitude", reached.latitudeDeg, row.lat2, POSITION);
      // Near the poles a longitude is worth little: compare it as a distance on the ground.
      const onGround = angleBetween(reached.longitudeDeg, row.lon2) * Math.cos((row.lat2 * Math.PI) / 180);
      is.close("longitude", onGround, 0, POSITION);
    },
  );

  test("the published line between Flinders Peak and Buninyong", () => {
    // On GRS80, which differs from WGS84 by 0.1 mm in the semi-minor axis: nothing at the printed digits.
    const from = place(-(37 + 57 / 60 + 3.7203 / 3600), 144 + 25 / 60 + 29.5244 / 3600);
    const to = place(-(37 + 39 / 60 + 10.1561 / 3600), 143 + 55 / 60 + 35.3839 / 3600);
    const found = inverse({ from, to });
    const { published, source } = vectors.publishedExample;
    expect(Math.abs(found.distanceM - published.distanceM), source).toBeLessThan(0.001);
    // 306 52 05.37 and 127 10 25.07
    expect(Math.abs(found.azimuthFromDeg - (306 + 52 / 60 + 5.37 / 3600)), source).toBeLessThan(0.006 / 3600);
    expect(Math.abs(found.azimuthToDeg - (127 + 10 / 60 + 25.07 / 3600)), source).toBeLessThan(0.006 / 3600);
  });

  test("refuses what is no place", () => {
    expect(() => inverse({ from: place(90.1, 0), to: place(0, 0) })).toThrow(RangeError);
    expect(() => inverse({ from: place(0, 0), to: place(0, Number.NaN) })).toThrow(RangeError);
  });
});

describe("direct", () => {
  testRows("direct problems", vectors.direct.how, vectors.direct.cases, (row, is) => {
    const found = direct(place(row.lat1, row.lon1), row.azimuth1Deg, row.distanceM);
    is.close("latitude", found.latitudeDeg, row.lat2, POSITION);
    is.close("longitude", angleBetween(found.longitudeDeg, row.lon2), 0, POSITION);
    is.close("azimuth", angleBetween(found.azimuthDeg, row.azimuth2Deg), 0, { absolute: 1e-7 });
  });
});

/** Distance on the ground, m, between two places a few metres apart. */
function offsetM(latA: number, lonA: number, latB: number, lonB: number): number {
  return inverse({ from: place(latA, lonA), to: place(latB, lonB) }).distanceM;
}

describe("points along a path", () => {
  for (const path of vectors.pathPoints.paths) {
    testRows(path.name, vectors.pathPoints.how, path.points, (point, is) => {
      const count = 1201;
      const latitudes = new Float64Array(count);
      const longitudes = new Float64Array(count);
      const from = place(path.lat1, path.lon1);
      const lengthM = geodesicPoints(from, place(path.lat2, path.lon2), count, latitudes, longitudes);
      is.close("length", lengthM, path.distanceM, DISTANCE);
      // All fractions of the file fall on points of a path with 1200 intervals (their thirds are printed to 12 digits).
      const i = Math.round(point.fraction * (count - 1));
      const off = offsetM(latitudes[i]!, longitudes[i]!, point.lat, point.lon);
      is.close("offset, m", off, 0, { absolute: 1e-4 });
      is.same("longitude range", Math.abs(longitudes[i]!) <= 180, true);
    });
  }

  test("within 0.1 mm of the exact geodesic wherever the fast method is used, exact near the poles", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -89.9, max: 89.9, noNaN: true }),
        fc.double({ min: -180, max: 180, noNaN: true }),
        fc.double({ min: 0, max: 360, noNaN: true }),
        fc.double({ min: 1, max: 200_000, noNaN: true }),
        fc.integer({ min: 2, max: 400 }),
        (latitude, longitude, azimuth, distanceM, count) => {
          const from = place(latitude, longitude);
          const to = direct(from, azimuth, distanceM);
          const latitudes = new Float64Array(count);
          const longitudes = new Float64Array(count);
          geodesicPoints(from, to, count, latitudes, longitudes);
          for (let i = 0; i < count; i += Math.ceil(count / 40)) {
            const exact = direct(from, azimuth, (distanceM * i) / (count - 1));
            const off = offsetM(latitudes[i]!, longitudes[i]!, exact.latitudeDeg, exact.longitudeDeg);
            expect(off).toBeLessThan(1e-4);
            expect(Math.abs(longitudes[i]!)).toBeLessThanOrEqual(180);
          }
        },
      ),
      { numRuns: 300 },
    );
  });

  test("crosses the antimeridian the short way, and the pole", () => {
    const latitudes = new Float64Array(5);
    const longitudes = new Float64Array(5);
    geodesicPoints(place(0, 179.9), place(0, -179.9), 5, latitudes, longitudes);
    expect([...longitudes].map((x) => Math.round(Math.abs(x) * 100) / 100)).toEqual([
      179.9, 179.95, 180, 179.95, 179.9,
    ]);
    geodesicPoints(place(89.9, 10), place(89.9, -170), 5, latitudes, longitudes);
    expect(latitudes[2]).toBeCloseTo(90, 9);
    expect(longitudes[1]).toBeCloseTo(10, 9);
    expect(longitudes[3]).toBeCloseTo(-170, 9);
  });

  test("coincident places give that place throughout", () => {
    const latitudes = new Float64Array(4);
    const longitudes = new Float64Array(4);
    expect(geodesicPoints(place(46.5, 8.5), place(46.5, 8.5), 4, latitudes, longitudes)).toBe(0);
    for (let i = 0; i < 4; i++) {
      expect(latitudes[i]).toBeCloseTo(46.5, 10);
      expect(longitudes[i]).toBeCloseTo(8.5, 10);
    }
  });

  test("both ends are the given places; a longer array is left alone behind", () => {
    const latitudes = new Float64Array(5).fill(7);
    const longitudes = new Float64Array(5).fill(7);
    geodesicPoints(place(46.1, 8.1), place(46.2, 8.3), 3, latitudes, longitudes);
    expect([latitudes[0], longitudes[0], latitudes[2], longitudes[2]]).toEqual([46.1, 8.1, 46.2, 8.3]);
    expect(latitudes[3]).toBe(7);
  });

  test("refuses a single point and short arrays", () => {
    const short = new Float64Array(2);
    expect(() => geodesicPoints(place(0, 0), place(1, 1), 1, short, short)).toThrow(RangeError);
    expect(() => geodesicPoints(place(0, 0), place(1, 1), 3, short, short)).toThrow(RangeError);
  });
});
