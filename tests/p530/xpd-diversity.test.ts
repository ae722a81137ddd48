/**
 * Cross-polarization of Rec. ITU-R P.530-18 sections 4.1 and 4.2; diversity and selective outage of sections 5.1 and 6.2,
 * whose formulas are from memory.
 */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { clearAirXpdOutage, precipitationXpdOutage } from "../../shared/propagation/p530/cross-polar.js";
import {
  frequencyDiversityImprovement,
  improvementAt,
  improvementRemark,
  relativeAmplitudeCorrelation,
  selectiveCorrelation,
  spaceAndFrequencyOutage,
  spaceDiversityImprovement,
  twoBranchOutage,
} from "../../shared/propagation/p530/diversity.js";
import { selectiveOutage } from "../../shared/propagation/p530/selective.js";
import { precipitationOutage } from "../../shared/propagation/p530/total.js";
import { allFinite, type Case, checkVectors, compare, must } from "./support.js";

checkVectors("xpd", ({ method, inputs }) => {
  const common = {
    frequencyHz: inputs.f * 1e9,
    carrierToInterferenceDb: inputs.CI,
    improvementDb: inputs.XPIF,
  };
  if (method === "xpd_clear") {
    const { outageFraction, steps } = must(
      clearAirXpdOutage({
        ...common,
        occurrencePercent: inputs.p0,
        antennaXpdDb: inputs.XPDg,
        transmitSeparationM: inputs.st ?? undefined,
      }),
    );
    const { XPD0Db, P0, eta, kXP, QDb, CDb, MXPDDb } = steps;
    return { XPD0_dB: XPD0Db, P0, eta, kXP, Q_dB: QDb, C_dB: CDb, MXPD_dB: MXPDDb, PXP: outageFraction };
  }
  const { time, formulaFraction, steps } = must(
    precipitationXpdOutage({ ...common, attenuation001Db: inputs.A001, u0Db: inputs.U0 }),
  );
  const { UDb, V, ApDb, m, n } = steps!;
  return { U_dB: UDb, V, Ap_dB: ApDb, m, n, PXPR: formulaFraction, n_in_range: time.bound === undefined };
});

const space = (inputs: Case["inputs"]) =>
  spaceDiversityImprovement({
    spacingM: inputs.S,
    frequencyHz: inputs.f * 1e9,
    distanceM: 1000 * inputs.d,
    gainDifferenceDb: inputs.V,
    occurrencePercent: inputs.p0,
  });

const frequency = (inputs: Case["inputs"]) =>
  frequencyDiversityImprovement({
    frequencyHz: inputs.f * 1e9,
    separationHz: inputs.df * 1e9,
    distanceM: 1000 * inputs.d,
  });

checkVectors("selective-and-diversity", ({ method, inputs }) => {
  const unprotected = {
    eta: inputs.eta,
    nonSelectiveFraction: inputs.Pns,
    selectiveFraction: inputs.Ps,
  };
  if (method === "selective") {
    const signature = (kind: "M" | "N") => ({
      widthHz: 1000e6 * inputs[`W${kind}`],
      depthDb: inputs[`B${kind}`],
      referenceDelayNs: inputs[`tr${kind}`],
    });
    const { outageFraction, steps } = must(
      selectiveOutage({
        occurrencePercent: inputs.p0,
        distanceM: 1000 * inputs.d,
        minimumPhase: signature("M"),
        nonMinimumPhase: signature("N"),
      }),
    );
    const { P0, tauMeanNs, eta, termMinimum, termNonMinimum } = steps;
    return { P0, tau_m_ns: tauMeanNs, eta, term_M: termMinimum, term_NM: termNonMinimum, Ps: outageFraction };
  }
  if (method === "space_div" || method === "freq_div") {
    const improvement = improvementAt(
      must(method === "space_div" ? space(inputs) : frequency(inputs)),
      inputs.F,
    );
    const { outageFraction, steps } = must(twoBranchOutage({ ...unprotected, improvement }));
    return { ...steps, I: improvement, Pd: outageFraction };
  }
  const { outageFraction, steps } = must(
    spaceAndFrequencyOutage({
      ...unprotected,
      spaceImprovement: improvementAt(must(space(inputs)), inputs.F),
      frequencyImprovement: improvementAt(must(frequency(inputs)), inputs.F),
      receivers: method === "space_freq_2rx" ? 2 : 4,
    }),
  );
  return { ...steps, kns2_space: steps!.kns2Space, kns2_freq: steps!.kns2Frequency, Pd: outageFraction };
});

