/** Reflection from a stated surface: the point by equal grazing angles, the ripple and what escapes it. */
import { expect, test } from "vitest";
import type { Hop, Surface } from "../../shared/design/design.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { discriminationDb } from "../../shared/radio/discrimination.js";
import { ANTENNA, end, KELD, levelGround, makeHop, TARN, TRUNK } from "./builders.js";

const LENGTH_M = evaluateHop(makeHop(), levelGround(9000)).distanceM!;
const GROUND = levelGround(LENGTH_M);
const WATER: Surface = { kind: "water", fromM: 0, toM: LENGTH_M };

function reflection(hop: Hop, ground = GROUND) {
  return evaluateHop(hop, ground).reflections?.[0];
}

test("equal antennas reflect in the middle, at the angle that geometry gives", () => {
  const found = reflection(makeHop({ surfaces: [WATER] }))!;
  expect(found).toMatchObject({ surfaceAslM: 200, onSurface: true, shielded: false });
  expect(found.pointM / LENGTH_M).toBeCloseTo(0.5, 9);
  // Height over the tangent at the point: 40 m less (d/2)^2/(2 k a), k 4/3, a 6371 km.
  const half = LENGTH_M / 2;
  const heightM = 40 - half ** 2 / (2 * (4 / 3) * 6_371_000);
  expect(found.grazingMrad / ((1000 * heightM) / half)).toBeCloseTo(1, 6);
  // Path difference 2 h1 h2/(d lambda).
  const lambda = 299_792_458 / 18.93e9;
  expect(found.pathDifferenceWavelengths / ((2 * heightM ** 2) / (LENGTH_M * lambda))).toBeCloseTo(1, 2);
});

test("the point leaves a surface that ends before it", () => {
  expect(reflection(makeHop({ surfaces: [{ ...WATER, toM: 3000 }] }))!.onSurface).toBe(false);
  expect(reflection(makeHop({ surfaces: [{ ...WATER, kind: "rough" }] }))).toBeUndefined();
});

test("where the surface has the point for one k alone, it is told for that k", () => {
  // The point lies where the grazing angles at both legs are equal, h1/d1 = h2/d2 with heights over the tangent there.
  const ends = [end(KELD, "high", { antennaHeightM: 80 }), end(TARN, "low", { antennaHeightM: 30 })] as const;
  const angles = (pointM: number, k: number) => {
    const over = (heightM: number, legM: number) => heightM / legM - legM / (2 * k * 6_371_000);
    return [over(80, pointM), over(30, LENGTH_M - pointM)] as const;
  };
  const atK = (kFactor: number) =>
    reflection(makeHop({ ends, surfaces: [WATER], climate: { kFactor } }))!.pointM;
  for (const k of [0.9, 4 / 3, 10]) {
    const [one, other] = angles(atK(k), k);
    expect(one / other).toBeCloseTo(1, 6);
  }
  const on = (pointM: number) => ({ ...WATER, heightM: 200, fromM: pointM - 0.5, toM: pointM + 0.5 });
  const told = (surface: Surface) => reflection(makeHop({ ends, surfaces: [surface] }))!;
  for (const kFactor of [0.9, 4 / 3, 10]) {
    const found = told(on(atK(kFactor)));
    expect(found).toMatchObject({ kFactor, onSurface: true, kRange: [0.9, 10] });
    expect(found.pointM).toBeCloseTo(atK(kFactor), 9);
  }
  // Between two of them it passes over the surface without a k of the three at it: the median's figures stand.
  const between = told(on((atK(0.9) + atK(4 / 3)) / 2));
  expect(between).toMatchObject({ kFactor: 4 / 3, onSurface: true });
  expect(told({ ...WATER, toM: 100 })).toMatchObject({ kFactor: 4 / 3, onSurface: false });
});

test("the range of k begins at the least that is looked at: 0.9, or a criterion's or the median's below it", () => {
  const range = (kFactors: readonly number[], kFactor?: number) => {
    const objective = { ...TRUNK, clearance: kFactors.map((k) => ({ fresnelFraction: 0, kFactor: k })) };
    return reflection(makeHop({ surfaces: [WATER], objective, climate: { kFactor } }))!.kRange;
  };
  expect(range([])).toEqual([0.9, 10]);
  expect(range([1.33, 0.7])).toEqual([0.7, 10]);
  expect(range([0.95])).toEqual([0.9, 10]);
  expect(range([0.8], 0.75)).toEqual([0.75, 10]);
  expect(range([], 12)).toEqual([0.9, 12]);
  // No place has a k of 0 or less: nothing is asked for it.
  expect(range([0, -1])).toEqual([0.9, 10]);
});

