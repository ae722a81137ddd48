import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { meetingTurns, pathBounds, rasterBounds } from "../../shared/terrain/bounds.js";
import { crsOfEpsg } from "../../shared/terrain/crs.js";
import {
  type MosaicMember,
  matchingStepM,
  mosaicHeights,
  type Page,
  placeMember,
} from "../../shared/terrain/mosaic.js";
import { pathLengthM, pathPoints } from "../../shared/terrain/path.js";
import { assembleProfile, intervalsFor } from "../../shared/terrain/profile.js";
import { northUp, type Placement, type Raster, shiftedPlacement } from "../../shared/terrain/raster.js";
import { fillFromRaster, PENDING, UNCOVERED, VOID } from "../../shared/terrain/sample.js";
import { gridRaster } from "./grid-raster.js";

function sample(raster: Raster, places: [number, number][], xOffset = 0) {
  const count = places.length;
  const heightM = new Float64Array(count).fill(Number.NaN);
  const origin = new Int16Array(count).fill(UNCOVERED);
  const x = Float64Array.from(places, (p) => p[0]);
  const y = Float64Array.from(places, (p) => p[1]);
  fillFromRaster(raster, { count, x, y, heightM, origin }, 0, xOffset);
  return { heightM: Array.from(heightM), origin: Array.from(origin) };
}

/** 3 x 2 pixels, centres at x 10, 11, 12 and y 50 (first row), 49. */
const SMALL: Raster = {
  width: 3,
  height: 2,
  heightsM: Int16Array.of(100, 200, -32768, 140, 260, 300),
  placement: northUp(10, 50, 1, 1),
};

describe("bilinear sampling", () => {
  it("gives the values worked by hand", () => {
    // Between 100 200 / 140 260: middle (100+200+140+260)/4 = 175; at 1/4 east, 1/2 south: 125 and 170, so 147.5.
    const { heightM } = sample(SMALL, [
      [10, 50],
      [10.5, 49.5],
      [10.25, 49.5],
      [11, 49.25],
      [12, 49],
    ]);
    expect(heightM).toEqual([100, 175, 147.5, 245, 300]);
  });

  it("is void where a void carries weight, and only there", () => {
    const { heightM, origin } = sample(SMALL, [
      [11.5, 49.5],
      [12, 49.5],
      [11.5, 49],
      [11, 49.5],
      [11 + 1e-8, 49.5],
    ]);
    expect(origin).toEqual([VOID, VOID, 0, 0, 0]);
    expect(heightM.slice(2)).toEqual([280, 230, 230]);
  });

  it("extrapolates nothing into the outer half pixel", () => {
    const { origin } = sample(SMALL, [
      [9.999, 49.5],
      [12.001, 49],
      [10, 50.001],
      [10, 48.999],
      [Number.NaN, 49],
    ]);
    expect(origin).toEqual([UNCOVERED, UNCOVERED, UNCOVERED, UNCOVERED, UNCOVERED]);
  });

  it("does the same for floats, south-up and rotated rasters: a plane stays a plane", () => {
    const placements: Placement[] = [
      northUp(1, 43, 0.01, 0.02),
      { x0: 1, xPerColumn: 0.01, xPerRow: 0, y0: 42, yPerColumn: 0, yPerRow: 0.02 },
      { x0: 1, xPerColumn: 0.008, xPerRow: 0.004, y0: 43, yPerColumn: 0.003, yPerRow: -0.009 },
    ];
    for (const placement of placements) {
      const plane = (x: number, y: number) => 50 + 100 * (x - 1) - 40 * (y - 42.5);
      const raster = gridRaster(40, 30, placement, plane);
      fc.assert(
        fc.property(
          fc.double({ min: 0, max: 39, noNaN: true }),
          fc.double({ min: 0, max: 29, noNaN: true }),
          (c, r) => {
            const x = placement.x0 + c * placement.xPerColumn + r * placement.xPerRow;
            const y = placement.y0 + c * placement.yPerColumn + r * placement.yPerRow;
            const { heightM, origin } = sample(raster, [[x, y]]);
            expect(origin[0]).toBe(0);
            // Heights are 32-bit floats near 100 m: 8e-6 m.
            expect(Math.abs(heightM[0]! - plane(x, y))).toBeLessThan(1e-4);
          },
        ),
      );
    }
  });

  it("finds a raster that counts its longitudes another way round", () => {
    expect(sample({ ...SMALL, placement: northUp(190, 50, 1, 1) }, [[-169.5, 49.5]], 360).heightM).toEqual([
      175,
    ]);
  });
});

