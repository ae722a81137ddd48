/** How a side lobe and a turned feed are recognised: worked by hand beside each. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { firstSideLobe } from "../../shared/as-built/side-lobe.js";
import { signaturesFitting } from "../../shared/as-built/signatures.js";
import { turnedFeed } from "../../shared/as-built/turned-feed.js";
import type { Antenna } from "../../shared/design/catalogue.js";

const DISH: Antenna = { name: "D", diameterM: 0.6, gain: [{ gainDbi: 38.5 }], pattern: [] };

describe("first side lobe", () => {
  test("is the first lobe that a pattern has", () => {
    const pattern = [
      { angleDeg: 0, copolarDb: 0 },
      { angleDeg: 2, copolarDb: 35 },
      { angleDeg: 3.2, copolarDb: 19 },
      { angleDeg: 4.5, copolarDb: 40 },
      { angleDeg: 6, copolarDb: 26 },
    ];
    expect(firstSideLobe({ ...DISH, pattern }, 18.7e9)).toEqual({
      by: "lobe of the pattern",
      fromDb: 19,
      toDb: 19,
      angleDeg: 3.2,
    });
  });

  test("is read off an envelope 1.7 beamwidths from the axis", () => {
    const pattern = [
      { angleDeg: 0, copolarDb: 0 },
      { angleDeg: 2, copolarDb: 10 },
      { angleDeg: 5, copolarDb: 25 },
      { angleDeg: 20, copolarDb: 40 },
    ];
    // 1.7 * 2 = 3.4 degrees, and 10 + 1.4/3 * 15 = 17 dB there; real lobes lie up to 6 dB below an envelope.
    const lobe = firstSideLobe({ ...DISH, beamwidthDeg: 2, pattern }, 18.7e9)!;
    expect(lobe.by).toBe("envelope");
    expect(lobe.angleDeg).toBeCloseTo(3.4, 12);
    expect(lobe.fromDb).toBeCloseTo(17, 9);
    expect(lobe.toDb).toBeCloseTo(23, 9);
  });

  test("is that of the reference pattern where there is none, and says so", () => {
    // x = 0.6 * 18.7e9 / c = 37.43; G1 = 2 + 15 log x = 25.60 dBi; 38.5 - 25.60 = 12.90 dB.
    const lobe = firstSideLobe(DISH, 18.7e9)!;
    expect(lobe.by).toBe("Rec. ITU-R F.699");
    expect(lobe.fromDb).toBeCloseTo(12.9, 2);
  });

  test("is not known of an antenna without gain and diameter, nor of one below its own first lobe", () => {
    expect(firstSideLobe({ name: "N", gain: [], pattern: [] }, 18.7e9)).toBeUndefined();
    expect(firstSideLobe({ ...DISH, gain: [{ gainDbi: 3 }] }, 18.7e9)).toBeUndefined();
  });
});

describe("turned feed", () => {
  test("leaves the sum of both leakages", () => {
    const antenna = { ...DISH, crossPolarDiscriminationDb: 30 };
    // Two equal leakages: 30 - 10 log 2 = 26.99 dB, from 3 dB less to 10 dB more.
    const turned = turnedFeed(antenna, antenna)!;
    expect(turned.fromDb).toBeCloseTo(23.99, 2);
    expect(turned.toDb).toBeCloseTo(36.99, 2);
  });

  test("is not known where an antenna states no discrimination", () => {
    expect(turnedFeed(DISH, { ...DISH, crossPolarDiscriminationDb: 30 })).toBeUndefined();
    expect(turnedFeed(DISH, DISH)).toBeUndefined();
  });
});

test("whatever antennas and figures: ranges are finite and in order, and a level within the window fits none", () => {
  const antenna = fc.record({
    name: fc.constant("A"),
    diameterM: fc.option(fc.double({ min: 0.1, max: 5, noNaN: true }), { nil: undefined }),
    gain: fc.array(fc.record({ gainDbi: fc.double({ min: -5, max: 60, noNaN: true }) }), { maxLength: 1 }),
    beamwidthDeg: fc.option(fc.double({ min: 0.05, max: 120, noNaN: true }), { nil: undefined }),
    crossPolarDiscriminationDb: fc.option(fc.double({ min: 0, max: 80, noNaN: true }), { nil: undefined }),
    pattern: fc
      .array(
        fc.record({
          angleDeg: fc.double({ min: 0, max: 180, noNaN: true }),
          copolarDb: fc.double({ min: 0, max: 120, noNaN: true }),
        }),
        { maxLength: 8 },
      )
      .map((points) => points.toSorted((a, b) => a.angleDeg - b.angleDeg)),
  });
  fc.assert(
    fc.property(antenna, antenna, fc.double({ min: 1e9, max: 90e9, noNaN: true }), (one, other, hz) => {
      for (const range of [firstSideLobe(one, hz), turnedFeed(one, other)]) {
        if (range === undefined) continue;
        expect(Number.isFinite(range.fromDb) && Number.isFinite(range.toDb)).toBe(true);
        expect(range.fromDb).toBeLessThanOrEqual(range.toDb);
        expect(range.fromDb).toBeGreaterThanOrEqual(0);
      }
    }),
  );
});

test("of the levels that fit, each names its cause, both where ranges overlap", () => {
  const signatures = {
    lobes: [undefined, undefined],
    oneLobe: { fromDb: 18, toDb: 24 },
    bothLobes: { fromDb: 36, toDb: 48 },
    turned: { fromDb: 26, toDb: 39 },
  } as const;
  expect(signaturesFitting(signatures, 10, 3)).toEqual([]);
  expect(signaturesFitting(signatures, 20, 3)).toEqual(["one side lobe"]);
  expect(signaturesFitting(signatures, 30, 3)).toEqual(["turned feed"]);
  expect(signaturesFitting(signatures, 38, 3)).toEqual(["both side lobes", "turned feed"]);
  expect(signaturesFitting(signatures, 60, 3)).toEqual([]);
});
