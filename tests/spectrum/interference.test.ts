/** Parts of the interference budget: directions, polarization, noise and degradation, designators, limits. */
import fc from "fast-check";
import { describe, expect, it, test } from "vitest";
import { leastOffAxisAngleDeg, offAxisAngleDeg } from "../../shared/geodesy/off-axis.js";
import { freeSpaceLossDb } from "../../shared/propagation/p525.js";
import {
  carrierToInterferenceDb,
  degradationDb,
  discriminationOfTableDb,
  interferenceToNoiseDb,
  powerSumDb,
} from "../../shared/radio/degradation.js";
import { noisePowerDbm } from "../../shared/radio/threshold.js";
import { article21Limits, eirpNearOrbitDbw } from "../../shared/spectrum/article21.js";
import { emissionDesignator, readEmission } from "../../shared/spectrum/emission-designator.js";
import { f699 } from "../../shared/spectrum/f699.js";
import { f1245 } from "../../shared/spectrum/f1245.js";
import { crossDiscriminationDb, pairDiscriminationDb } from "../../shared/spectrum/polarization-coupling.js";
import { referenceGainDbi } from "../../shared/spectrum/reference-pattern.js";
import { usEmissionMaskDb } from "../../shared/spectrum/us-emission-mask.js";
import { must } from "../p530/support.js";
import { loadVectors, testRows } from "../support/vectors.js";

type Enu = readonly [number, number, number];
interface GeometryCase {
  readonly pattern: "f699" | "f1245";
  readonly frequencyGHz: number;
  readonly enuM: Record<"victimRx" | "wantedTx" | "interferingTx" | "interfererAimsAt", Enu>;
  readonly diameterM: Record<"victimRx" | "interferingTx" | "wantedTx", number>;
  readonly powerDbm: { readonly wanted: number; readonly interfering: number };
  readonly nfdDb: number;
  readonly crossPolarDiscriminationDb: number;
  readonly bandwidthMHz: number;
  readonly noiseFigureDb: number;
  readonly offAxisAtVictimDeg: number;
  readonly offAxisAtInterfererDeg: number;
  readonly gainVictimTowardsInterfererDbi: number;
  readonly gainInterfererTowardsVictimDbi: number;
  readonly interferingFslDb: number;
  readonly interferenceDbm: number;
  readonly noiseDbm: number;
  readonly iOverNDb: number;
  readonly tdDb: number;
}
const geometry = loadVectors<{ source: string; cases: GeometryCase[] }>(
  "spectrum/interference-geometry.json",
);
/** As many decimals as are printed. */
const FOUR = { absolute: 6e-5 };
const FIVE = { absolute: 6e-6 };
const SIX = { absolute: 6e-7 };
const DEG = 180 / Math.PI;

function towards(from: Enu, to: Enu) {
  const [e, n, u] = [to[0] - from[0], to[1] - from[1], to[2] - from[2]];
  return { azimuthDeg: Math.atan2(e, n) * DEG, elevationDeg: Math.atan2(u, Math.hypot(e, n)) * DEG };
}
const PATTERNS = { f699, f1245 };

testRows("a budget on a plane, every term", geometry.source, geometry.cases, (row, is) => {
  const { victimRx, wantedTx, interferingTx, interfererAimsAt } = row.enuM;
  const atVictim = offAxisAngleDeg(towards(victimRx, wantedTx), towards(victimRx, interferingTx));
  const atOther = offAxisAngleDeg(towards(interferingTx, interfererAimsAt), towards(interferingTx, victimRx));
  is.close("off axis at victim", atVictim, row.offAxisAtVictimDeg, SIX);
  is.close("off axis at interferer", atOther, row.offAxisAtInterfererDeg, SIX);
  const frequencyHz = row.frequencyGHz * 1e9;
  const gain = (diameterM: number, angle: number) =>
    referenceGainDbi(must(PATTERNS[row.pattern]({ frequencyHz, diameterM })).pattern, angle);
  const gr = gain(row.diameterM.victimRx, atVictim);
  const gt = gain(row.diameterM.interferingTx, atOther);
  is.close("gain of victim", gr, row.gainVictimTowardsInterfererDbi, FOUR);
  is.close("gain of interferer", gt, row.gainInterfererTowardsVictimDbi, FOUR);
  const distance = Math.hypot(...victimRx.map((value, i) => value - interferingTx[i]!));
  const loss = freeSpaceLossDb(distance, frequencyHz);
  is.close("free space", loss, row.interferingFslDb, FOUR);
  const I = row.powerDbm.interfering + gt - loss + gr - row.nfdDb - row.crossPolarDiscriminationDb;
  is.close("I", I, row.interferenceDbm, FOUR);
  const N = noisePowerDbm(row.bandwidthMHz * 1e6, row.noiseFigureDb);
  is.close("N", N, row.noiseDbm, FOUR);
  is.close("I/N", I - N, row.iOverNDb, FOUR);
  is.close("TD", degradationDb(I - N), row.tdDb, FOUR);
});