describe("cross-polarization", () => {
  const path = {
    occurrencePercent: 5,
    antennaXpdDb: 30,
    carrierToInterferenceDb: 20,
    frequencyHz: 7.5e9,
  };

  it("knows paths without multipath and channels without margin", () => {
    expect(must(clearAirXpdOutage({ ...path, occurrencePercent: 0 })).outageFraction).toBe(0);
    const hopeless = clearAirXpdOutage({ ...path, carrierToInterferenceDb: 60 });
    expect(hopeless).toMatchObject({ ok: false });
    expect(hopeless.steps?.MXPDDb).toBeLessThan(0);
    // 2 dB short: P0 10^(0.2) would still be a share of time, and means nothing.
    const { CDb } = must(clearAirXpdOutage(path)).steps;
    const short = clearAirXpdOutage({ ...path, carrierToInterferenceDb: CDb! + 2 });
    expect(short).toMatchObject({ ok: false, refusal: { code: "discrimination-below-ratio" } });
  });

  it("below -3 continues the formula where an estimate is asked for, down to its own limit of m", () => {
    const rain = { attenuation001Db: 12, frequencyHz: 18.7e9, rare: "estimate" } as const;
    // xpd.json, xpdr-0: PXPR 5.302872852e-06 of the year at n -3.275; xpdr-1: m at its limit of 40.
    const below = must(precipitationXpdOutage({ ...rain, carrierToInterferenceDb: 20 })).time;
    compare(below.timePercent, 100 * 5.302872852e-6, 1e-8, "xpdr-0");
    expect(below.atMostPercent).toBe(0.001);
    const never = must(
      precipitationXpdOutage({ ...rain, carrierToInterferenceDb: 25, improvementDb: 20 }),
    ).time;
    expect(never).toEqual({ timePercent: 0, atMostPercent: 0.001 });
  });

  it("more interference never means less outage in rain, across 0.001 % and 1 %", () => {
    const ratio = fc.double({ min: -10, max: 80, noNaN: true });
    const dB = fc.double({ min: 0.1, max: 100, noNaN: true });
    fc.assert(
      fc.property(ratio, ratio, dB, (a, b, attenuation001Db) => {
        const [small, large] = [Math.min(a, b), Math.max(a, b)].map(
          (carrierToInterferenceDb) =>
            must(
              precipitationXpdOutage({
                attenuation001Db,
                frequencyHz: 18e9,
                carrierToInterferenceDb,
                rare: "estimate",
              }),
            ).time,
        );
        expect(small!.timePercent).toBeLessThanOrEqual(large!.timePercent * (1 + 1e-12));
        for (const { timePercent, atMostPercent } of [small!, large!])
          expect(timePercent).toBeLessThanOrEqual(atMostPercent ?? timePercent);
      }),
    );
  });

  it("bounds outside -3 <= n <= 0", () => {
    const rain = { attenuation001Db: 12, frequencyHz: 18.7e9, carrierToInterferenceDb: 20 };
    expect(must(precipitationXpdOutage(rain)).time).toEqual({ timePercent: 0.001, bound: "at most" });
    const hopeless = must(precipitationXpdOutage({ ...rain, carrierToInterferenceDb: 70 }));
    expect(hopeless.time).toEqual({ timePercent: 1, bound: "at least" });
    expect(hopeless.formulaFraction).toBeUndefined();
    expect(must(precipitationXpdOutage({ ...rain, attenuation001Db: 0 })).time).toEqual({ timePercent: 0 });
    // V = 12.8 f^0.19 up to 20 GHz, 22.6 above (Rec. ITU-R P.530-18 section 4.2).
    expect(must(precipitationXpdOutage({ ...rain, frequencyHz: 38e9 })).validity).toHaveLength(1);
    expect(must(precipitationXpdOutage({ ...rain, frequencyHz: 20e9 })).steps?.V).toBeCloseTo(
      12.8 * 20 ** 0.19,
      12,
    );
    expect(must(precipitationXpdOutage({ ...rain, frequencyHz: 20.1e9 })).steps?.V).toBe(22.6);
  });
});

