import { describe, expect, test } from "vitest";
import { liquidWaterCoefficient, specificFogAttenuationDbPerKm } from "../../shared/propagation/p840.js";
import { loadVectors, testRows } from "../support/vectors.js";

interface Vectors {
  permittivity: {
    source: string;
    cases: {
      fGHz: number;
      temperatureK: number;
      epsPrime: number;
      epsDoublePrime: number;
      eta: number;
      KL: number;
    }[];
  };
  specificAttenuation: { source: string; columns: string[]; rows: number[][] };
}
const vectors = loadVectors<Vectors>("propagation/p840.json");
/** The examples carry 15 digits. */
const PRINTED = { relative: 1e-13 };

describe("P.840 fog", () => {
  testRows("permittivity of water", vectors.permittivity.source, vectors.permittivity.cases, (row, is) => {
    const f = row.fGHz;
    const found = liquidWaterCoefficient({ frequencyHz: f * 1e9, temperatureK: row.temperatureK });
    is.close("eps'", found.epsPrime, row.epsPrime, PRINTED);
    is.close("eps''", found.epsDoublePrime, row.epsDoublePrime, PRINTED);
    is.close("eta", found.eta, row.eta, PRINTED);
    // The mass absorption coefficient of P.840-9 eq (12), for slant paths, is built on Kl.
    const first = 0.1522 * Math.exp(-((f + 23.9589) ** 2) / 3299.1);
    const second = 11.51 * Math.exp(-((f - 219.2096) ** 2) / 2.7595e6);
    is.close("KL", found.coefficient * (first + second - 10.4912), row.KL, PRINTED);
  });

  testRows(
    "specific attenuation",
    vectors.specificAttenuation.source,
    vectors.specificAttenuation.rows,
    (row, is) => {
      const value = (column: string) => row[vectors.specificAttenuation.columns.indexOf(column)]!;
      const fog = { frequencyHz: value("fGHz") * 1e9, temperatureK: value("temperatureK") };
      is.close("Kl", liquidWaterCoefficient(fog).coefficient, value("Kl_dBperKm_per_gm3"), PRINTED);
      for (const liquidWaterGm3 of [0.05, 0.5]) {
        const gamma = specificFogAttenuationDbPerKm(fog, liquidWaterGm3);
        is.close("gamma", gamma, value(`gamma_dBperKm_at_${liquidWaterGm3}_gm3`), PRINTED);
      }
      is.close("eps'", liquidWaterCoefficient(fog).epsPrime, value("epsPrime"), PRINTED);
      is.close("eps''", liquidWaterCoefficient(fog).epsDoublePrime, value("epsDoublePrime"), PRINTED);
    },
  );

  test("no water, no attenuation; nonsense is refused", () => {
    const fog = { frequencyHz: 80e9, temperatureK: 280 };
    expect(specificFogAttenuationDbPerKm(fog, 0)).toBe(0);
    expect(() => specificFogAttenuationDbPerKm(fog, -1)).toThrow(RangeError);
    expect(() => liquidWaterCoefficient({ ...fog, temperatureK: 0 })).toThrow(RangeError);
  });
});
