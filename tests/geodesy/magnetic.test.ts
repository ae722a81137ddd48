/** Magnetic declination against the values that are published with the model (`vectors/geodesy/magnetic.json`). */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { decimalYear } from "../../shared/design/day.js";
import { MAGNETIC_YEARS, magneticField } from "../../shared/geodesy/magnetic.js";
import { WMM2025 } from "../../shared/geodesy/wmm2025.data.js";

const vectors = JSON.parse(
  readFileSync(join(import.meta.dirname, "../vectors/geodesy/magnetic.json"), "utf8"),
) as {
  readonly rows: readonly (readonly number[])[];
  readonly reportExample: Readonly<Record<string, number>>;
  readonly points: readonly (Readonly<Record<string, number>> & { readonly name: string })[];
};

test("there are all coefficients of degree 12", () => {
  expect(WMM2025).toHaveLength(90);
  expect(WMM2025.every(([n, m]) => m <= n && n <= 12)).toBe(true);
});

test("the 100 published rows", () => {
  expect(vectors.rows).toHaveLength(100);
  for (const row of vectors.rows) {
    const [year, heightKm, latitudeDeg, longitudeDeg, declination, inclination, h, y, z] = row as number[];
    const found = magneticField(
      { latitudeDeg: latitudeDeg!, longitudeDeg: longitudeDeg! },
      1000 * heightKm!,
      year!,
    )!;
    const name = row.slice(0, 4).join(" ");
    // Printed to two decimals.
    expect(Math.abs(found.declinationDeg - declination!), name).toBeLessThanOrEqual(0.00501);
    expect(Math.abs(found.inclinationDeg - inclination!), name).toBeLessThanOrEqual(0.00501);
    expect(Math.abs(found.declinationDeg - row.at(-1)!), name).toBeLessThan(1e-5);
    // The file's own residue is 7.2e-4 nT.
    expect(Math.abs(found.horizontalNt - h!), name).toBeLessThan(0.001);
    expect(Math.abs(found.eastNt - y!), name).toBeLessThan(1e-5);
    expect(Math.abs(found.downNt - z!), name).toBeLessThan(1e-4);
  }
});

test("the worked example of the technical report, to its last digits", () => {
  const {
    decimalYear: year,
    heightKm,
    latitudeDeg,
    longitudeDeg,
    northNT,
    eastNT,
    downNT,
  } = vectors.reportExample as Record<string, number>;
  const found = magneticField(
    { latitudeDeg: latitudeDeg!, longitudeDeg: longitudeDeg! },
    1000 * heightKm!,
    year!,
  )!;
  expect(found.northNt).toBeCloseTo(northNT!, 7);
  expect(found.eastNt).toBeCloseTo(eastNT!, 7);
  expect(found.downNt).toBeCloseTo(downNT!, 7);
});

test.each(vectors.points)("$name", (point) => {
  const {
    latitudeDeg,
    longitudeDeg,
    heightKm,
    decimalYear: year,
    declinationDeg,
  } = point as never as Record<string, number>;
  const found = magneticField(
    { latitudeDeg: latitudeDeg!, longitudeDeg: longitudeDeg! },
    1000 * heightKm!,
    year!,
  )!;
  expect(found.declinationDeg).toBeCloseTo(declinationDeg!, 5);
});

describe("what it cannot say", () => {
  const place = { latitudeDeg: 46, longitudeDeg: 8 };

  test("is left out outside its years", () => {
    expect(magneticField(place, 0, MAGNETIC_YEARS.from - 0.001)).toBeUndefined();
    expect(magneticField(place, 0, MAGNETIC_YEARS.from)).toBeDefined();
    expect(magneticField(place, 0, 2029.999)).toBeDefined();
    expect(magneticField(place, 0, MAGNETIC_YEARS.to)).toBeUndefined();
  });

  test("is refused where there is no place", () => {
    expect(() => magneticField({ latitudeDeg: 90.1, longitudeDeg: 0 }, 0, 2026)).toThrow(RangeError);
    expect(() => magneticField({ latitudeDeg: Number.NaN, longitudeDeg: 0 }, 0, 2026)).toThrow(RangeError);
    expect(() => magneticField(place, 0, Number.NaN)).toThrow(RangeError);
  });

  test("is a figure everywhere else, the same a turn of the Earth further, smooth from place to place", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -90, max: 90, noNaN: true }),
        fc.double({ min: -180, max: 180, noNaN: true }),
        fc.double({ min: 2025, max: 2029.99, noNaN: true }),
        (latitudeDeg, longitudeDeg, year) => {
          const at = (lat: number, lon: number) =>
            magneticField({ latitudeDeg: lat, longitudeDeg: lon }, 100, year)!;
          const found = at(latitudeDeg, longitudeDeg);
          for (const value of Object.values(found)) expect(Number.isFinite(value)).toBe(true);
          expect(at(latitudeDeg, longitudeDeg + 360).downNt).toBeCloseTo(found.downNt, 4);
          const near = at(Math.max(-90, latitudeDeg - 0.001), longitudeDeg);
          expect(Math.abs(near.horizontalNt - found.horizontalNt)).toBeLessThan(10);
        },
      ),
      { numRuns: 300 },
    );
  });
});

test("a day is a part of its year", () => {
  expect(decimalYear("2026-01-01")).toBe(2026);
  expect(decimalYear("2026-07-02")).toBeCloseTo(2026 + 182 / 365, 12);
  expect(decimalYear("2028-12-31")).toBeCloseTo(2028 + 365 / 366, 12);
});
