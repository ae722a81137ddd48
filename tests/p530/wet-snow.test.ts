/** Rain and wet snow of Rec. ITU-R P.530-18 section 2.4.2. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { meltingMultiplier, pathMultiplier } from "../../shared/propagation/p530/melting-layer.js";
import { rainAttenuationAtLog, rainDistribution } from "../../shared/propagation/p530/rain.js";
import { RAIN_HEIGHT_DISTRIBUTION } from "../../shared/propagation/p530/rain-height.data.js";
import {
  type PrecipitationDistribution,
  precipitationDistribution,
  precipitationPercent,
  precipitationTimeForMargin,
} from "../../shared/propagation/p530/wet-snow.js";
import { allFinite, checkVectors, must } from "./support.js";

checkVectors("rain-wet-snow", ({ method, inputs, steps }) => {
  if (method === "G") return { G: meltingMultiplier(inputs.dh) };
  if (method === "Gpath") return { g: pathMultiplier(inputs.hrain, inputs.hlo, inputs.hhi) };
  // The attenuation at 0.01 % stands for k and alpha, which the file does not give for these cases.
  const law = rainDistribution(steps.A001_rain_dB, inputs.f * 1e9);
  const { distribution } = must(
    precipitationDistribution({
      law,
      antenna1AslM: inputs.hlo,
      antenna2AslM: inputs.hhi,
      meanRainHeightM: inputs.hrainm,
      rainProbabilityPercent: inputs.P0,
      // The file ends the table as the implementation does; see METHOD of wet-snow.ts for why we do not.
      stopAtSmallStep: true,
    }),
  );
  const at = (compute: (p: number) => number) =>
    Object.fromEntries(inputs.ps.map((p: number) => [String(p), compute(p)]));
  return {
    test: distribution.zone,
    A001_rain_dB: law.A001Db,
    table_entries: distribution.logT.length,
    T_last: 10 ** distribution.logT.at(-1)!,
    A_last: distribution.attenuationDb.at(-1),
    sum_P_g_positive: distribution.multipliers.reduce((sum, each) => sum + each.probability, 0),
    mean_g: distribution.multipliers.reduce((sum, each) => sum + each.probability * each.g, 0),
    A_combined_dB: at((timePercent) => precipitationAttenuationDb(distribution, timePercent)),
    A_rain_only_dB: at((timePercent) => rainAttenuationAtLog(law, Math.log10(timePercent))),
  };
});

/** The share of time solved for the attenuation, to 1e-12 relative: the files ask that way round, the product does not. */
function precipitationAttenuationDb(distribution: PrecipitationDistribution, timePercent: number): number {
  const isTooLittle = (attenuationDb: number) =>
    distribution.zone === "rain only"
      ? attenuationDb < rainAttenuationAtLog(distribution.law, Math.log10(timePercent))
      : precipitationPercent(distribution, attenuationDb) > timePercent;
  let low = 0;
  let high = 1;
  while (isTooLittle(high)) high *= 2;
  while (high - low > 1e-12 * high && high > 1e-9) {
    const middle = (low + high) / 2;
    if (isTooLittle(middle)) low = middle;
    else high = middle;
  }
  // Where even a trace of attenuation is rarer than asked for, there is none at that share of time.
  return high > 1e-9 ? high : 0;
}

