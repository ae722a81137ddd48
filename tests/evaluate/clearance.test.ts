import fc from "fast-check";
import { expect, test } from "vitest";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { clearanceFor } from "../../shared/evaluate/path/clearance.js";
import { profileSummary } from "../../shared/evaluate/path/profile.js";
import { deltaBullington } from "../../shared/propagation/p526/index.js";
import { loadVectors, testRows } from "../support/vectors.js";
import {
  ANTENNA,
  end,
  groundOf,
  KELD,
  lacksTold,
  levelGround,
  makeHop,
  notesTold,
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
  is.close("mean height", profileSummary(profile, "terrain", []).meanM, row.meanElevationM, {
    absolute: 1e-3,
  });
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
  expect(found!.verdict).toBe((6 - bulgeM) / radiusM >= 1 ? "met" : "missed");
  expect(found!.verdict).toBe("missed");
  // Half of an end's raise arrives in the middle.
  const lackM = radiusM - (6 - bulgeM);
  expect(found!.heightNeededM[0]).toBeCloseTo(40 + 2 * lackM, 6);
  expect(found!.heightNeededM[1]).toBeCloseTo(40 + 2 * lackM, 6);
});

test("the height asked for is enough at either end, a little less is not", () => {
  const heightM = fc.double({ min: 5, max: 90, noNaN: true });
  const kFactors = fc.double({ min: 0.5, max: 2, noNaN: true });
  fc.assert(
    fc.property(
      profileHeights(),
      kFactors,
      heightM,
      heightM,
      fc.constantFrom(0, 1),
      (heights, kFactor, h1, h2, raised) => {
        const objective = { ...TRUNK, clearance: [{ fresnelFraction: 0.6, kFactor }] };
        const ground = groundOf(heights, LENGTH_M);
        const at = (a: number, b: number) => {
          const ends = [
            end(KELD, "high", { antennaHeightM: a }),
            end(TARN, "low", { antennaHeightM: b }),
          ] as const;
          return evaluateHop(makeHop({ objective, ends }), ground).clearance[0]!;
        };
        const needed = at(h1, h2).heightNeededM[raised as 0 | 1];
        fc.pre(needed !== undefined && needed > 0.31); // above half the diameter of 0.6 m
        const with_ = (height: number) => (raised === 0 ? at(height, h2) : at(h1, height));
        expect(with_(needed! + 1e-6).verdict).toBe("met");
        expect(with_(needed! - 1e-3).verdict).toBe("missed");
      },
    ),
  );
});

test("no height is asked for at which the dish would stand in the ground", () => {
  const { clearance } = evaluateHop(
    makeHop({ objective: { ...TRUNK, clearance: [] } }),
    levelGround(LENGTH_M, -190),
  );
  for (const heightM of clearance[0]!.heightNeededM) expect(heightM).toBeGreaterThanOrEqual(0.3);
});

test("the diffraction loss is that of P.526 over profile, obstacle and median k", () => {
  const loss = (kFactor: number | undefined, obstacleM: number) => {
    const obstacles = obstacleM > 0 ? [{ heightM: obstacleM, distanceM: LENGTH_M / 4 }] : [];
    const hop = makeHop({ obstacles, climate: kFactor === undefined ? {} : { kFactor } });
    return evaluateHop(hop, levelGround(LENGTH_M, 35)).diffractionLossDb!;
  };
  const expected = (kFactor: number, obstacleM: number) => {
    const profile = levelGround(LENGTH_M, 35).profile!;
    const coverHeightM = new Float64Array(101);
    coverHeightM[25] = obstacleM;
    return deltaBullington(
      { distanceM: profile.distanceM, heightM: profile.heightM, coverHeightM },
      {
        antenna1HeightM: 240,
        antenna2HeightM: 240,
        effectiveRadiusM: kFactor * 6_371_000,
        frequencyHz: 17.92e9, // the lower frequency is bent less around an edge above, more below the line of sight
        polarization: "vertical",
      },
    ).lossDb;
  };
  for (const kFactor of [4 / 3, 0.7]) {
    for (const obstacleM of [0, 39, 50]) {
      const other = expected(kFactor, obstacleM);
      expect(loss(kFactor, obstacleM), `k ${kFactor}, obstacle ${obstacleM} m`).toBeGreaterThanOrEqual(
        other - 1e-9,
      );
      // The figure of the result is the larger of both directions: within 0.5 dB of the one at the lower frequency.
      expect(loss(kFactor, obstacleM)).toBeLessThan(other + 0.5);
    }
  }
  expect(loss(undefined, 0)).toBe(loss(4 / 3, 0));
  expect(loss(0.7, 0)).toBeGreaterThan(loss(4 / 3, 0) + 0.1);
  expect(loss(4 / 3, 50)).toBeGreaterThan(loss(4 / 3, 0) + 1);
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
        expect(back.clearance[i]!.verdict).toBe(one.verdict);
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
  expect(result.clearance[0]!.verdict).toBe("open");
  expect(notesTold(result).join(" ")).toContain("are those of the known ground");
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

test("a criterion of a k that no place has asks nothing of any ray, and is told", () => {
  const second = { diversityAntenna: ANTENNA, diversityHeightM: 36 };
  const judged = (kFactor: number) => {
    const clearance = [{ fresnelFraction: 1, kFactor }];
    const result = evaluateHop(
      makeHop({
        arrangement: { name: "1+1 space-diversity" },
        ends: [end(KELD, "high", second), end(TARN, "low", second)],
        objective: { ...TRUNK, clearance, diversityClearance: clearance },
      }),
      levelGround(LENGTH_M),
    );
    const asked = [...result.clearance, ...result.furtherPaths!.flatMap((one) => one.clearance)];
    return [asked.filter(({ forInformation }) => !forInformation).length, lacksTold(result)] as const;
  };
  const told = "A clearance of trunk is beyond reason and left out.";
  expect(judged(0.7)).toEqual([3, expect.not.stringContaining(told)]);
  for (const k of [0, -1.33]) expect(judged(k)).toEqual([0, expect.stringContaining(told)]);
});

function profileHeights() {
  return fc.array(fc.double({ min: 150, max: 260, noNaN: true }), { minLength: 20, maxLength: 60 });
}
