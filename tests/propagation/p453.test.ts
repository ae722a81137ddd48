import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { earthBulgeM } from "../../shared/propagation/earth.js";
import {
  effectiveEarthRadiusFactor,
  refractiveIndex,
  refractivity,
  saturationPressureHPa,
  vapourPressureHPa,
} from "../../shared/propagation/p453.js";
import { loadVectors, testRows } from "../support/vectors.js";

interface Vectors {
  refractiveIndex: { source: string; rows: [number, number, number, number][] };
  humidity: {
    source: string;
    cases: {
      temperatureC: number;
      totalPressureHPa: number;
      relativeHumidityPercent: number;
      vapourPressureHPa: number;
      waterVapourDensityGm3: number;
    }[];
  };
  formulaChecks: {
    source: string;
    cases: {
      temperatureC: number;
      totalPressureHPa: number;
      relativeHumidityPercent: number;
      saturationPressureWaterHPa: number | null;
      saturationPressureIceHPa: number | null;
      vapourPressureHPa: number;
      N: number;
      Ndry: number;
      Nwet: number;
    }[];
  };
  kFactor: {
    source: string;
    cases: { gradientNPerKm: number; k: number | null; effectiveRadiusKm: number | null }[];
    referenceLogs: { deltaN: number; effectiveRadiusKm: number; source: string }[];
  };
}
const vectors = loadVectors<Vectors>("propagation/p453.json");
/** The examples carry 15 to 16 digits. */
const DOUBLE = { relative: 1e-13 };

describe("P.453 refractivity and humidity", () => {
  testRows("refractive index", vectors.refractiveIndex.source, vectors.refractiveIndex.rows, (row, is) => {
    const [dryPressureHPa, vapourPressureHPa, temperatureK, expected] = row;
    // n is printed to 16 digits, which leaves 1e-9 N-units of n - 1.
    is.close("n", refractiveIndex({ dryPressureHPa, vapourPressureHPa, temperatureK }), expected, {
      absolute: 1e-15,
    });
  });

  testRows("humidity", vectors.humidity.source, vectors.humidity.cases, (row, is) => {
    const e = vapourPressureHPa(row.relativeHumidityPercent, row.temperatureC, row.totalPressureHPa);
    is.close("e", e, row.vapourPressureHPa, DOUBLE);
  });

  testRows(
    "dry and wet terms, water and ice",
    vectors.formulaChecks.source,
    vectors.formulaChecks.cases,
    (row, is) => {
      const { temperatureC: t, totalPressureHPa: P, relativeHumidityPercent: H } = row;
      const over = row.saturationPressureWaterHPa === null ? "ice" : "water";
      if (row.saturationPressureWaterHPa !== null) {
        is.close("es over water", saturationPressureHPa(t, P), row.saturationPressureWaterHPa, DOUBLE);
      }
      if (row.saturationPressureIceHPa !== null) {
        is.close("es over ice", saturationPressureHPa(t, P, "ice"), row.saturationPressureIceHPa, DOUBLE);
      }
      const e = vapourPressureHPa(H, t, P, over);
      is.close("e", e, row.vapourPressureHPa, DOUBLE);
      const N = refractivity({ dryPressureHPa: P - e, vapourPressureHPa: e, temperatureK: t + 273.15 });
      is.close("N", N.total, row.N, DOUBLE);
      is.close("Nd", N.dry, row.Ndry, DOUBLE);
      is.close("Nw", N.wet, row.Nwet, DOUBLE);
    },
  );
});

describe("P.453 effective Earth radius", () => {
  testRows("k of a gradient", vectors.kFactor.source, vectors.kFactor.cases, (row, is) => {
    const found = effectiveEarthRadiusFactor(row.gradientNPerKm);
    if (row.k === null) {
      is.same("branch", found.branch, "flat");
      is.same("k", found.k, undefined);
    } else {
      is.close("k", found.k, row.k, DOUBLE);
      is.close("radius, km", found.k! * 6371, row.effectiveRadiusKm!, DOUBLE);
    }
  });

  testRows("logged radii", vectors.kFactor.source, vectors.kFactor.referenceLogs, (row, is) => {
    // Printed to 1e-6 km; the lapse itself to 1e-6 N/km, which moves the radius by up to 1e-4 km.
    const radiusKm = effectiveEarthRadiusFactor(-row.deltaN).k! * 6371;
    is.close("radius, km", radiusKm, row.effectiveRadiusKm, { absolute: 5e-5 });
  });

  test.each([
    [40, "sub-refraction"],
    [0, "ordinary"],
    [-39.25, "ordinary"],
    [-100, "super-refraction"],
    [-157, "flat"],
    [-157.0001, "ducting"],
  ])("gradient %s N/km is %s", (gradient, branch) => {
    expect(effectiveEarthRadiusFactor(gradient).branch).toBe(branch);
  });

  test("the bulge is symmetric, and largest in the middle", () => {
    const metres = fc.double({ min: 1, max: 1e5, noNaN: true });
    fc.assert(
      fc.property(metres, metres, (d1, d2) => {
        expect(earthBulgeM(d1, d2, 4 / 3)).toBe(earthBulgeM(d2, d1, 4 / 3));
        const half = (d1 + d2) / 2;
        expect(earthBulgeM(d1, d2, 4 / 3)).toBeLessThanOrEqual(earthBulgeM(half, half, 4 / 3) * (1 + 1e-12));
      }),
    );
    // d1 d2/(12.74 k) m with km, the form in common use.
    expect(earthBulgeM(10_000, 20_000, 4 / 3)).toBeCloseTo(200 / (12.742 * (4 / 3)), 10);
    expect(earthBulgeM(10_000, 20_000, Number.POSITIVE_INFINITY)).toBe(0);
  });
});