describe("rain and wet snow", () => {
  const law = rainDistribution(11, 18.7e9);
  const prepare = (lowM: number, highM: number, meanRainHeightM = 2100) =>
    must(
      precipitationDistribution({
        law,
        antenna1AslM: highM,
        antenna2AslM: lowM,
        meanRainHeightM,
        rainProbabilityPercent: 6,
      }),
    ).distribution;

  it("the rain heights are all there", () => {
    const sum = RAIN_HEIGHT_DISTRIBUTION.reduce((total, [, probability]) => total + probability, 0);
    expect(Math.abs(sum - 1)).toBeLessThan(5e-6); // six printed decimals, 49 entries
    expect(RAIN_HEIGHT_DISTRIBUTION).toHaveLength(49);
  });

  // The check that decides how the rain-only table ends: a path wholly in rain must get section 2.4.1's figure.
  it("joins the rain law where the path leaves the melting layer below", () => {
    const combined = prepare(-1700, -1499.999); // highest antenna a hair above 2100 - 3600 m
    expect(combined.zone).toBe("combined");
    expect(prepare(-1700, -1500).zone).toBe("rain only");
    for (const timePercent of [0.001, 0.003, 0.01, 0.1, 0.9]) {
      const attenuationDb = precipitationAttenuationDb(combined, timePercent);
      // Log-linear interpolation in a table of ten entries a decade: well under 1 %.
      expect(Math.abs(attenuationDb / rainAttenuationAtLog(law, Math.log10(timePercent)) - 1)).toBeLessThan(
        0.01,
      );
    }
  });

  it("takes more than rain in the melting layer and nothing above all of it", () => {
    const margin = rainAttenuationAtLog(law, Math.log10(0.01));
    const inLayer = precipitationTimeForMargin(prepare(1800, 1900), margin, "estimate");
    expect(inLayer.timePercent).toBeGreaterThan(0.02);
    expect(prepare(4500, 4600).zone).toBe("none");
    expect(precipitationTimeForMargin(prepare(4500, 4600), margin, "estimate")).toEqual({ timePercent: 0 });
  });

  it("the multiplier peaks at 3.53, 241 m below the rain height", () => {
    let best = 0;
    for (let dh = 0; dh >= -1200; dh--) if (meltingMultiplier(dh) > meltingMultiplier(best)) best = dh;
    expect(best).toBe(-241);
  });

  it("more margin never means more outage, and the way back agrees", () => {
    const height = fc.double({ min: 0, max: 4000, noNaN: true });
    const depth = fc.double({ min: 0.01, max: 80, noNaN: true });
    fc.assert(
      fc.property(height, height, depth, depth, (h1, h2, a, b) => {
        const distribution = prepare(Math.min(h1, h2), Math.max(h1, h2));
        const [small, large] = a < b ? [a, b] : [b, a];
        const few = precipitationPercent(distribution, large);
        expect(few).toBeLessThanOrEqual(precipitationPercent(distribution, small) * (1 + 1e-12));
        if (few < 0.001 || few > 1) return;
        const back = precipitationAttenuationDb(distribution, few);
        expect(Math.abs(back / large - 1)).toBeLessThan(1e-6);
      }),
      { numRuns: 100 },
    );
  });

  it("below 0.001 % continues the law of rain, continuous at the seam, falling, below its bound", () => {
    const height = fc.double({ min: -1400, max: 4000, noNaN: true });
    fc.assert(
      fc.property(height, height, fc.double({ min: 1, max: 4, noNaN: true }), (h1, h2, times) => {
        const distribution = prepare(Math.min(h1, h2), Math.max(h1, h2));
        if (distribution.multipliers.length === 0) return;
        const seam = precipitationAttenuationDb(distribution, 0.001);
        const at = (marginDb: number) => precipitationTimeForMargin(distribution, marginDb, "estimate");
        const before = at(seam * (1 - 1e-6));
        const behind = at(seam * (1 + 1e-6));
        expect(before).toEqual(precipitationTimeForMargin(distribution, seam * (1 - 1e-6), "bound"));
        expect(behind.atMostPercent).toBe(0.001);
        expect(Math.abs(before.timePercent / behind.timePercent - 1)).toBeLessThan(1e-3);
        const beyond = at(seam * times * (1 + 1e-6));
        expect(beyond.timePercent).toBeLessThanOrEqual(behind.timePercent);
        // The continued law never falls faster than the end of the Recommendation's own table, a decade a decibel.
        const byTable = precipitationPercent(distribution, seam * times * (1 + 1e-6));
        if (beyond.timePercent > 0)
          expect(beyond.timePercent).toBeGreaterThanOrEqual(Math.min(byTable, 0.001) * (1 - 1e-9));
      }),
      { numRuns: 100 },
    );
  });

  it("agrees with the law of rain below 0.001 % where the path leaves the melting layer below", () => {
    const combined = prepare(-1700, -1499.999);
    for (const timePercent of [0.0008, 0.0003, 0.0001]) {
      const marginDb = rainAttenuationAtLog(law, Math.log10(timePercent));
      const found = precipitationTimeForMargin(combined, marginDb, "estimate");
      expect(Math.abs(found.timePercent / timePercent - 1)).toBeLessThan(0.01);
    }
  });

  it("never shows NaN or Infinity, whatever comes in", () => {
    const anything = fc.oneof(fc.double(), fc.double({ min: -5000, max: 9000, noNaN: true }));
    fc.assert(
      fc.property(anything, anything, anything, anything, (h1, h2, rain, p) => {
        const result = precipitationDistribution({
          law,
          antenna1AslM: h1,
          antenna2AslM: h2,
          meanRainHeightM: rain,
          rainProbabilityPercent: p,
        });
        expect(allFinite(result)).toBe(true);
        if (!result.ok) return;
        for (const marginDb of [10, 100])
          expect(allFinite(precipitationTimeForMargin(result.distribution, marginDb, "estimate"))).toBe(true);
        const { distribution } = result;
        expect(precipitationAttenuationDb(distribution, 0.01)).toBeLessThan(Number.POSITIVE_INFINITY);
      }),
      { numRuns: 500 },
    );
  });

  it("does without rain", () => {
    const dry = must(
      precipitationDistribution({
        law: rainDistribution(0, 18.7e9),
        antenna1AslM: 1500,
        antenna2AslM: 1700,
        meanRainHeightM: 2100,
        rainProbabilityPercent: 1,
      }),
    ).distribution;
    expect(precipitationTimeForMargin(dry, 3, "bound")).toEqual({ timePercent: 0 });
    expect(precipitationAttenuationDb(dry, 0.01)).toBe(0);
  });
});
