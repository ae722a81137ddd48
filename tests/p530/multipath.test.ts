/**
 * Multipath of Rec. ITU-R P.530-18 section 2.3 and the older P.530-17 section 2.3.1: each file of vectors names what its
 * figures are from.
 */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { annualConversion, annualFadeDistribution } from "../../shared/propagation/p530/annual.js";
import { enhancementExceeded } from "../../shared/propagation/p530/enhancement.js";
import {
  explainFade,
  fadeDistribution,
  fadeExceededPercent,
} from "../../shared/propagation/p530/fade-distribution.js";
import { type MultipathInputs, multipathOccurrence } from "../../shared/propagation/p530/multipath.js";
import { multipathOccurrence17 } from "../../shared/propagation/p530/multipath17.js";
import { correlationExponent, seriesMultipathOutage } from "../../shared/propagation/p530/several-hops.js";
import { shorterPeriod } from "../../shared/propagation/p530/shorter-periods.js";
import { allFinite, type Case, checkVectors, compare, must, vectors } from "./support.js";

const inputs18 = (inputs: Case["inputs"]): MultipathInputs => ({
  logK: inputs.logK,
  dN75: inputs.dN75,
  distanceM: 1000 * inputs.d,
  frequencyHz: inputs.f * 1e9,
  antenna1AslM: inputs.he,
  antenna2AslM: inputs.hr,
  meanTerrainAslM: inputs.ht,
});

checkVectors("multipath-p530-18", ({ inputs }) => {
  const result = multipathOccurrence(inputs18(inputs));
  const steps = result.steps!;
  return {
    K: steps.K,
    ep_mrad: steps.epMrad,
    hc_m: steps.hcM,
    hL_m: steps.hLM,
    vsrlim: steps.vsrlim,
    vsr_unlimited: steps.vsrUnlimited,
    vsr: steps.vsr,
    exponent_at_A0: steps.exponent,
    factor_dist_freq: steps.distanceFrequencyFactor,
    p0_pct: steps.p0Percent,
    pw_deep_pct: steps.p0Percent * 10 ** (-inputs.A / 10),
  };
});

checkVectors("multipath-p530-17", ({ inputs }) => {
  const result = must(
    multipathOccurrence17({
      dN1: inputs.dN1,
      terrainRoughnessM: inputs.sa,
      distanceM: 1000 * inputs.d,
      frequencyHz: inputs.f * 1e9,
      antenna1AslM: inputs.he,
      antenna2AslM: inputs.hr,
    }),
  );
  return {
    ep_mrad: result.steps.epMrad,
    hL_m: result.steps.hLM,
    K: result.steps.K,
    p0_pct: result.occurrencePercent,
    pw_deep_pct: fadeExceededPercent(fadeDistribution(result.occurrencePercent), inputs.A),
  };
});

checkVectors("distribution-all-percentages", ({ inputs }) => {
  const result = must(explainFade(fadeDistribution(inputs.p0), inputs.A));
  const { AtDb, branch, ptPercent, qaPrime, qt, qa } = result.steps;
  return {
    At_dB: AtDb,
    branch,
    pt_pct: ptPercent,
    qa_prime: qaPrime,
    qt,
    qa,
    pw_pct: result.timePercent,
  };
});

checkVectors("enhancement", ({ inputs }) => {
  const result = must(enhancementExceeded({ occurrencePercent: inputs.p0, enhancementDb: inputs.E }));
  const { A001Db, branch, pwPrimePercent, qePrime, qs, qe } = result.steps;
  return {
    A001_dB: A001Db,
    branch: { none: "none", "0 to 10 dB": "0to10", "above 10 dB": "above10" }[branch],
    pw_prime_pct: pwPrimePercent,
    qe_prime: qePrime,
    qs,
    qe,
    not_exceeded_pct: result.notExceededPercent,
    exceeded_pct: result.exceededPercent,
  };
});

