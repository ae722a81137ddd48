import fc from "fast-check";
import { expect, test } from "vitest";
import { clearanceFor } from "../../shared/evaluate/clearance.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { profileSummary } from "../../shared/evaluate/profile.js";
import { loadVectors, testRows } from "../support/vectors.js";
import {
  end,
  groundOf,
  KELD,
  levelGround,
  makeHop,
  reversed,
  reversedGround,
  TARN,
  TRUNK,
} from "./builders.js";

interface PathVector {
  readonly id: string;
  readonly lengthM: number;
  readonly antennaHeightAboveGroundM: readonly [number, number];
  readonly frequencyGHz: number;
  readonly groundEnd1M: number;
  readonly groundEnd2M: number;
  readonly meanElevationM: number;
  readonly worstClearanceOverF1: Readonly<Record<string, number>>;
  readonly pathBlocked: boolean;
  readonly elevationM: readonly (number | null)[];
}

const VECTORS = loadVectors<{ source: string; toleranceM: number; paths: PathVector[] }>(
  "evaluate/profiles.json",
);

testRows("critical points of real profiles", VECTORS.source, VECTORS.paths, (row, is) => {
  const profile = groundOf(row.elevationM, row.lengthM).profile!;
  const path = {
    distanceM: row.lengthM,
    antennaAslM: [
      row.groundEnd1M + row.antennaHeightAboveGroundM[0],
      row.groundEnd2M + row.antennaHeightAboveGroundM[1],
    ] as const,
    groundM: [row.groundEnd1M, row.groundEnd2M] as const,
    frequencyHz: row.frequencyGHz * 1e9,
  };
  const found = clearanceFor({ kFactor: 4 / 3, fresnelFraction: 0.6 }, path, profile, [])!;
  const worst = row.worstClearanceOverF1;
  // Printed to 1e-4 m; heights to 1e-4 m too. The source itself asks for 0.02 m only.
  is.close("clearance", found.clearanceM, worst.clearanceM!, { absolute: 3e-4 });
  is.close("Fresnel radius", found.fresnelRadiusM, worst.firstFresnelRadiusM!, { absolute: 1e-4 });
  is.close("fraction", found.fraction, worst.clearanceOverF1!, { absolute: 1e-4 });
  is.close("place", found.distanceM, worst.distanceM!, { absolute: 0.001 });
  is.close("height there", found.obstacleM, worst.elevationM!, { absolute: 1e-4 });
  is.same("blocked", found.fraction < 0, row.pathBlocked);
  is.close("mean height", profileSummary(profile, "terrain").meanM, row.meanElevationM, { absolute: 1e-3 });
});

const LENGTH_M = evaluateHop(makeHop(), levelGround(9000)).distanceM!;

test("a hill in the middle, by hand", () => {
  const hop = makeHop({ objective: { ...TRUNK, clearance: [{ fresnelFraction: 1, kFactor: 1 }] } });
  const [found] = evaluateHop(hop, levelGround(LENGTH_M, 34)).clearance;
  // Ray at 240 m; top 234 m; bulge d1 d2/(2 k a); F1 of the lower frequency, 17.92 GHz (geometry, P.526 section 2.1).
  const half = LENGTH_M / 2;
  const bulgeM = (half * half) / (2 * 6_371_000);
  const radiusM = Math.sqrt(((299_792_458 / 17.92e9) * half * half) / LENGTH_M);
  expect(found!.clearanceM).toBeCloseTo(6 - bulgeM, 9);
  expect(found!.fresnelRadiusM).toBeCloseTo(radiusM, 9);
  expect(found!.ok).toBe((6 - bulgeM) / radiusM >= 1);
  expect(found!.ok).toBe(false);
  // Half of an end's raise arrives in the middle.
  const lackM = radiusM - (6 - bulgeM);
  expect(found!.heightNeededM[0]).toBeCloseTo(40 + 2 * lackM, 6);
  expect(found!.heightNeededM[1]).toBeCloseTo(40 + 2 * lackM, 6);
});

test("the height asked for is enough, a little less is not", () => {
  fc.assert(
    fc.property(profileHeights(), fc.double({ min: 0.5, max: 2, noNaN: true }), (heights, kFactor) => {
      const criterion = { fresnelFraction: 0.6, kFactor };
      const objective = { ...TRUNK, clearance: [criterion] };
      const ground = groundOf(heights, LENGTH_M);
      const at = (antennaHeightM: number) => {
        const hop = makeHop({ objective, ends: [end(KELD, "high", { antennaHeightM }), end(TARN, "low")] });
        return evaluateHop(hop, ground).clearance[0]!;
      };
      const needed = at(40).heightNeededM[0];
      fc.pre(needed !== undefined && needed > 0.1);
      expect(at(needed! + 1e-6).ok).toBe(true);
      expect(at(needed! - 1e-3).ok).toBe(false);
    }),
  );
});

test("the same clearance from either end", () => {
  fc.assert(
    fc.property(profileHeights(), (heights) => {
      const ground = groundOf(heights, LENGTH_M);
      const hop = makeHop({ obstacles: [{ title: "spruce", heightM: 14, distanceM: 3210 }] });
      const there = evaluateHop(hop, ground);
      const back = evaluateHop(reversed(hop, LENGTH_M), reversedGround(ground));
      for (const [i, one] of there.clearance.entries()) {
        expect(back.clearance[i]!.fraction).toBeCloseTo(one.fraction, 6);
        expect(back.clearance[i]!.ok).toBe(one.ok);
      }
      expect(back.diffractionLossDb).toBeCloseTo(there.diffractionLossDb!, 6);
    }),
  );
});

test("an obstacle stands on the ground between two samples", () => {
  const hop = makeHop({ obstacles: [{ title: "crane", heightM: 25, distanceM: 3210 }] });
  const result = evaluateHop(hop, levelGround(LENGTH_M));
  expect(result.clearance[0]).toMatchObject({ obstacle: "crane", distanceM: 3210, obstacleM: 225 });
});

test("an unknown stretch is never clear, and the rest is judged", () => {
  const heights = Array.from({ length: 101 }, (_, i): number | null => (i > 40 && i < 60 ? null : 200));
  const result = evaluateHop(makeHop(), groundOf(heights, LENGTH_M));
  expect(result.profile!.gaps).toHaveLength(1);
  expect(result.notes.join(" ")).toContain("known part of the profile only");
  const nothing = evaluateHop(
    makeHop(),
    groundOf(
      heights.map(() => null),
      LENGTH_M,
    ),
  );
  expect(nothing.clearance).toEqual([]);
});

test("close to an antenna the ratio stays finite and its sign tells a blocked ray", () => {
  const near = makeHop({ obstacles: [{ title: "fence", heightM: 41, distanceM: 1e-9 }] });
  const found = evaluateHop(near, levelGround(LENGTH_M)).clearance[0]!;
  expect(found.fraction).toBeCloseTo(-10, 6); // 1 m above the ray over the least radius of 0.1 m
});

test("k = 4/3 is shown for information when the objective asks for others", () => {
  const objective = { ...TRUNK, clearance: [{ fresnelFraction: 0.3, kFactor: 0.7 }] };
  const results = evaluateHop(makeHop({ objective }), levelGround(LENGTH_M)).clearance;
  expect(results.map(({ forInformation }) => forInformation)).toEqual([undefined, true]);
});

function profileHeights() {
  return fc.array(fc.double({ min: 150, max: 260, noNaN: true }), { minLength: 20, maxLength: 60 });
}
