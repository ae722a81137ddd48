import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  fresnelIntegrals,
  fresnelRadiusM,
  knifeEdge,
  knifeEdgeLossDb,
  knifeEdgeLossExactDb,
  roundedObstacle,
} from "../../shared/propagation/p526/index.js";
import { loadVectors, testRows } from "../support/vectors.js";

interface Vectors {
  J: { source: string; rows: [number, number, number][] };
  fresnelIntegrals: { source: string; rows: [number, number, number][] };
  obstacles: {
    source: string;
    cases: {
      fGHz: number;
      d1Km: number;
      d2Km: number;
      hM: number;
      firstFresnelRadiusM: number;
      clearanceRatio: number;
      nu: number;
      lossApproxDb: number;
      lossExactDb: number;
    }[];
  };
}
const vectors = loadVectors<Vectors>("propagation/p526-knife-edge.json");
const DOUBLE = { relative: 1e-12 };

describe("P.526 knife edge", () => {
  testRows("J(v)", vectors.J.source, vectors.J.rows, ([v, exact, approximate], is) => {
    // Near v = -0.78 J is about 0, so the digits are counted in dB.
    is.close("exact", knifeEdgeLossExactDb(v), exact, { absolute: 1e-11 });
    is.close("approximate", knifeEdgeLossDb(v), approximate, { absolute: 1e-12 });
  });

  testRows(
    "Fresnel integrals",
    vectors.fresnelIntegrals.source,
    vectors.fresnelIntegrals.rows,
    ([v, C, S], is) => {
      const plus = fresnelIntegrals(v);
      is.close("C", plus.cosine, C, { absolute: 1e-13 });
      is.close("S", plus.sine, S, { absolute: 1e-13 });
      const minus = fresnelIntegrals(-v);
      is.same("C is odd", minus.cosine, -plus.cosine);
      is.same("S is odd", minus.sine, -plus.sine);
    },
  );

  testRows("obstacles", vectors.obstacles.source, vectors.obstacles.cases, (row, is) => {
    const edge = { heightM: row.hM, d1M: row.d1Km * 1000, d2M: row.d2Km * 1000, frequencyHz: row.fGHz * 1e9 };
    const found = knifeEdge(edge);
    is.close("R1", found.firstFresnelRadiusM, row.firstFresnelRadiusM, DOUBLE);
    is.close("c/R1", found.clearanceRatio, row.clearanceRatio, DOUBLE);
    is.close("v", found.v, row.nu, DOUBLE);
    is.close("loss", found.lossDb, row.lossApproxDb, { absolute: 1e-11 });
    is.close("exact loss", knifeEdgeLossExactDb(found.v), row.lossExactDb, { absolute: 1e-11 });
  });

  test("the loss rises with v above -0.78 and the forms stay within 0.13 dB up to v = 5", () => {
    const v = fc.double({ min: -0.78, max: 5, noNaN: true });
    fc.assert(
      fc.property(v, v, (a, b) => {
        if (a < b) expect(knifeEdgeLossDb(a)).toBeLessThanOrEqual(knifeEdgeLossDb(b));
        expect(Math.abs(knifeEdgeLossDb(a) - knifeEdgeLossExactDb(a))).toBeLessThan(0.13);
      }),
    );
  });

  test("the loss is continuous where the approximate form starts, and finite far out", () => {
    expect(knifeEdgeLossDb(-0.78)).toBe(0);
    expect(knifeEdgeLossDb(-0.78 + 1e-9)).toBeLessThan(0.02);
    for (const v of [-1e6, 1e6]) {
      expect(Number.isFinite(knifeEdgeLossDb(v))).toBe(true);
      expect(Number.isFinite(knifeEdgeLossExactDb(v))).toBe(true);
    }
  });

  test("refuses lengths and frequencies that are not positive", () => {
    const edge = { heightM: 1, d1M: 1000, d2M: 1000, frequencyHz: 7e9 };
    expect(() => knifeEdge({ ...edge, d1M: 0 })).toThrow(RangeError);
    expect(() => knifeEdge({ ...edge, frequencyHz: -1 })).toThrow(RangeError);
    expect(() => knifeEdge({ ...edge, heightM: Number.NaN })).toThrow(RangeError);
    expect(() => fresnelRadiusM(0, 0, 7e9)).toThrow(RangeError);
    expect(fresnelRadiusM(0, 1000, 7e9)).toBe(0);
  });
});

describe("P.526 rounded obstacle (formula unconfirmed)", () => {
  const edge = { heightM: 20, d1M: 5000, d2M: 8000, frequencyHz: 7e9 };

  test("no curvature is the knife edge, and every answer says that the formula is unconfirmed", () => {
    const sharp = roundedObstacle(edge, 0);
    expect(sharp.lossDb).toBe(knifeEdge(edge).lossDb);
    expect(sharp.notes[0]).toMatch(/not checked/);
    // T goes as the square root of m, m as R^(2/3): a tenth of a millimetre adds little.
    expect(roundedObstacle(edge, 1e-4).lossDb - sharp.lossDb).toBeLessThan(0.1);
  });

  test("the two branches meet within 0.1 dB at m n = 4", () => {
    // At m n = 4 the branches differ by -6 - 20 log 4 + 4.5 * 4 = -0.04 dB whatever m is.
    // Here m n = 0.0171 h, so the step from one branch to the other lies at h = 234 m.
    const lossAt = (heightM: number) => roundedObstacle({ ...edge, heightM }, 2000).lossDb;
    for (let heightM = 230; heightM < 240; heightM += 0.1) {
      expect(Math.abs(lossAt(heightM + 0.1) - lossAt(heightM))).toBeLessThan(0.1);
    }
  });

  test("a vertex below the line is answered as a knife edge, with a note", () => {
    const below = roundedObstacle({ ...edge, heightM: -5 }, 50);
    expect(below.lossDb).toBe(knifeEdge({ ...edge, heightM: -5 }).lossDb);
    expect(below.notes).toHaveLength(2);
  });
});