checkVectors("annual-conversion", ({ inputs }) => {
  const conversion = must(
    annualConversion({ latitudeDeg: inputs.lat, distanceM: 1000 * inputs.d, inclinationMrad: inputs.ep }),
  );
  const year = must(explainFade(annualFadeDistribution(inputs.p0, conversion.conversionDb), inputs.A));
  return {
    dG_uncapped_dB: conversion.steps.dGUncappedDb,
    dG_dB: conversion.conversionDb,
    p_pct: year.timePercent,
    branch: year.steps.branch,
  };
});

checkVectors("shorter-periods", ({ inputs }) => {
  const terrain = { flat: "flat", hilly: "hilly", "hilly-land": "hilly land" } as const;
  const result = must(
    shorterPeriod({
      worstMonthPercent: inputs.pw,
      periodHours: inputs.T,
      terrain: terrain[inputs.kind as keyof typeof terrain],
    }),
  );
  return { psw_pct: result.timePercent };
});

describe("public implementations, run with the same inputs [library-runs.json]", () => {
  // The last digits of the libraries' printed results are 12; the vectors' inputs are exact.
  const runs = vectors("library-runs").cases as unknown as {
    id: string;
    library_result: {
      deep: number;
      fading_at_A_3_10_40: number[];
      enh_not_exceeded_E_5_12: number[];
    };
  }[];
  const inputs = new Map(vectors("multipath-p530-18").cases.map((row) => [row.id, row.inputs]));
  it.each(runs.filter((run) => inputs.has(run.id)).map((run) => [run.id, run] as const))("%s", (id, run) => {
    const multipath = multipathOccurrence(inputs18(inputs.get(id)));
    const p0 = multipath.steps!.p0Percent;
    const distribution = fadeDistribution(p0);
    const { deep, fading_at_A_3_10_40, enh_not_exceeded_E_5_12 } = run.library_result;
    compare(p0 * 10 ** (-inputs.get(id).A / 10), deep, 1e-9, "deep");
    [3, 10, 40].forEach((depthDb, index) => {
      compare(fadeExceededPercent(distribution, depthDb), fading_at_A_3_10_40[index], 1e-9, `A ${depthDb}`);
    });
    if (p0 > 2000)
      return expect(enhancementExceeded({ occurrencePercent: p0, enhancementDb: 5 }).ok).toBe(false);
    [5, 12].forEach((enhancementDb, index) => {
      const result = must(enhancementExceeded({ occurrencePercent: p0, enhancementDb }));
      compare(result.notExceededPercent, enh_not_exceeded_E_5_12[index], 1e-9, `E ${enhancementDb}`);
    });
  });

  it("the example printed in a library's documentation follows from its occurrence factor", () => {
    const example = vectors("library-runs").cases.find(
      (row) => row.id === "covlib-doc-example",
    ) as unknown as {
      published: { pw_pct: number };
      derived: { p0_pct: number; hc_m: number; At_dB: number };
    };
    const result = must(explainFade(fadeDistribution(example.derived.p0_pct), 10));
    compare(result.timePercent, example.published.pw_pct, 1e-12, "pw");
    compare(result.steps.AtDb, example.derived.At_dB, 1e-12, "At");
  });
});

