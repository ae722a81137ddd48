import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { gasAttenuationDb, lineByLine, specificGasAttenuation } from "../../shared/propagation/p676.js";
import { referenceAtmosphere } from "../../shared/propagation/p835.js";
import { loadVectors, testRows } from "../support/vectors.js";

interface Air {
  fGHz: number;
  dryPressureHPa: number;
  vapourPressureHPa: number;
  temperatureK: number;
  waterVapourDensityGm3: number;
  gammaOxygenDbPerKm: number;
  gammaVapourDbPerKm: number;
}
interface Vectors {
  specificAttenuation: { source: string; conditions: Omit<Air, "fGHz">; rows: [number, number, number][] };
  intermediate: { source: string; cases: (Air & { oxygenN2: number; vapourN2: number })[] };
  instantaneous: { source: string; cases: (Air & { totalPressureHPa: number })[] };
  atmosphereLayers: { source: string; rows: number[][] };
  terrestrialPath: {
    source: string;
    cases: (Air & { totalPressureHPa: number; pathLengthKm: number; attenuationDb: number })[];
  };
}
const vectors = loadVectors<Vectors>("propagation/p676.json");
/** The examples carry 15 digits. */
const PRINTED = { relative: 1e-13 };

describe("P.676 specific attenuation", () => {
  const { conditions } = vectors.specificAttenuation;
  testRows(
    "1 to 350 GHz",
    vectors.specificAttenuation.source,
    vectors.specificAttenuation.rows,
    (row, is) => {
      const [frequencyGHz, oxygen, vapour] = row;
      const found = lineByLine({ ...conditions, frequencyHz: frequencyGHz * 1e9 });
      is.close("oxygen", found.oxygenDbPerKm, oxygen, PRINTED);
      is.close("vapour", found.waterVapourDbPerKm, vapour, PRINTED);
      is.close("total", found.totalDbPerKm, oxygen + vapour, PRINTED);
    },
  );

  testRows("imaginary refractivity", vectors.intermediate.source, vectors.intermediate.cases, (row, is) => {
    const found = lineByLine({ ...row, frequencyHz: row.fGHz * 1e9 });
    is.close("oxygen", found.oxygenDbPerKm, row.gammaOxygenDbPerKm, PRINTED);
    is.close("vapour", found.waterVapourDbPerKm, row.gammaVapourDbPerKm, PRINTED);
    // N'' = gamma/(0.182 f), eq (1).
    is.close("N'' oxygen", found.oxygenDbPerKm / (0.182 * row.fGHz), row.oxygenN2, PRINTED);
    is.close("N'' vapour", found.waterVapourDbPerKm / (0.182 * row.fGHz), row.vapourN2, PRINTED);
  });

  testRows("from total pressure", vectors.instantaneous.source, vectors.instantaneous.cases, (row, is) => {
    const { fGHz, totalPressureHPa, temperatureK, waterVapourDensityGm3 } = row;
    const air = {
      frequencyHz: fGHz * 1e9,
      pressureHPa: totalPressureHPa,
      temperatureK,
      waterVapourDensityGm3,
    };
    const found = specificGasAttenuation(air);
    is.close("oxygen", found.oxygenDbPerKm, row.gammaOxygenDbPerKm, PRINTED);
    is.close("vapour", found.waterVapourDbPerKm, row.gammaVapourDbPerKm, PRINTED);
    is.same("remembered", specificGasAttenuation({ ...air }), found);
  });

  testRows(
    "0 to 100 km, 28 GHz",
    vectors.atmosphereLayers.source,
    vectors.atmosphereLayers.rows,
    (row, is) => {
      const [, , temperatureK, , dryPressureHPa, vapourPressureHPa, , oxygen, vapour] = row as [
        number,
        number,
        number,
        number,
        number,
        number,
        number,
        number,
        number,
      ];
      const found = lineByLine({ frequencyHz: 28e9, dryPressureHPa, vapourPressureHPa, temperatureK });
      is.close("oxygen", found.oxygenDbPerKm, oxygen, PRINTED);
      is.close("vapour", found.waterVapourDbPerKm, vapour, PRINTED);
    },
  );

  testRows("terrestrial path", vectors.terrestrialPath.source, vectors.terrestrialPath.cases, (row, is) => {
    const { fGHz, totalPressureHPa, temperatureK, waterVapourDensityGm3 } = row;
    const air = {
      frequencyHz: fGHz * 1e9,
      pressureHPa: totalPressureHPa,
      temperatureK,
      waterVapourDensityGm3,
    };
    is.close("loss", gasAttenuationDb(air, row.pathLengthKm * 1000), row.attenuationDb, PRINTED);
  });

  test("positive and finite from 1 to 350 GHz in any weather", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 350, noNaN: true }),
        fc.double({ min: 400, max: 1080, noNaN: true }),
        fc.double({ min: 230, max: 320, noNaN: true }),
        fc.double({ min: 0, max: 30, noNaN: true }),
        (frequencyGHz, pressureHPa, temperatureK, waterVapourDensityGm3) => {
          const found = specificGasAttenuation({
            frequencyHz: frequencyGHz * 1e9,
            pressureHPa,
            temperatureK,
            waterVapourDensityGm3,
          });
          expect(found.oxygenDbPerKm).toBeGreaterThan(0);
          expect(found.waterVapourDbPerKm).toBeGreaterThanOrEqual(0);
          expect(found.totalDbPerKm).toBeLessThan(1000);
        },
      ),
    );
  });

  test("the memory is bounded and does not change an answer", () => {
    const { pressureHPa, temperatureK, waterVapourDensityGm3 } = referenceAtmosphere(300);
    const air = { pressureHPa, temperatureK, waterVapourDensityGm3 };
    const first = specificGasAttenuation({ ...air, frequencyHz: 23e9 });
    // More than the memory holds: the first entry is forgotten, and computed anew to the same figures.
    for (let i = 0; i < 5000; i++) specificGasAttenuation({ ...air, frequencyHz: 30 + i * 0.01 * 1e9 });
    const again = specificGasAttenuation({ ...air, frequencyHz: 23e9 });
    expect(again).toEqual(first);
    expect(again).not.toBe(first);
  });

  test("dry air has no vapour attenuation; impossible air is refused; the range is noted", () => {
    const air = { frequencyHz: 23e9, pressureHPa: 1000, temperatureK: 288, waterVapourDensityGm3: 0 };
    expect(specificGasAttenuation(air).waterVapourDbPerKm).toBe(0);
    expect(() => specificGasAttenuation({ ...air, waterVapourDensityGm3: 1000 })).toThrow(RangeError);
    expect(() => specificGasAttenuation({ ...air, frequencyHz: 0e9 })).toThrow(RangeError);
    expect(() => specificGasAttenuation({ ...air, temperatureK: Number.NaN })).toThrow(RangeError);
  });
});
