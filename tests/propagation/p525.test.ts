import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { slantDistanceM } from "../../shared/geodesy/elevation.js";
import { freeSpaceLossDb } from "../../shared/propagation/p525.js";
import { loadVectors, testRows } from "../support/vectors.js";

interface Vectors {
  referenceLogs: {
    source: string;
    cases: {
      fGHz: number;
      pathLengthKm: number;
      heightDifferenceM: number;
      straightDistanceKm: number;
      "lossDb_92.4": number;
      lossDb_exact: number;
    }[];
  };
  exact: { source: string; cases: { fGHz: number; distanceKm: number; lossDb: number }[] };
}
const vectors = loadVectors<Vectors>("propagation/p525.json");
/** Digits of a double: the vectors are computed from the same definition. */
const DOUBLE = { relative: 1e-12 };

describe("P.525 free space", () => {
  testRows(
    "published results, straight distance included",
    vectors.referenceLogs.source,
    vectors.referenceLogs.cases,
    (row, is) => {
      const distanceM = slantDistanceM(row.pathLengthKm * 1000, 0, row.heightDifferenceM);
      is.close("straight distance, km", distanceM / 1000, row.straightDistanceKm, DOUBLE);
      const lossDb = freeSpaceLossDb(distanceM, row.fGHz * 1e9);
      is.close("loss", lossDb, row.lossDb_exact, DOUBLE);
      // The logs print 7 to 9 digits and use the rounded constant 92.4 for 92.44778...
      is.close("loss with the printed constant", lossDb - 0.04778322188337, row["lossDb_92.4"], {
        absolute: 1e-6,
      });
    },
  );

  testRows("exact form", vectors.exact.source, vectors.exact.cases, (row, is) => {
    is.close("loss", freeSpaceLossDb(row.distanceKm * 1000, row.fGHz * 1e9), row.lossDb, DOUBLE);
  });

  test("twice the distance costs 6.02 dB, at any frequency", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 3e5, noNaN: true }),
        fc.double({ min: 1e8, max: 1e12, noNaN: true }),
        (d, f) => {
          expect(freeSpaceLossDb(2 * d, f) - freeSpaceLossDb(d, f)).toBeCloseTo(20 * Math.log10(2), 9);
          expect(freeSpaceLossDb(d, 2 * f)).toBeCloseTo(freeSpaceLossDb(2 * d, f), 9);
        },
      ),
    );
  });

  test.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY])("refuses the distance %s", (distanceM) => {
    expect(() => freeSpaceLossDb(distanceM, 7e9)).toThrow(RangeError);
    expect(() => freeSpaceLossDb(1000, distanceM)).toThrow(RangeError);
  });
});