describe("refusals and limits", () => {
  const usual = inputs18(vectors("multipath-p530-18").cases[0]!.inputs);

  it("refuses what fades by sub-refractive diffraction, and shows how far it came", () => {
    const row = vectors("multipath-p530-18").cases.find((each) => each.id === "mp18-low-clearance-refuse")!;
    const result = multipathOccurrence(inputs18(row.inputs));
    expect(result.ok).toBe(false);
    expect(result.steps?.p0Percent).toBeGreaterThan(1000);
  });

  it("refuses antennas below the mean terrain", () => {
    const blocked = multipathOccurrence({ ...usual, dN75: 0, meanTerrainAslM: 130 });
    expect(blocked).toMatchObject({ ok: false, refusal: { code: "antennas-below-mean-terrain" } });
    expect(multipathOccurrence({ ...usual, dN75: 0, meanTerrainAslM: 121 }).ok).toBe(true);
  });

  it("takes antennas on the mean terrain, with the bulge of the Earth, and none below it", () => {
    // hc = h - d^2/102 - ht, of two antennas alike; at 10 km a bulge of 0.98 m.
    const at = (heightM: number) =>
      multipathOccurrence({
        ...usual,
        dN75: 0,
        distanceM: 10_000,
        antenna1AslM: heightM,
        antenna2AslM: heightM,
        meanTerrainAslM: 0,
      });
    expect(at(100 / 102)).toMatchObject({ ok: true, steps: { hcM: 0 } });
    expect(at(100 / 102 - 1e-9)).toMatchObject({
      ok: false,
      refusal: { code: "antennas-below-mean-terrain" },
    });
  });

  it("needs no multipath up to 5 km", () => {
    const short = { ...usual, distanceM: 5000 };
    expect(multipathOccurrence(short)).toMatchObject({ ok: true, occurrencePercent: 0, needed: false });
    expect(multipathOccurrence({ ...short, distanceM: 5001 })).toMatchObject({ ok: true, needed: true });
  });

  it("needs none by the older editions either, whatever the occurrence would be", () => {
    const beyond = { dN1: -2000, antenna1AslM: 0, antenna2AslM: 0, frequencyHz: 30e9 };
    const short = multipathOccurrence17({ ...beyond, distanceM: 5000 });
    expect(short).toMatchObject({ ok: true, occurrencePercent: 0, needed: false, validity: [] });
    expect(multipathOccurrence17({ ...beyond, distanceM: 5001 })).toMatchObject({
      ok: false,
      refusal: { code: "beyond-fit" },
    });
  });

  it("below the least occurrence nothing but the tail is left, by the share of the year", () => {
    expect(fadeDistribution(1e-21, 0.25)).toMatchObject({ AtDb: 0, ptPercent: 2.5e-22, timeFactor: 0.25 });
  });

  it("says when the frequency leaves the range", () => {
    expect(must(multipathOccurrence({ ...usual, frequencyHz: 60e9 })).validity[0]).toMatchObject({
      quantity: "frequency",
      value: 60,
    });
    expect(must(multipathOccurrence(usual)).validity).toEqual([]);
  });

  // At the equator and without inclination dG = 10.5 - 5.6 log 2.1 - 2.7 log d = 8.69557 - 2.7 log d: 0 at 1661.7 km.
  it("says when the year would fade more than its worst month", () => {
    const validityAt = (distanceM: number) =>
      must(annualConversion({ latitudeDeg: 0, distanceM, inclinationMrad: 0 })).validity;
    expect(validityAt(1_661_000)).toEqual([]);
    expect(validityAt(1_663_000)).toEqual([{ code: "conversion-negative" }]);
  });

  it("says when a path leaves the tested range of the older editions", () => {
    const older = { dN1: -200, antenna1AslM: 120, antenna2AslM: 140, frequencyHz: 7.5e9, distanceM: 40_000 };
    expect(must(multipathOccurrence17(older)).validity).toEqual([]);
    expect(must(multipathOccurrence17({ ...older, distanceM: 184_000, dN1: 0 })).validity).toEqual([]);
    expect(must(multipathOccurrence17({ ...older, distanceM: 186_000, dN1: 0 })).validity[0]).toMatchObject({
      quantity: "path length",
      value: 186,
    });
    expect(must(multipathOccurrence17({ ...older, frequencyHz: 38e9 })).validity[0]).toMatchObject({
      quantity: "frequency",
      value: 38,
    });
    expect(must(multipathOccurrence17({ ...older, antenna1AslM: 1700 })).validity[0]).toMatchObject({
      quantity: "path inclination",
      value: 39,
    });
  });

  // Year: A0.01 = 10 log(p0/0.01) - dG, so 100 % and dG 10 dB stand where 10 % stand in the worst month.
  it("takes the conversion off the fade depth for enhancement in the year", () => {
    const year = must(enhancementExceeded({ occurrencePercent: 100, enhancementDb: 5, conversionDb: 10 }));
    const month = must(enhancementExceeded({ occurrencePercent: 10, enhancementDb: 5 }));
    compare(year.exceededPercent, month.exceededPercent, 1e-12, "year");
  });

  it("has no outage without multipath", () => {
    const none = fadeDistribution(0);
    expect(fadeExceededPercent(none, 0.1)).toBe(0);
    expect(must(enhancementExceeded({ occurrencePercent: 0, enhancementDb: 3 })).exceededPercent).toBe(0);
  });

  it("caps the annual conversion from above, not from below", () => {
    expect(must(annualConversion({ latitudeDeg: 50, distanceM: 100, inclinationMrad: 0 })).conversionDb).toBe(
      10.8,
    );
    expect(
      must(annualConversion({ latitudeDeg: 10, distanceM: 42_000, inclinationMrad: 0 })).conversionDb,
    ).toBeLessThan(5);
  });

  it("refuses a period outside 1 to 720 hours and a fade too frequent for it", () => {
    expect(shorterPeriod({ worstMonthPercent: 0.004, periodHours: 720, terrain: "flat" }).ok).toBe(false);
    expect(shorterPeriod({ worstMonthPercent: 0.004, periodHours: 0.5, terrain: "flat" }).ok).toBe(false);
    expect(shorterPeriod({ worstMonthPercent: 2, periodHours: 1, terrain: "flat" }).ok).toBe(false);
  });

  const anything = fc.oneof(fc.double(), fc.double({ min: -1e4, max: 1e5, noNaN: true }));
  it("never shows NaN or Infinity, whatever comes in", () => {
    fc.assert(
      fc.property(fc.tuple(anything, anything, anything, anything, anything, anything, anything), (v) => {
        const [a, b, c, d, e, f, g] = v;
        const results = [
          multipathOccurrence({
            logK: a,
            dN75: b,
            distanceM: c,
            frequencyHz: d * 1e9,
            antenna1AslM: e,
            antenna2AslM: f,
            meanTerrainAslM: g,
          }),
          multipathOccurrence17({
            dN1: a,
            terrainRoughnessM: b,
            distanceM: c,
            frequencyHz: d * 1e9,
            antenna1AslM: e,
            antenna2AslM: f,
          }),
          enhancementExceeded({ occurrencePercent: a, enhancementDb: b, conversionDb: c }),
          annualConversion({ latitudeDeg: a, distanceM: b, inclinationMrad: c }),
          shorterPeriod({ worstMonthPercent: a, periodHours: b, terrain: "hilly" }),
          seriesMultipathOutage([
            { outageFraction: a, fadeMarginDb: b },
            { outageFraction: c, fadeMarginDb: d },
          ]),
        ];
        const inRefusal = (result: object) => ("steps" in result ? allFinite(result.steps) : true);
        for (const result of results) expect(result.ok ? allFinite(result) : inRefusal(result)).toBe(true);
      }),
      { numRuns: 2000 },
    );
  });
});