describe("diversity", () => {
  // The fits are independent of each other: computed apart from this project, they join within 2e-4 and 1e-3.
  it("the fitted branches meet", () => {
    const jump = (curve: (x: number) => number, at: number) => Math.abs(curve(at + 1e-9) - curve(at));
    expect(jump(relativeAmplitudeCorrelation, 0.26)).toBeLessThan(2e-4);
    expect(jump(selectiveCorrelation, 0.5)).toBeLessThan(1e-3);
    expect(jump(selectiveCorrelation, 0.9628)).toBeLessThan(1e-3);
  });

  it("says where it does not help and where it is not meant to be used", () => {
    const poor = must(
      frequencyDiversityImprovement({
        frequencyHz: 8e9,
        separationHz: 0.06e9,
        distanceM: 44_000,
      }),
    );
    expect(improvementRemark("frequency", improvementAt(poor, 30))).toEqual({
      code: "improvement-below-five",
    });
    expect(improvementRemark("frequency", improvementAt(poor, 60))).toBeUndefined();
    const wide = must(
      frequencyDiversityImprovement({
        frequencyHz: 6e9,
        separationHz: 0.6e9,
        distanceM: 44_000,
      }),
    );
    expect(wide.steps.usedSeparationHz).toBeCloseTo(0.3e9, 3);
    expect(wide.validity).toContainEqual({ code: "separation-limited" });
    // Just at the limit nothing was cut.
    const widest = must(
      frequencyDiversityImprovement({ frequencyHz: 6e9, separationHz: 0.05 * 6e9, distanceM: 44_000 }),
    );
    expect(widest.validity).not.toContainEqual({ code: "separation-limited" });
    const near = must(
      spaceDiversityImprovement({
        spacingM: 1,
        frequencyHz: 18e9,
        distanceM: 10_000,
        gainDifferenceDb: 0,
        occurrencePercent: 1,
      }),
    );
    expect(near.validity).toHaveLength(3);
  });

  it("has defined ends", () => {
    const none = { eta: 0, nonSelectiveFraction: 0, selectiveFraction: 0 };
    expect(must(twoBranchOutage({ ...none, improvement: 100 })).outageFraction).toBe(0);
    expect(twoBranchOutage({ ...none, eta: 0.1, improvement: 100 }).ok).toBe(false);
    expect(twoBranchOutage({ ...none, eta: 0.1, improvement: 0 }).ok).toBe(false);
  });
});

