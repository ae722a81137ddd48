/** Over straight ground the distances that are looked at are those that a look at very many finds. */
import fc from "fast-check";
import { expect, test } from "vitest";
import {
  criticalDistances,
  type RayOverGround,
  type Stretch,
} from "../../shared/evaluate/path/straight-ground.js";

const drawn = fc.record({
  lengthM: fc.double({ min: 5_000, max: 60_000, noNaN: true }),
  antennaAslM: fc.tuple(
    fc.double({ min: 100, max: 400, noNaN: true }),
    fc.double({ min: 100, max: 400, noNaN: true }),
  ),
  kFactor: fc.constantFrom(0.5, 4 / 3, Number.POSITIVE_INFINITY),
  wavelengthM: fc.constantFrom(0.016, 0.05, 0.15),
  requiredFraction: fc.constantFrom(0, 0.6, 1),
  fromShare: fc.double({ min: 0, max: 0.8, noNaN: true }),
  lengthShare: fc.double({ min: 0.05, max: 1, noNaN: true }),
  tops: fc.tuple(fc.double({ min: 0, max: 300, noNaN: true }), fc.double({ min: 0, max: 300, noNaN: true })),
});

const SAMPLES = 3000;
const FOOT_M = 1;

test("clearance in Fresnel radii is nowhere less, and no antenna height needed greater, than where it is looked at", () => {
  let between = 0;
  fc.assert(
    fc.property(drawn, (one) => {
      const { lengthM, kFactor, wavelengthM, fromShare, lengthShare, tops } = one;
      const ray: RayOverGround = {
        lengthM,
        antennaAslM: one.antennaAslM,
        halfCurvature: 1 / (2 * kFactor * 6_371_000),
        fresnelScale: wavelengthM / lengthM,
        leastRadiusM: 0.5,
        requiredFraction: one.requiredFraction,
      };
      const fromM = fromShare * lengthM;
      const toM = Math.min(lengthM, fromM + lengthShare * lengthM);
      const stretch: Stretch = { fromM, toM, fromTopM: tops[0], toTopM: tops[1] };
      // Clearance over the bulge in Fresnel radii, and what the antennas need: geometry, no standard.
      const figures = (d: number) => {
        const top = tops[0] + ((tops[1] - tops[0]) * (d - fromM)) / (toM - fromM);
        const [y1, y2] = one.antennaAslM;
        const bulged = top + ray.halfCurvature * d * (lengthM - d);
        const radius = Math.max(ray.leastRadiusM, Math.sqrt((wavelengthM * d * (lengthM - d)) / lengthM));
        const wanted = bulged + one.requiredFraction * radius;
        const t = d / lengthM;
        return [
          -(y1 + (y2 - y1) * t - bulged) / radius,
          t < 1 ? (wanted - y2 * t) / (1 - t) : Number.NEGATIVE_INFINITY,
          t > 0 ? (wanted - y1 * (1 - t)) / t : Number.NEGATIVE_INFINITY,
        ];
      };
      const greatest = (distances: readonly number[]) =>
        [0, 1, 2].map((which) => Math.max(...distances.map((d) => figures(d)[which]!)));
      // At the foot of an antenna the height that the other one needs is without bound: nobody looks there.
      const [firstM, lastM] = [Math.max(fromM, FOOT_M), Math.min(toM, lengthM - FOOT_M)];
      if (!(firstM < lastM)) return;
      const critical = criticalDistances(stretch, ray);
      for (const d of critical) expect(d >= fromM && d <= toM).toBe(true);
      const looked = greatest([firstM, lastM, ...critical.filter((d) => d >= firstM && d <= lastM)]);
      const all = greatest(
        Array.from({ length: SAMPLES + 1 }, (_, i) => firstM + ((lastM - firstM) * i) / SAMPLES),
      );
      for (const which of [0, 1, 2]) {
        const scale = 1e-6 * Math.max(1, Math.abs(all[which]!));
        expect(looked[which]!).toBeGreaterThanOrEqual(all[which]! - scale);
      }
      const ends = greatest([firstM, lastM]);
      if (looked.some((one, which) => one > ends[which]! + 1e-3)) between++;
    }),
    { numRuns: 300 },
  );
  expect(between).toBeGreaterThan(50);
});