describe("properties of the distribution", () => {
  const p0 = fc.double({ min: -3, max: 3, noNaN: true }).map((log) => 10 ** log);
  const depth = fc.double({ min: 0.001, max: 60, noNaN: true });

  it("more margin never means more outage", () => {
    fc.assert(
      fc.property(p0, depth, depth, fc.double({ min: 0, max: 10.8, noNaN: true }), (occurrence, a, b, dG) => {
        const [small, large] = a < b ? [a, b] : [b, a];
        for (const each of [fadeDistribution(occurrence), annualFadeDistribution(occurrence, dG)]) {
          expect(fadeExceededPercent(each, large)).toBeLessThanOrEqual(
            fadeExceededPercent(each, small) * (1 + 1e-12),
          );
        }
      }),
    );
  });

  it("both branches meet at the transition depth, worst month and year", () => {
    fc.assert(
      fc.property(p0, fc.double({ min: 0, max: 10.8, noNaN: true }), (occurrence, dG) => {
        for (const each of [fadeDistribution(occurrence), annualFadeDistribution(occurrence, dG)]) {
          const below = fadeExceededPercent(each, each.AtDb - 1e-9);
          const above = fadeExceededPercent(each, each.AtDb);
          expect(Math.abs(below / above - 1)).toBeLessThan(1e-7);
        }
      }),
    );
  });

  it("vanishes with the occurrence factor, without a jump", () => {
    for (let log = -2; log > -30; log -= 0.25) {
      const here = fadeExceededPercent(fadeDistribution(10 ** log), 20);
      const less = fadeExceededPercent(fadeDistribution(10 ** (log - 0.25)), 20);
      expect(less).toBeLessThan(here);
    }
  });

  // The reference states it: the two ranges are fitted apart. 3 % of so rare an event is no figure's worth.
  it("enhancement is nearly continuous at 10 dB", () => {
    for (const occurrencePercent of [0.316, 10, 100, 1000]) {
      const at = must(enhancementExceeded({ occurrencePercent, enhancementDb: 10 })).exceededPercent;
      const above = must(
        enhancementExceeded({ occurrencePercent, enhancementDb: 10 + 1e-9 }),
      ).exceededPercent;
      expect(Math.abs(at / above - 1)).toBeLessThan(0.05);
    }
  });

  it("multipath vanishes with the path length", () => {
    const row = inputs18(vectors("multipath-p530-18").cases[0]!.inputs);
    let before = Number.POSITIVE_INFINITY;
    for (const distanceM of [30_000, 10_000, 3000, 1000, 100, 1, 1e-3]) {
      const p0Percent = must(multipathOccurrence({ ...row, distanceM })).steps.p0Percent;
      expect(p0Percent).toBeLessThan(before);
      before = p0Percent;
    }
    expect(before).toBeLessThan(1e-12);
  });
});