describe("selective and total outage", () => {
  const signature = { widthHz: 30e6, depthDb: 20, referenceDelayNs: 6.3 };

  it("without multipath nothing is selective", () => {
    const calm = { occurrencePercent: 0, distanceM: 30_000, minimumPhase: signature };
    expect(must(selectiveOutage(calm)).outageFraction).toBe(0);
    expect(
      must(selectiveOutage({ ...calm, occurrencePercent: 5, distanceM: 1e-3 })).outageFraction,
    ).toBeLessThan(1e-20);
  });

  // At p0 = 100 %, eta = 1 - e^-0.2 = 0.181269, and 50 km, tau_m = 0.7 ns: of two alike, 30 MHz wide, 20 dB deep, Ps is
  // 2.15 x 0.181269 x 2 x 0.03 x 0.1 x 0.49/6.3 = 1.81873e-4. Ps grows with the width: 1 at 164.95 GHz.
  it("is refused where the signature would bring the receiver down for more than the whole time, with its steps", () => {
    const at = (widthHz: number) =>
      selectiveOutage({ occurrencePercent: 100, distanceM: 50_000, minimumPhase: { ...signature, widthHz } });
    expect(must(at(30e6)).outageFraction).toBeCloseTo(1.81873e-4, 9);
    expect(must(at(164.9e9)).outageFraction).toBeCloseTo(0.9997, 4);
    expect(at(165e9)).toEqual({
      ok: false,
      refusal: { code: "signature-too-wide" },
      steps: expect.objectContaining({ P0: 1, tauMeanNs: expect.closeTo(0.7, 12) }),
    });
  });

  it("takes the larger in precipitation", () => {
    const below = { timePercent: 0.001, bound: "at most" } as const;
    const above = { timePercent: 1, bound: "at least" } as const;
    const some = { timePercent: 0.02 };
    expect(precipitationOutage(some)).toBe(some);
    expect(precipitationOutage(some, below)).toBe(some);
    expect(precipitationOutage(below, some)).toBe(some);
    expect(precipitationOutage(some, above)).toBe(above);
    expect(precipitationOutage({ timePercent: 1 }, above)).toBe(above);
    expect(precipitationOutage(below, { timePercent: 0.001 })).toEqual({ timePercent: 0.001 });
    // An estimate is as large as it says; of two zeros the one that may be more stays.
    const estimate = { timePercent: 0.0004, atMostPercent: 0.001 };
    const nothing = { timePercent: 0, atMostPercent: 0.001 };
    expect(precipitationOutage(some, estimate)).toBe(some);
    expect(precipitationOutage({ timePercent: 0 }, estimate)).toBe(estimate);
    expect(precipitationOutage({ timePercent: 0 }, nothing)).toBe(nothing);
    expect(precipitationOutage(nothing, { timePercent: 0 })).toBe(nothing);
    expect(precipitationOutage(nothing, estimate)).toBe(estimate);
  });

  it("never shows NaN or Infinity, whatever comes in", () => {
    const anything = fc.oneof(
      fc.double(),
      fc.double({ min: -10, max: 1e4, noNaN: true }),
      fc.double({ min: 0, max: 1 }),
    );
    fc.assert(
      fc.property(anything, anything, anything, anything, anything, anything, (a, b, c, d, e, f) => {
        const unprotected = { eta: a, nonSelectiveFraction: b, selectiveFraction: c };
        const results = [
          clearAirXpdOutage({
            occurrencePercent: a,
            antennaXpdDb: b,
            carrierToInterferenceDb: c,
            frequencyHz: d * 1e9,
            improvementDb: e,
            transmitSeparationM: f,
          }),
          precipitationXpdOutage({
            attenuation001Db: a,
            frequencyHz: b * 1e9,
            carrierToInterferenceDb: c,
            improvementDb: d,
            u0Db: e,
          }),
          spaceDiversityImprovement({
            spacingM: a,
            frequencyHz: b * 1e9,
            distanceM: c,
            gainDifferenceDb: d,
            occurrencePercent: e,
          }),
          frequencyDiversityImprovement({ frequencyHz: a * 1e9, separationHz: b * 1e9, distanceM: c }),
          twoBranchOutage({ ...unprotected, improvement: d }),
          spaceAndFrequencyOutage({
            ...unprotected,
            spaceImprovement: d,
            frequencyImprovement: e,
            receivers: 2,
          }),
          spaceAndFrequencyOutage({
            ...unprotected,
            spaceImprovement: d,
            frequencyImprovement: e,
            receivers: 4,
          }),
          selectiveOutage({
            occurrencePercent: a,
            distanceM: b,
            minimumPhase: { widthHz: c * 1e6, depthDb: d, referenceDelayNs: e },
          }),
        ];
        for (const result of results) {
          const refusalSteps = result.ok ? result : "steps" in result ? result.steps : undefined;
          expect(allFinite(refusalSteps)).toBe(true);
        }
      }),
      { numRuns: 2000 },
    );
  });
});

it("an improvement of just 1, or of just 5 by frequency, is none to remark on", () => {
  expect(improvementRemark("space", 1)).toBeUndefined();
  expect(improvementRemark("space", 0.999)).toEqual({ code: "diversity-does-not-help" });
  expect(improvementRemark("frequency", 5)).toBeUndefined();
  expect(improvementRemark("frequency", 4.999)).toEqual({ code: "improvement-below-five" });
});