test("the higher antenna is further from the point, told from either end", () => {
  const ends = [end(KELD, "high", { antennaHeightM: 80 }), end(TARN, "low", { antennaHeightM: 30 })] as const;
  const there = reflection(makeHop({ ends, surfaces: [WATER] }))!;
  const back = reflection(makeHop({ ends: [ends[1], ends[0]], surfaces: [WATER] }))!;
  expect(there.pointM).toBeGreaterThan(LENGTH_M / 2);
  expect(there.pointM + back.pointM).toBeCloseTo(LENGTH_M, 6);
  expect(there.deepestFadeDb).toBeCloseTo(back.deepestFadeDb, 9);
});

test("the height of a maximum and half a lobe are where the path difference says", () => {
  const hop = makeHop({ surfaces: [WATER] });
  const [keld] = reflection(hop)!.ends;
  const at = (antennaHeightM: number) =>
    reflection({ ...hop, ends: [end(KELD, "high", { antennaHeightM }), hop.ends[1]] })!
      .pathDifferenceWavelengths;
  const phase = (tau: number) => tau - Math.floor(tau);
  // A shift of the point with the height is not in the lobe spacing: a tenth of a lobe.
  expect(phase(at(keld.heightOfMaximumM!))).toBeCloseTo(0.5, 0.7);
  const lobes = at(40 + keld.lobeSpacingM!) - at(40);
  expect(lobes).toBeGreaterThan(0.9);
  expect(lobes).toBeLessThan(1.1);
  expect(keld.bestSpacingM!).toBeCloseTo(keld.lobeSpacingM! / 2, 12);
});

test("no antenna is told to hang at or below the ground", () => {
  const ends = [end(KELD, "high", { antennaHeightM: 0.3 }), end(TARN, "low")] as const;
  const heights = Array.from({ length: 60 }, (_, i) => 180 + 0.05 * i).map(
    (heightM) => reflection(makeHop({ ends, surfaces: [{ ...WATER, heightM }] }))!.ends[0].heightOfMaximumM,
  );
  // Lobes are a metre and more apart here: for some heights of the water the nearest maximum lies below the ground.
  expect(heights).toContain(undefined);
  expect(heights.filter((heightM) => heightM !== undefined).length).toBeGreaterThan(10);
  for (const heightM of heights) if (heightM !== undefined) expect(heightM).toBeGreaterThan(0);
});

test("ripple is that of the two rays: 20 log of 1 less and 1 plus their ratio", () => {
  const { effectiveRatio: ratio, deepestFadeDb, highestGainDb } = reflection(makeHop({ surfaces: [WATER] }))!;
  expect(ratio).toBeGreaterThan(0.3);
  expect(ratio).toBeLessThan(1);
  expect(deepestFadeDb).toBeCloseTo(-20 * Math.log10(1 - ratio), 9);
  expect(highestGainDb).toBeCloseTo(20 * Math.log10(1 + ratio), 9);
});

test("a hill in the reflected ray shields", () => {
  const hill = levelGround(LENGTH_M, 0);
  const heightM = Float64Array.from(hill.profile!.heightM, (height, i) => (i === 25 ? height + 30 : height));
  const ground = { ...hill, profile: { ...hill.profile!, heightM } };
  const hop = makeHop({ surfaces: [{ ...WATER, heightM: 200 }] });
  expect(reflection(hop, ground)!.shielded).toBe(true);
});

test("what shields stands on the bulge of the Earth below the leg of the ray", () => {
  const level = levelGround(LENGTH_M, 0);
  const shieldedBy = (hillM: number) => {
    const heightM = Float64Array.from(level.profile!.heightM, (height, i) =>
      i === 25 ? height + hillM : height,
    );
    const ground = { ...level, profile: { ...level.profile!, heightM } };
    return reflection(makeHop({ surfaces: [{ ...WATER, heightM: 200 }] }), ground)!.shielded;
  };
  // Half way along the leg to the middle the ray is 20 m up, over d1 d2/(2 k a) with d1 = d2 = d/4, k 4/3, a 6371 km.
  const leastM = 20 - (LENGTH_M / 4) ** 2 / (2 * (4 / 3) * 6_371_000);
  expect(leastM).toBeLessThan(19.8);
  expect(shieldedBy(leastM - 0.01)).toBe(false);
  expect(shieldedBy(leastM + 0.01)).toBe(true);
});

test("an antenna discriminates by its pattern, else by its main lobe", () => {
  const pattern = [
    { angleDeg: 2, copolarDb: 6 },
    { angleDeg: 10, copolarDb: 30 },
  ];
  expect(discriminationDb({ ...ANTENNA, pattern }, 1, 18e9)).toBe(3);
  expect(discriminationDb({ ...ANTENNA, pattern }, 6, 18e9)).toBe(18);
  expect(discriminationDb({ ...ANTENNA, pattern }, 90, 18e9)).toBe(30);
  // Half the beamwidth off boresight is 3 dB down.
  expect(discriminationDb({ ...ANTENNA, beamwidthDeg: 2 }, 1, 18e9)).toBe(3);
  expect(discriminationDb({ ...ANTENNA, diameterM: undefined }, 1, 18e9)).toBe(0);
});