// Rec. ITU-R P.530-18 section 2.3.7.
describe("several hops (from memory, worked by hand)", () => {
  it("adds independent hops and takes the joint outage off", () => {
    expect(correlationExponent(5)).toBe(0.8);
    expect(correlationExponent(15)).toBeCloseTo(0.9, 12);
    expect(correlationExponent(25)).toBe(1);
    const deep = must(
      seriesMultipathOutage([
        { outageFraction: 1e-3, fadeMarginDb: 30 },
        { outageFraction: 2e-3, fadeMarginDb: 35 },
      ]),
    );
    expect(deep.outageFraction).toBeCloseTo(3e-3 - 2e-6, 15);
    expect(must(seriesMultipathOutage([])).outageFraction).toBe(0);
  });

  it("limits the joint outage to the smaller hop, and says so", () => {
    // (0.1 x 1e-6)^0.8 = 2.5e-6 exceeds the smaller hop's 1e-6.
    const shallow = must(
      seriesMultipathOutage([
        { outageFraction: 0.1, fadeMarginDb: 5 },
        { outageFraction: 1e-6, fadeMarginDb: 30 },
      ]),
    );
    expect(shallow.outageFraction).toBeCloseTo(0.1, 12);
    expect(shallow.validity).toHaveLength(1);
  });

  it("is never better than the worst hop", () => {
    const fraction = fc.double({ min: 0, max: 0.3, noNaN: true });
    const margin = fc.double({ min: 0, max: 40, noNaN: true });
    fc.assert(
      fc.property(fraction, fraction, margin, margin, (a, b, marginA, marginB) => {
        const result = must(
          seriesMultipathOutage([
            { outageFraction: a, fadeMarginDb: marginA },
            { outageFraction: b, fadeMarginDb: marginB },
          ]),
        );
        expect(result.outageFraction).toBeGreaterThanOrEqual(Math.max(a, b) - 1e-15);
      }),
    );
  });
});