const direction = fc.record({
  azimuthDeg: fc.double({ min: -360, max: 720, noNaN: true }),
  elevationDeg: fc.double({ min: -90, max: 90, noNaN: true }),
});

describe("directions", () => {
  it("angles are symmetric and 0 to 180, and no elevation comes nearer than the bound by azimuth", () => {
    fc.assert(
      fc.property(direction, direction, (a, b) => {
        const angle = offAxisAngleDeg(a, b);
        expect(angle).toBeCloseTo(offAxisAngleDeg(b, a), 9);
        expect(angle).toBeGreaterThanOrEqual(0);
        expect(angle).toBeLessThanOrEqual(180);
        expect(angle).toBeGreaterThanOrEqual(leastOffAxisAngleDeg(a, b.azimuthDeg) - 1e-9);
      }),
    );
  });

  it("the bound is reached: at the foot of the perpendicular, and overhead for what is behind", () => {
    expect(leastOffAxisAngleDeg({ azimuthDeg: 10, elevationDeg: 0 }, 40)).toBeCloseTo(30, 12);
    expect(leastOffAxisAngleDeg({ azimuthDeg: 10, elevationDeg: 5 }, 190)).toBe(85);
    expect(
      offAxisAngleDeg({ azimuthDeg: 359.9995, elevationDeg: 0 }, { azimuthDeg: 0, elevationDeg: 0 }),
    ).toBeCloseTo(0.0005, 12);
  });
});

describe("polarization", () => {
  const end = fc.record({
    coDb: fc.double({ min: 0, max: 90, noNaN: true }),
    crossDb: fc.double({ min: 0, max: 120, noNaN: true }),
  });

  it("a crossed pair never couples more than the same pair parallel, an oblique one lies between", () => {
    fc.assert(
      fc.property(end, end, (t, r) => {
        const parallel = pairDiscriminationDb("parallel", t, r);
        const crossed = pairDiscriminationDb("crossed", t, r);
        const oblique = pairDiscriminationDb("oblique", t, r);
        expect(parallel).toBe(t.coDb + r.coDb);
        expect(crossed).toBeGreaterThanOrEqual(parallel);
        expect(oblique).toBeGreaterThanOrEqual(parallel - 1e-9);
        expect(oblique).toBeLessThanOrEqual(Math.min(crossed, parallel + 3.0103) + 1e-9);
      }),
    );
  });

  it("30 and 30 dB leave 26.99; slant against horizontal loses half", () => {
    const axis = { coDb: 0, crossDb: 30 };
    expect(pairDiscriminationDb("crossed", axis, axis)).toBeCloseTo(26.9897, 4);
    // Half of the power, and half of a crossed 26.99 dB down.
    expect(pairDiscriminationDb("oblique", axis, axis)).toBeCloseTo(3.0103 - 10 * Math.log10(1 + 0.002), 4);
  });

  it("without a cross-polar pattern the stated XPD holds inside the 3 dB beam and nowhere else", () => {
    const inputs = { coDb: 2, xpdDb: 30, beamwidthDeg: 2 };
    expect(crossDiscriminationDb({ ...inputs, angleDeg: 1 })).toBe(32);
    expect(crossDiscriminationDb({ ...inputs, angleDeg: 1.01 })).toBe(2);
    expect(crossDiscriminationDb({ coDb: 2, angleDeg: 0 })).toBe(2);
  });
});