describe("mosaic", () => {
  const degrees = crsOfEpsg(4326)!;
  const member = (raster: Raster) => ({
    raster,
    width: raster.width,
    height: raster.height,
    placement: raster.placement,
    crs: degrees,
    pageWidth: raster.width - 1,
    pageHeight: raster.height - 1,
  });
  const heights = (rasters: Raster[], from: [number, number], to: [number, number], intervals: number) => {
    const a = { latitudeDeg: from[0], longitudeDeg: from[1] };
    const b = { latitudeDeg: to[0], longitudeDeg: to[1] };
    const path = pathPoints(a, b, intervals);
    return mosaicHeights(
      rasters.map((r) => placeMember(member(r))!),
      path,
      a,
      b,
      (m) => m.raster,
    );
  };

  it("asks the next raster where the first is void or ends", () => {
    const fine = gridRaster(11, 11, northUp(1, 41, 0.01, 0.01), (x) =>
      x > 1.045 && x < 1.055 ? undefined : 7,
    );
    const coarse = gridRaster(3, 3, northUp(1, 41.05, 0.1, 0.1), () => 3);
    const { heightM, origin } = heights([fine, coarse], [40.95, 1.005], [40.95, 1.195], 19);
    expect(Array.from(heightM)).toEqual([7, 7, 7, 7, 3, 3, 7, 7, 7, 7, ...Array(10).fill(3)]);
    expect(Array.from(origin).filter((o) => o < 0)).toEqual([]);
  });

  it("finds along any path the same in a raster that is read in pages as in the whole", () => {
    const whole = gridRaster(41, 31, northUp(10, 50, 0.01, 0.01), (x, y) => {
      const height = 100 + 80 * Math.sin(90 * x) + 60 * Math.cos(70 * y);
      return height > 210 ? undefined : height;
    });
    const coarse = gridRaster(5, 5, northUp(9.9, 50.1, 0.15, 0.15), () => 7);
    const cut = ({ column, row, width, height }: Page): Raster => ({
      width,
      height,
      heightsM: Float32Array.from({ length: width * height }, (_, i) => {
        const at = (row + Math.floor(i / width)) * whole.width + column + (i % width);
        return whole.heightsM[at]!;
      }),
      placement: shiftedPlacement(whole.placement, column, row),
    });
    const place = fc.record({
      latitudeDeg: fc.double({ min: 49.6, max: 50.05, noNaN: true }),
      longitudeDeg: fc.double({ min: 9.95, max: 10.45, noNaN: true }),
    });
    const side = fc.integer({ min: 1, max: 45 });
    fc.assert(
      fc.property(
        place,
        place,
        fc.integer({ min: 2, max: 300 }),
        side,
        side,
        (from, to, intervals, pageWidth, pageHeight) => {
          const path = pathPoints(from, to, intervals);
          const at = (fine: MosaicMember, raster: (page: Page) => Raster | undefined) =>
            mosaicHeights([placeMember(fine)!, placeMember(member(coarse))!], path, from, to, (one, page) =>
              one === fine ? raster(page) : coarse,
            );
          const asOne = at(member(whole), () => whole);
          const inPages = { ...member(whole), pageWidth, pageHeight };
          const paged = at(inPages, cut);
          expect(paged.origin).toEqual(asOne.origin);
          for (const [i, heightM] of paged.heightM.entries())
            expect(Math.abs(heightM - asOne.heightM[i]!) || 0).toBeLessThan(1e-9);
          // Nothing coarser answers where a page is not there yet, and each such page is named.
          const none = at(inPages, () => undefined);
          const isCovered = asOne.origin.map((_, i) =>
            sample(whole, [[path.longitudeDeg[i]!, path.latitudeDeg[i]!]]).origin[0] === UNCOVERED ? 0 : 1,
          );
          expect(none.origin.map((origin) => (origin === PENDING ? 1 : 0))).toEqual(isCovered);
          const filled = at(inPages, (page) =>
            none.missing.some((one) => one.page.column === page.column && one.page.row === page.row)
              ? cut(page)
              : undefined,
          );
          expect(filled.missing).toEqual([]);
        },
      ),
    );
  });

  it("crosses the antimeridian, whichever way the rasters count", () => {
    const west = gridRaster(11, 11, northUp(179, 1, 0.1, 0.1), (x) => x);
    const east = gridRaster(11, 11, northUp(-180, 1, 0.1, 0.1), (x) => x + 360);
    for (const [from, to] of [
      [179.5, -179.5],
      [-179.5, 179.5],
      [179.5, 180.5],
    ] as const) {
      const { heightM } = heights([west, east], [0.5, from], [0.5, to], 10);
      const expected = Array.from({ length: 11 }, (_, i) => 179.5 + i / 10);
      if (from < 0) expected.reverse();
      heightM.forEach((h, i) => {
        expect(Math.abs(h - expected[i]!)).toBeLessThan(1e-4);
      });
    }
  });

  it("samples every row and column that the path crosses", () => {
    const raster = gridRaster(1201, 3, northUp(0, 60, 1 / 1200, 1 / 1200), () => 0);
    const from = { latitudeDeg: 60, longitudeDeg: 0.1 };
    const to = { latitudeDeg: 60, longitudeDeg: 0.6 };
    const lengthM = pathLengthM(from, to);
    // Half a degree holds 600 columns.
    expect(Math.abs(lengthM / matchingStepM(member(raster), from, to, lengthM) - 600)).toBeLessThan(1e-6);
  });

  it("boxes hold what they are drawn around", () => {
    const box = pathBounds({ latitudeDeg: 60, longitudeDeg: 5 }, { latitudeDeg: 60, longitudeDeg: 15 });
    const path = pathPoints({ latitudeDeg: 60, longitudeDeg: 5 }, { latitudeDeg: 60, longitudeDeg: 15 }, 100);
    for (const lat of path.latitudeDeg) expect(lat).toBeLessThanOrEqual(box.northDeg);
    const polar = rasterBounds(101, 101, northUp(-500_000, 500_000, 10_000, 10_000), crsOfEpsg(3413)!)!;
    expect([polar.westDeg, polar.eastDeg]).toEqual([expect.closeTo(-183.6, 5), expect.closeTo(183.6, 5)]);
    expect(polar.northDeg).toBeGreaterThanOrEqual(90);
    expect(
      meetingTurns(
        polar,
        pathBounds({ latitudeDeg: 88, longitudeDeg: 100 }, { latitudeDeg: 88, longitudeDeg: 120 }),
      ),
    ).toEqual([0]);
  });
});

