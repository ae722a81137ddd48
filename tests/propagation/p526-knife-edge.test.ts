import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fresnelRadiusM, knifeEdgeLossDb } from "../../shared/propagation/p526/index.js";
import { loadVectors, testRows } from "../support/vectors.js";
import { fresnelIntegrals, knifeEdgeLossExactDb } from "./exact-knife-edge.js";

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
    const radiusM = fresnelRadiusM(row.d1Km * 1000, row.d2Km * 1000, row.fGHz * 1e9);
    is.close("R1", radiusM, row.firstFresnelRadiusM, DOUBLE);
    is.close("c/R1", -row.hM / radiusM, row.clearanceRatio, DOUBLE);
    const v = (Math.SQRT2 * row.hM) / radiusM;
    is.close("v", v, row.nu, DOUBLE);
    is.close("loss", knifeEdgeLossDb(v), row.lossApproxDb, { absolute: 1e-11 });
    is.close("exact loss", knifeEdgeLossExactDb(v), row.lossExactDb, { absolute: 1e-11 });
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
});