interface Noise {
  readonly source: string;
  readonly noiseFloor: { bandwidthMHz: number; noiseFigureDb: number; noiseDbm: number }[];
  readonly thresholdDegradation: { iOverNDb: number; tdDb: number }[];
  readonly inverse: { iOverNDb: number; tdDb: number }[];
  readonly composite: { iOverNDb: number[]; aggregateIOverNDb: number; tdDb: number }[];
}
const noise = loadVectors<Noise>("spectrum/noise-interference.json");
testRows("noise floor", noise.source, noise.noiseFloor, (row, is) =>
  is.close("N", noisePowerDbm(row.bandwidthMHz * 1e6, row.noiseFigureDb), row.noiseDbm, FOUR),
);
testRows("degradation", noise.source, noise.thresholdDegradation, (row, is) =>
  is.close("TD", degradationDb(row.iOverNDb), row.tdDb, FIVE),
);
testRows("interference for a degradation", noise.source, noise.inverse, (row, is) =>
  is.close("I/N", interferenceToNoiseDb(row.tdDb), row.iOverNDb, FIVE),
);
testRows("several entries", noise.source, noise.composite, (row, is) => {
  const sum = powerSumDb(row.iOverNDb);
  is.close("sum", sum, row.aggregateIOverNDb, FIVE);
  is.close("TD", degradationDb(sum!), row.tdDb, FIVE);
});

describe("degradation", () => {
  it("is finite and not negative at any ratio, and its inverse gives the ratio back", () => {
    fc.assert(
      fc.property(fc.double({ min: -3000, max: 5000, noNaN: true }), (ratio) => {
        const td = degradationDb(ratio);
        expect(Number.isFinite(td) && td >= 0).toBe(true);
        if (ratio > -90) expect(interferenceToNoiseDb(td)!).toBeCloseTo(ratio, 5);
      }),
    );
    expect(degradationDb(Number.NEGATIVE_INFINITY)).toBe(0);
    expect(interferenceToNoiseDb(0)).toBeUndefined();
    expect(powerSumDb([])).toBeUndefined();
    expect(powerSumDb([-4000, -4000])).toBeCloseTo(-3996.9897, 4);
  });

  it("1 dB costs a C/I of S/N + 5.87, 3 dB about S/N", () => {
    expect(carrierToInterferenceDb(20, 1)).toBeCloseTo(25.86825, 5);
    expect(carrierToInterferenceDb(20, 3)).toBeCloseTo(20.02062, 5);
    expect(carrierToInterferenceDb(20, 0)).toBeUndefined();
  });

  it("a table of C/I tells the discrimination: 25.87 dB co-channel none, -4.13 dB at an offset 30 dB", () => {
    expect(discriminationOfTableDb(20, 1, 25.8682532)).toBeCloseTo(0, 6);
    expect(discriminationOfTableDb(20, 1, -4.1317468)).toBeCloseTo(30, 6);
    expect(discriminationOfTableDb(20, 3, -9.97938)).toBeCloseTo(30, 4);
    expect(discriminationOfTableDb(20, 1, 40)).toBe(0);
    expect(discriminationOfTableDb(20, 0, 10)).toBeUndefined();
  });
});

interface Designators {
  readonly source: string;
  readonly standardExamples: { hz: number; notation: string }[];
  readonly computed: { hz: number; notation: string }[];
  readonly fullDesignatorExamples: { necessaryBandwidthMHz: number; class_: string; text: string }[];
}
const designators = loadVectors<Designators>("spectrum/emission-designator.json");
const notations = [...designators.standardExamples, ...designators.computed];
testRows("bandwidth to notation", designators.source, notations, (row, is) =>
  is.same("notation", emissionDesignator(row.hz), row.notation),
);
testRows("full designators, both ways", designators.source, designators.fullDesignatorExamples, (row, is) => {
  is.same("text", emissionDesignator(row.necessaryBandwidthMHz * 1e6, row.class_), row.text);
  const read = readEmission(row.text);
  is.same("bandwidth", read?.necessaryBandwidthHz, row.necessaryBandwidthMHz * 1e6);
  is.same("class", read?.emissionClass, row.class_);
});

