/**
 * Positions in projected coordinates. The projections themselves are held against PROJ's values in the suite of terrain;
 * here the edge of a zone of UTM on the equator, 166 021.443 m (known figure of the trade, from memory, unconfirmed).
 */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { crsOfEpsg } from "../../shared/terrain/crs.js";
import { projectionOf } from "../../shared/terrain/projection.js";
import { projectedReadings } from "../../shared/terrain/written-projected.js";
import { FILE, modelOf } from "./editor/fixing.js";

const site = (at: string) => modelOf(`site A {\n  at ${at}\n}\n`);
const position = (at: string) => site(at).lookup.site("A")?.position;
const problem = (at: string) => site(at).problemsOf(FILE)[0];

describe("read", () => {
  test("UTM on WGS 84, both halves, in either order of the figures, with a blank before the letter or without", () => {
    const keld = position("utm 32 north 500000 E 5261234 N")!;
    // On the central meridian of zone 32, 9 degrees east.
    expect(keld.longitudeDeg).toBeCloseTo(9, 9);
    for (const same of [
      "utm 32 north 5261234 N 500000 E",
      "utm 32 north 500000E 5261234N",
      "utm 32 north 500000.0 E 5261234 N",
      "epsg 32632 500000 E 5261234 N",
    ])
      expect(position(same)).toEqual(keld);
    expect(position("utm 32 south 500000 E 10000000 N")!.latitudeDeg).toBeCloseTo(0, 9);
    expect(position("utm 32 north 500000 E 0 N")!.latitudeDeg).toBeCloseTo(0, 9);
  });

  test("the edge of a zone", () => {
    const edge = position("utm 32 north 166021.443 E 0 N")!;
    expect(edge.longitudeDeg).toBeCloseTo(6, 7);
    expect(edge.latitudeDeg).toBeCloseTo(0, 9);
  });

  test("every system of the table, there and back within a millimetre of its own figures", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(25832, 32633, 32733, 2056, 3035, 31467, 27700, 2154),
        fc.double({ min: -0.4, max: 0.4, noNaN: true }),
        fc.double({ min: -0.4, max: 0.4, noNaN: true }),
        (code, east, north) => {
          const crs = crsOfEpsg(code)!;
          const centre: Record<number, [number, number]> = {
            25832: [9, 50],
            32633: [15, 50],
            32733: [15, -20],
            2056: [7.4, 46.9],
            3035: [10, 52],
            31467: [9, 50],
            27700: [-2, 53],
            2154: [3, 46.5],
          };
          const [lon, lat] = centre[code]!;
          const [x, y] = projectionOf(crs).forward(lon + east, lat + north);
          const read = position(`epsg ${code} ${x.toFixed(3)} E ${y.toFixed(3)} N`)!;
          // A millimetre is 1e-8 degrees; two decimals of it are left for the rounding of the figures.
          expect(Math.abs(read.latitudeDeg - lat - north)).toBeLessThan(2e-8);
          expect(Math.abs(read.longitudeDeg - lon - east)).toBeLessThan(2e-8);
        },
      ),
    );
  });
});

describe("refused, with what to do", () => {
  test.each([
    ["utm 61 north 500000 E 5261234 N", /zones 1 to 60; there is no 61/],
    ["utm 0 north 500000 E 5261234 N", /there is no 0/],
    ["utm 32 north 99999 E 5261234 N", /no easting of UTM/],
    ["utm 32 north 500000 E 10000001 N", /no northing of UTM/],
    // 84 degrees north lies at 9 328 094 m on the central meridian, 80 south at 1 118 414 m.
    ["utm 32 north 500000 E 9328100 N", /ends at 84 degrees north/],
    ["utm 32 south 500000 E 1118410 N", /80 degrees south/],
    ["utm 32 north 500000 E 5261234 E", /both figures are E/],
    ["epsg 4326 9 E 47 N", /has degrees/],
    ["epsg 99999 412345 E 5261234 N", /EPSG:99999 is not known; known are .* convert to degrees of WGS 84/],
    ["epsg 2056 99999999 E 0 N", /lies outside of EPSG:2056/],
    ["utm 32 500000 E 5261234 N", /utm, a zone, north or south/],
  ])("%s", (at, message) => {
    expect(problem(at)).toMatchObject({ rule: "value-range", message: expect.stringMatching(message) });
    expect(position(at)).toBeUndefined();
  });

  test("an edge inside is taken", () => {
    for (const at of [
      "utm 60 north 500000 E 5261234 N",
      "utm 1 north 500000 E 5261234 N",
      "utm 32 north 100000 E 5261234 N",
      "utm 32 north 900000 E 5261234 N",
      "utm 32 north 500000 E 9328090 N",
      "utm 32 south 500000 E 1118420 N",
    ])
      expect(position(at), at).toBeDefined();
  });
});

describe("usual notations become the canonical one", () => {
  test.each([
    ["32T 412345 5261234", ["utm 32 north 412345 E 5261234 N"]],
    ["utm 32T 412345 5261234", ["utm 32 north 412345 E 5261234 N"]],
    ["32N 412345 5261234", ["utm 32 north 412345 E 5261234 N"]],
    ["32 north 412345 5261234", ["utm 32 north 412345 E 5261234 N"]],
    ["32T N5261234 E412345", ["utm 32 north 412345 E 5261234 N"]],
    ["32H 412345 5261234", ["utm 32 south 412345 E 5261234 N"]],
    // The southern half to most; the band of 32 to 40 degrees north to others.
    ["32S 412345 4061234", ["utm 32 south 412345 E 4061234 N", "utm 32 north 412345 E 4061234 N"]],
    ["utm 32 north 412345 5261234", ["utm 32 north 412345 E 5261234 N"]],
    ["utm 32 north 5261234", []],
    ["32T 12345 5261234", []],
  ])("%s", (at, readings) => {
    const told = problem(at)!;
    expect((told.fixes ?? []).map(({ newText }) => newText)).toEqual(readings);
    for (const { newText, certain } of told.fixes ?? []) {
      expect(certain).toBe(readings.length === 1 ? true : undefined);
      expect(position(newText)).toBeDefined();
    }
  });

  test("no reading is offered that is refused", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 99 }),
        fc.constantFrom(..."CDSNTX"),
        fc.integer({ max: 2e6, min: 0 }),
        fc.integer({ max: 2e7, min: 0 }),
        (zone, band, east, north) => {
          for (const reading of projectedReadings(`${zone}${band} ${east} ${north}`))
            expect(position(reading)).toBeDefined();
        },
      ),
    );
  });
});
