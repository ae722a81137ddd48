/** Clearance of Rec. ITU-R P.530-18 section 2.2, reflection of section 6.1; the rule of heights is from memory. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { averageTerrainLoss } from "../../shared/propagation/p530/clearance.js";
import { lobeSpacing, reflectionGeometry } from "../../shared/propagation/p530/reflection.js";
import { effectiveReflection } from "../../shared/propagation/p530/reflection-coefficient.js";
import { allFinite, checkVectors, must } from "./support.js";

checkVectors("clearance", ({ inputs }) => {
  const result = must(
    averageTerrainLoss({
      distanceM: 1000 * inputs.d_km,
      obstacleDistanceM: 1000 * inputs.d1_km,
      frequencyHz: inputs.f_GHz * 1e9,
      k: inputs.k,
      rayHeightM: inputs.h_m,
    }),
  );
  const { d2Km, F1M, bulgeM, hOverF1, AdDb } = result.steps;
  expect(result.lossDb).toBe(Math.max(AdDb, 0));
  return { d2_km: d2Km, F1_m: F1M, bulge_m: bulgeM, h_over_F1: hOverF1, Ad_dB: AdDb };
});

checkVectors("reflection", ({ inputs }) => {
  const result = must(
    reflectionGeometry({
      distanceM: 1000 * inputs.d,
      frequencyHz: inputs.f * 1e9,
      k: inputs.k,
      antenna1AboveSurfaceM: inputs.h1,
      antenna2AboveSurfaceM: inputs.h2,
    }),
  );
  return {
    ...result.steps,
    d_from_higher_km: result.distanceFromHigherM / 1000,
    d_from_lower_km: result.distanceFromLowerM / 1000,
    grazing_mrad: result.grazingMrad,
    tau_wavelengths: result.pathDifferenceWavelengths,
    D: result.divergence,
  };
});

describe("clearance", () => {
  it("grazing costs 10 dB and 0.6 F1 nothing", () => {
    const path = { distanceM: 20_000, obstacleDistanceM: 10_000, frequencyHz: 7.5e9, k: 4 / 3 };
    const grazing = must(averageTerrainLoss({ ...path, rayHeightM: 0 }));
    expect(grazing.lossDb).toBe(10);
    expect(grazing.validity).toEqual([{ code: "rough-below-15-db" }]);
    const { F1M } = grazing.steps;
    const clear = must(averageTerrainLoss({ ...path, rayHeightM: 0.6 * F1M }));
    expect(clear.lossDb).toBe(0);
    expect(clear.steps.AdDb).toBeCloseTo(-2, 12);
    expect(clear.validity).toEqual([{ code: "formula-negative" }]);
    expect(must(averageTerrainLoss({ ...path, rayHeightM: -0.5 * F1M })).validity).toEqual([]);
  });
});

describe("reflection", () => {
  const path = {
    distanceM: 30_000,
    frequencyHz: 7.5e9,
    k: 4 / 3,
    antenna1AboveSurfaceM: 80,
    antenna2AboveSurfaceM: 20,
  };

  it("does not care which end is first", () => {
    const swapped = { ...path, antenna1AboveSurfaceM: 20, antenna2AboveSurfaceM: 80 };
    expect(reflectionGeometry(swapped)).toEqual(reflectionGeometry(path));
  });

  it("one lobe of height is one wavelength of path difference", () => {
    const { lobeSpacingM, bestSpacingM } = must(lobeSpacing(path));
    expect(bestSpacingM).toBeCloseTo(lobeSpacingM / 2, 12);
    const difference = (antenna1AboveSurfaceM: number) =>
      must(reflectionGeometry({ ...path, antenna1AboveSurfaceM })).pathDifferenceWavelengths;
    // By the derivative at the antenna: the lobe is the height for one wavelength at that slope.
    const slope = (difference(80.01) - difference(79.99)) / 0.02;
    expect(slope * lobeSpacingM).toBeCloseTo(1, 2);
  });

  it("refuses antennas beyond the horizon of the surface", () => {
    expect(reflectionGeometry({ ...path, distanceM: 80_000 }).ok).toBe(false);
  });

  it("the surface reflects all at grazing, and a rough one less", () => {
    const sea = {
      frequencyHz: 6.2e9,
      polarization: "horizontal" as const,
      relativePermittivity: 70,
      conductivitySPerM: 5,
      roughnessM: 0,
      divergence: 1,
    };
    expect(must(effectiveReflection({ ...sea, grazingMrad: 1e-6 })).coefficient).toBeCloseTo(1, 6);
    // Fresnel's coefficients, physics. A perfect dielectric at right angles: (n - 1)/(n + 1) with n = 2.
    const glass = { ...sea, relativePermittivity: 4, conductivitySPerM: 0, grazingMrad: 500 * Math.PI };
    expect(must(effectiveReflection(glass)).coefficient).toBeCloseTo(1 / 3, 9);
    expect(must(effectiveReflection({ ...glass, polarization: "vertical" })).coefficient).toBeCloseTo(
      1 / 3,
      9,
    );
    // Brewster's angle: tan(grazing) = 1/n.
    const brewster = { ...glass, polarization: "vertical" as const, grazingMrad: 1000 * Math.atan(1 / 2) };
    expect(must(effectiveReflection(brewster)).coefficient).toBeCloseTo(0, 9);
    const smooth = must(effectiveReflection({ ...sea, grazingMrad: 5 })).coefficient;
    expect(must(effectiveReflection({ ...sea, grazingMrad: 5, roughnessM: 1 })).coefficient).toBeLessThan(
      smooth,
    );
  });

  it("never shows NaN or Infinity, whatever comes in", () => {
    const anything = fc.oneof(fc.double(), fc.double({ min: -10, max: 1e5, noNaN: true }));
    fc.assert(
      fc.property(anything, anything, anything, anything, anything, (a, b, c, d, e) => {
        const inputs = {
          distanceM: a,
          frequencyHz: b * 1e9,
          k: c,
          antenna1AboveSurfaceM: d,
          antenna2AboveSurfaceM: e,
        };
        for (const result of [
          reflectionGeometry(inputs),
          lobeSpacing(inputs),
          averageTerrainLoss({
            distanceM: a,
            obstacleDistanceM: b,
            frequencyHz: c * 1e9,
            k: d,
            rayHeightM: e,
          }),
          effectiveReflection({
            frequencyHz: a * 1e9,
            grazingMrad: b,
            polarization: "vertical",
            relativePermittivity: c,
            conductivitySPerM: d,
            roughnessM: e,
            divergence: 1,
          }),
        ]) {
          expect(allFinite(result)).toBe(true);
        }
      }),
      { numRuns: 2000 },
    );
  });
});