describe("designators", () => {
  it("what is written is read back within half of the last numeral", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.001, max: 998e9, noNaN: true }), (hz) => {
        const read = readEmission(emissionDesignator(hz)!)!;
        const step = Math.max(0.001, 10 ** (Math.floor(Math.log10(hz)) - 2));
        expect(Math.abs(read.necessaryBandwidthHz - hz)).toBeLessThanOrEqual(0.5000001 * step);
        expect(emissionDesignator(read.necessaryBandwidthHz)).toBe(emissionDesignator(hz));
      }),
    );
  });

  it.each(["", "28M0D7", "028M", "K280D7W", "1000M", "28M0D7W1", "28M00D7W", "2 M", "H000", "28MHz", "ΔM00"])(
    "%j is none",
    (text) => expect(readEmission(text)).toBeUndefined(),
  );

  it("small letters, spaces and the two optional symbols are taken", () => {
    expect(readEmission(" 29m7 d7w et")).toEqual({
      necessaryBandwidthHz: 29_700_000,
      emissionClass: "D7W",
      details: "ET",
    });
    expect(emissionDesignator(1e12)).toBeUndefined();
    expect(emissionDesignator(Number.NaN)).toBeUndefined();
    expect(emissionDesignator(999.6e9)).toBeUndefined();
    expect(emissionDesignator(0.0001)).toBeUndefined();
  });
});

// From memory, except the rule of the orbit, which was read in 47 CFR 101.145 (2013).
describe("Article 21", () => {
  it("tells power, EIRP and the rule of the orbit by frequency", () => {
    expect(article21Limits(6.2e9)).toEqual({
      eirpDbw: 55,
      powerDbw: 13,
      orbit: { aboveEirpDbw: 35, leastAngleDeg: 2 },
    });
    expect(article21Limits(13e9)).toEqual({
      eirpDbw: 55,
      powerDbw: 10,
      orbit: { aboveEirpDbw: 45, leastAngleDeg: 1.5 },
    });
    expect(article21Limits(26e9)?.orbit).toEqual({
      aboveEirpDbw: 24,
      inBandwidthHz: 1e6,
      leastAngleDeg: 1.5,
    });
    expect(article21Limits(38e9)).toEqual({ eirpDbw: 55, powerDbw: 10 });
    expect(article21Limits(0.4e9)).toBeUndefined();
    expect(article21Limits(Number.NaN)).toBeUndefined();
  });

  it("near the orbit the limit rises by 8 dB a degree from +47 to +55 dBW", () => {
    expect([0, 0.5, 1, 1.5, 2].map((angle) => eirpNearOrbitDbw(6e9, angle))).toEqual([47, 47, 51, 55, 55]);
    expect([1.5, 1.6].map((angle) => eirpNearOrbitDbw(12e9, angle))).toEqual([45, 55]);
    expect(eirpNearOrbitDbw(18e9, 0)).toBeUndefined();
  });
});

const mask = loadVectors<{ source: string; rows: [boolean, number, number, number][] }>(
  "spectrum/us-emission-mask.json",
);
testRows("mask of the United States", mask.source, mask.rows, ([high, widthMHz, percent, wanted], is) => {
  const offsetHz = (percent / 100) * widthMHz * 1e6;
  is.close("A", usEmissionMaskDb(high ? 18e9 : 6e9, widthMHz * 1e6, offsetHz), wanted, FOUR);
});
test("inside the bandwidth and beyond 250 % the mask asks for nothing", () => {
  expect(usEmissionMaskDb(18e9, 28e6, 14e6)).toBeUndefined();
  expect(usEmissionMaskDb(18e9, 28e6, -71e6)).toBeUndefined();
});