describe("profile", () => {
  it("has no interval wider than asked, and none more than needed", () => {
    expect(intervalsFor(1000, 100)).toBe(10);
    expect(intervalsFor(1001, 100)).toBe(11);
    expect(intervalsFor(0.3, 0.1)).toBe(3);
    expect(intervalsFor(100, 100)).toBe(2); // with ground between the ends, however short the path
    expect(intervalsFor(5, 100)).toBe(2);
    expect(intervalsFor(0, 0)).toBe(1);
    expect(intervalsFor(1e9, 1)).toBe(19_999);
  });

  it("tells gaps by reason and shares by file", () => {
    const height = Float64Array.of(1, NaN, NaN, NaN, 5, 6, 7, 8, 9, NaN);
    const origin = Int16Array.of(1, VOID, VOID, UNCOVERED, 0, 0, 0, 1, 1, UNCOVERED);
    const p = assembleProfile(900, height, origin, ["a", "b"]);
    expect(p.gaps).toEqual([
      { fromM: 100, toM: 200, reason: "void" },
      { fromM: 300, toM: 300, reason: "uncovered" },
      { fromM: 900, toM: 900, reason: "uncovered" },
    ]);
    expect(p.sources).toEqual([
      { file: "b", sharePercent: 30 },
      { file: "a", sharePercent: 30 },
    ]);
    expect(p.stepM).toBe(100);
  });
});
