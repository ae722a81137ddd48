/** An own pattern before its first point: the main lobe by the stated beamwidth. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { antennaView } from "../../shared/interference/antenna-view.js";
import { discriminationDb } from "../../shared/radio/discrimination.js";
import { f699 } from "../../shared/spectrum/f699.js";
import { referenceGainDbi } from "../../shared/spectrum/reference-pattern.js";

const POINTS = [
  { angleDeg: 5, copolarDb: 25 },
  { angleDeg: 90, copolarDb: 60 },
];
const seen = (beamwidthDeg: number | undefined, pattern = POINTS) =>
  antennaView({ gainDbi: 38, pattern, ...(beamwidthDeg !== undefined && { beamwidthDeg }) }, 18e9, "F.699");

test("half of the beamwidth off the axis it is 3 dB down, and never further than at its first point", () => {
  const view = seen(2);
  expect(view.at(1).coDb).toBeCloseTo(3, 9);
  expect(view.at(2).coDb).toBeCloseTo(12, 9);
  // 12 (3/2)^2 = 27 dB would be more than the 25 dB of the first point.
  expect(view.at(3).coDb).toBe(25);
  expect(view.at(5).coDb).toBe(25);
  expect(view.at(47.5).coDb).toBeCloseTo(42.5, 9);
  // Straight where no beamwidth is stated.
  expect(seen(undefined).at(1).coDb).toBeCloseTo(5, 9);
  // A point on the axis is the boresight itself; one that is not 0 dB there is the pattern's own word.
  expect(seen(2, [{ angleDeg: 0, copolarDb: 0 }, ...POINTS]).at(1).coDb).toBeCloseTo(3, 9);
  expect(seen(undefined, [{ angleDeg: 0, copolarDb: 0 }, ...POINTS]).at(0).coDb).toBe(0);
  expect(seen(2, [{ angleDeg: 0, copolarDb: 5 }, ...POINTS]).at(1).coDb).toBeCloseTo(9, 9);
});

test("it is the main beam of F.699 for 70 wavelengths over the diameter, within 2 %", () => {
  const inWavelengths = 100;
  const found = f699({ frequencyHz: 29.9792458e9, diameterM: 1, gainDbi: 48 });
  if (!found.ok) throw new Error("no pattern");
  for (const angleDeg of [0.1, 0.2, 0.3]) {
    const parabola = 48 - referenceGainDbi(found.pattern, angleDeg);
    const own = seen(70 / inWavelengths).at(angleDeg).coDb;
    expect(own / parabola).toBeGreaterThan(0.97);
    expect(own / parabola).toBeLessThan(1.001);
  }
});

test("the least beyond an angle is no more than what comes there, and the way of the hop has the same lobe", () => {
  const points = fc
    .uniqueArray(
      fc.tuple(fc.double({ min: 0, max: 180, noNaN: true }), fc.double({ min: 0, max: 90, noNaN: true })),
      {
        minLength: 1,
        maxLength: 6,
        selector: ([angle]) => angle,
      },
    )
    .map((all) =>
      all.toSorted(([a], [b]) => a - b).map(([angleDeg, copolarDb]) => ({ angleDeg, copolarDb })),
    );
  fc.assert(
    fc.property(
      points,
      fc.option(fc.double({ min: 0.05, max: 60, noNaN: true }), { nil: undefined }),
      fc.double({ min: 0, max: 180, noNaN: true }),
      fc.double({ min: 0, max: 180, noNaN: true }),
      (pattern, beamwidthDeg, one, other) => {
        const view = seen(beamwidthDeg, pattern);
        const [near, far] = one < other ? [one, other] : [other, one];
        const sine = Math.sin((Math.min(near, 90) * Math.PI) / 180);
        expect(view.least().at(sine)).toBeLessThanOrEqual(view.at(far).coDb + 1e-9);
        const antenna = { name: "A", gain: [], pattern, ...(beamwidthDeg !== undefined && { beamwidthDeg }) };
        expect(discriminationDb(antenna, far, 18e9)).toBeCloseTo(view.at(far).coDb, 9);
      },
    ),
  );
});
