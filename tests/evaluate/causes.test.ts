/** Causes of outage beside flat fading and rain: each by hand from the formulas, and as parts of the whole. */

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { RadioMode } from "../../shared/design/catalogue.js";
import type { Hop } from "../../shared/design/design.js";
import { METHODS } from "../../shared/evaluate/account/methods.js";
import type { Cause } from "../../shared/evaluate/account/outage-result.js";
import type { HopResult } from "../../shared/evaluate/account/result.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { explainHop } from "../../shared/report/explain.js";
import { shown } from "../../shared/words/message.js";
import { objectiveMessage } from "../../shared/words/objectives.js";
import {
  ANTENNA,
  CLIMATE,
  direction,
  end,
  KELD,
  lacksTold,
  levelGround,
  makeHop,
  notesTold,
  notFinite,
  QAM128,
  QPSK,
  R18,
  TARN,
  TRUNK,
} from "./builders.js";

/** About 30 km at 7 GHz, inside the ranges of every method; large antennas, some 35 dB of margin. */
const FAR = { ...TARN, position: { latitudeDeg: 47.7, longitudeDeg: -30.22 } };
const antenna = { ...ANTENNA, band: undefined, gain: [{ gainDbi: 41 }], crossPolarDiscriminationDb: 30 };
const F = [7.2, 7.361] as const;

function longHop(more: Partial<Hop> = {}, atKeld: object = {}, atTarn: object = {}): Hop {
  return makeHop({
    ends: [
      end(KELD, "high", { antenna, antennaHeightM: 60, transmitFrequencyHz: F[0] * 1e9, ...atKeld }),
      end(FAR, "low", { antenna, antennaHeightM: 80, transmitFrequencyHz: F[1] * 1e9, ...atTarn }),
    ],
    climate: { ...CLIMATE, logK: -3.6 },
    ...more,
  });
}

const LONG_M = evaluateHop(longHop(), levelGround(30_000)).distanceM!;
const GROUND = levelGround(LONG_M);
const judge = (hop: Hop) => evaluateHop(hop, GROUND);
const there = (result: HopResult) => direction(result, "KELD").modes[0]!;
const cause = (result: HopResult, wanted: Cause) => there(result).causes!.find((one) => one.cause === wanted);

/** A figure on the way to others, as the explanation has it. */
function stepOf(hop: Hop, key: string): number {
  const steps = explainHop(hop, judge(hop)).flatMap((one) => one.steps);
  return Number.parseFloat(steps.find((step) => step.key === key)!.value);
}

/** p0 of section 2.3.1 from the flat outage of a deep fade. */
function occurrence(result: HopResult): number {
  const { worstMonthPercent } = cause(result, "flat fading")!;
  return worstMonthPercent! * 10 ** (there(result).fadeMarginDb / 10);
}

function withMode(more: Partial<RadioMode>, hop: Partial<Hop> = {}): Hop {
  const mode = { ...QAM128, ...more };
  return longHop({ modes: [mode], radio: { ...R18, modes: [mode] }, ...hop });
}

// Rec. ITU-R P.530-18 section 5.1 as written down in the project's reference (from memory).
describe("selective fading", () => {
  test("from a signature", () => {
    const result = judge(withMode({ signature: { widthHz: 30e6, depthDb: 20, referenceDelayNs: 6.3 } }));
    const P0 = occurrence(result) / 100;
    const eta = 1 - Math.exp(-0.2 * P0 ** 0.75);
    const tau = 0.7 * (LONG_M / 50_000) ** 1.3;
    const Ps = 2.15 * eta * 2 * 0.03 * 10 ** (-20 / 20) * (tau ** 2 / 6.3);
    expect(cause(result, "selective fading")!.worstMonthPercent! / (100 * Ps)).toBeCloseTo(1, 9);
  });

  test("from a dispersive margin", () => {
    const result = judge(withMode({ dispersiveMarginDb: 50 }));
    expect(cause(result, "selective fading")!.worstMonthPercent! / (occurrence(result) * 1e-5)).toBeCloseTo(
      1,
      9,
    );
  });

  test("adds to flat fading, and is told when it is not counted", () => {
    const result = judge(withMode({ dispersiveMarginDb: 45 }));
    const [flat, selective] = [cause(result, "flat fading")!, cause(result, "selective fading")!];
    expect(there(result).multipath!.timePercent).toBeCloseTo(flat.yearPercent + selective.yearPercent, 12);
    expect(there(result).multipathWorstMonthPercent).toBeCloseTo(
      flat.worstMonthPercent! + selective.worstMonthPercent!,
      12,
    );
    expect(notesTold(judge(longHop())).join(" ")).toContain("Selective fading is not counted");
  });

  test("is left out with the methods that are not checked", () => {
    const climate = { ...CLIMATE, uncheckedMethods: "leave-out" } as const;
    const result = judge(
      withMode({ signature: { widthHz: 30e6, depthDb: 20, referenceDelayNs: 6.3 } }, { climate }),
    );
    expect(cause(result, "selective fading")).toBeUndefined();
    expect(notesTold(result).join(" ")).toContain("Selective fading: left out");
    expect(result.methods.filter((id) => METHODS[id].standing === "from memory")).toEqual([]);
  });
});

describe("diversity", () => {
  const big = { antenna: { ...antenna, gain: [{ gainDbi: 45 }] } };
  const diversity = { ...big, diversityAntenna: big.antenna, diversityHeightM: 68 };
  const SPACE = { arrangement: { name: "1+1 space-diversity" } };

  // Sections 6.2.4 and 6.2.6, without selective fading: P = Pns/I.
  test("of space divides the flat outage by the improvement", () => {
    const bare = judge(longHop({}, big, big));
    const result = judge(longHop(SPACE, big, diversity));
    const p0 = occurrence(bare);
    const marginDb = there(bare).fadeMarginDb;
    const I =
      (1 - Math.exp(-0.04 * 12 ** 0.87 * F[0] ** -0.12 * (LONG_M / 1000) ** 0.48 * p0 ** -1.04)) *
      10 ** (marginDb / 10);
    expect(I).toBeGreaterThan(10);
    const found = cause(result, "fading with diversity")!;
    expect(found.worstMonthPercent! / (cause(bare, "flat fading")!.worstMonthPercent! / I)).toBeCloseTo(1, 6);
    expect(cause(result, "flat fading")).toBeUndefined();
    // Towards KELD there is no second antenna.
    expect(direction(result, "TARN").modes[0]!.causes![0]!.cause).not.toBe("fading with diversity");
    expect(notesTold(result).join(" ")).toContain("not counted towards KELD");
  });

  test("of frequency counts with a second channel only", () => {
    const arrangement = { name: "1+1 frequency-diversity" };
    const furtherChannels = [
      { plan: "P", bandwidthHz: 28e6, number: 3, standing: "stated" as const, separationHz: 84e6 },
    ];
    expect(cause(judge(longHop({ arrangement }, big, big)), "fading with diversity")).toBeUndefined();
    const one = cause(judge(longHop({ arrangement, furtherChannels }, big, big)), "fading with diversity")!;
    const flat = cause(judge(longHop({}, big, big)), "flat fading")!;
    // Section 6.2.5, the conservative form.
    const I =
      (80 / (F[0] ** 2 * (LONG_M / 1000))) *
      (0.084 / F[0]) *
      10 ** (there(judge(longHop({}, big, big))).fadeMarginDb / 10);
    expect(one.worstMonthPercent! / (flat.worstMonthPercent! / I)).toBeCloseTo(1, 6);
    const codes = (more: Partial<Hop>) =>
      judge(longHop({ arrangement, ...more }, big, big)).notes.map(({ code }) => code);
    expect(codes({})).toContain("frequency-diversity-not-counted");
    expect(codes({ furtherChannels })).not.toContain("frequency-diversity-not-counted");
  });

  test("of little use is remarked: below five times by frequency, and where a second antenna makes it worse", () => {
    const furtherChannels = [
      { plan: "P", bandwidthHz: 28e6, number: 3, standing: "stated" as const, separationHz: 300e6 },
    ];
    const second = { arrangement: { name: "1+1 frequency-diversity" }, furtherChannels };
    const seen = { "improvement-below-five": new Set(), "diversity-does-not-help": new Set() };
    for (let lossDb = 0; lossDb <= 36; lossDb += 3) {
      const [first, at] = [{ ...big, extraLossDb: lossDb }, diversity] as const;
      for (const [more, code] of [
        [second, "improvement-below-five"],
        [SPACE, "diversity-does-not-help"],
      ] as const) {
        const result = judge(longHop(more, first, more === SPACE ? at : big));
        const improvements = (["KELD", "TARN"] as const).map((from, i) => {
          const { fadeMarginDb } = direction(result, from).modes[0]!;
          const fade = 10 ** (fadeMarginDb / 10);
          // Sections 6.2.5 and 6.2.4; towards KELD there is no second antenna.
          if (more === second) return (80 / (F[i]! ** 2 * (LONG_M / 1000))) * (0.3 / F[i]!) * fade;
          const p0 = occurrence(judge(longHop({}, big, big)));
          const I = 1 - Math.exp(-0.04 * 12 ** 0.87 * F[0] ** -0.12 * (LONG_M / 1000) ** 0.48 * p0 ** -1.04);
          return i === 0 ? I * fade : Number.POSITIVE_INFINITY;
        });
        const isTold = result.notes.some(
          (one) => one.code === "method-remark" && one.of === "diversity" && one.remark.code === code,
        );
        expect(isTold, `${code} ${lossDb} dB`).toBe(Math.min(...improvements) < (more === second ? 5 : 1));
        seen[code].add(isTold);
      }
    }
    expect(Object.values(seen).map(({ size }) => size)).toEqual([2, 2]);
  });

  test("that its method refuses is told, and counts nothing", () => {
    // A spacing beyond all masts: the exponent of the improvement overflows, and nothing is made of it.
    const far = { ...big, diversityAntenna: big.antenna, diversityHeightM: 1e300 };
    const result = judge(longHop(SPACE, big, far));
    expect(cause(result, "fading with diversity")).toBeUndefined();
    expect(notFinite(result)).toEqual([]);
  });

  test("never makes a hop worse, whatever its spacing and margin", () => {
    const fades = fc.record({
      spacingM: fc.double({ min: 0.1, max: 40, noNaN: true }),
      extraLossDb: fc.double({ min: 0, max: 40, noNaN: true }),
      dispersiveMarginDb: fc.double({ min: 20, max: 60, noNaN: true }),
    });
    fc.assert(
      fc.property(fades, ({ spacingM, extraLossDb, dispersiveMarginDb }) => {
        const modes = [{ ...QAM128, dispersiveMarginDb }];
        const at = (hop: Partial<Hop>) =>
          there(
            judge(
              longHop(
                { modes, ...hop },
                { extraLossDb },
                { diversityAntenna: antenna, diversityHeightM: 80 - spacingM },
              ),
            ),
          ).multipath?.timePercent ?? 0;
        expect(at(SPACE)).toBeLessThanOrEqual(at({}));
      }),
    );
  });
});

// Sections 4.1 and 4.2 as read in two implementations.
describe("cross-polar interference", () => {
  const XPIC = { arrangement: { name: "2+0 xpic" } };
  const mode = { requiredSnrDb: 24 };

  test("in clear air", () => {
    const result = judge(withMode(mode, { ...XPIC, radio: { ...R18, xpicGainDb: 18 } }));
    const P0 = occurrence(result) / 100;
    const eta = 1 - Math.exp(-0.2 * P0 ** 0.75);
    const M = 30 + 5 - 10 * Math.log10((0.7 * eta) / P0) - 24 + 18;
    expect(
      cause(result, "cross-polar interference in clear air")!.worstMonthPercent! /
        (100 * P0 * 10 ** (-M / 10)),
    ).toBeCloseTo(1, 9);
  });

  test("of a mode that states no ratio, from its threshold over the noise", () => {
    const found = (mode: Partial<RadioMode>, noiseFigureDb: number | undefined) =>
      cause(
        judge(withMode(mode, { ...XPIC, radio: { ...R18, xpicGainDb: 18, noiseFigureDb } })),
        "cross-polar interference in clear air",
      )?.worstMonthPercent;
    // 10 log(k T0 B) + 30 + F with B = 55 MHz/1.15, T0 = 290 K: the threshold of -69 dBm lies this far above.
    const ratioDb = -69 - (10 * Math.log10((1.380649e-23 * 290 * 55e6) / 1.15) + 30 + 6.5);
    expect(found({}, 6.5)! / found({ requiredSnrDb: ratioDb }, 6.5)!).toBeCloseTo(1, 9);
    expect(found({}, undefined)).toBeUndefined();
    expect(found({ requiredSnrDb: ratioDb }, undefined)).toBeGreaterThan(0);
  });

  test("in rain counts where it takes more than the attenuation", () => {
    const climate = { ...CLIMATE, logK: -3.6, rainRateMmPerH: 90 };
    const wet = (xpicGainDb: number) =>
      there(judge(withMode(mode, { ...XPIC, climate, radio: { ...R18, xpicGainDb } })));
    expect(wet(0).causes!.map((one) => one.cause)).toContain("cross-polar interference in rain");
    expect(wet(40).causes!.map((one) => one.cause)).toContain("rain");
    expect(wet(0).rain!.timePercent).toBeGreaterThan(wet(40).rain!.timePercent);
  });

  test("without a stated gain the usual one is a default; without xpd nothing is counted, and told", () => {
    expect(judge(withMode(mode, XPIC)).inputs).toContainEqual(
      expect.objectContaining({
        code: "canceller-gain",
        gainDb: 20,
        origin: "default",
      }),
    );
    const bare = { ...antenna, crossPolarDiscriminationDb: undefined };
    const hop = withMode(mode, XPIC);
    const result = judge({ ...hop, ends: [{ ...hop.ends[0], antenna: bare }, hop.ends[1]] });
    expect(cause(result, "cross-polar interference in clear air")).toBeUndefined();
    expect(notesTold(result).join(" ")).toContain("xpd is not in the catalogue");
  });
});

describe("rain", () => {
  test("measured on the path takes the place of the rain rate, scaled with frequency and polarization", () => {
    const measured = (attenuation001Db: number, frequencyHz: number, polarization?: "horizontal") =>
      judge(longHop({ measuredRain: { attenuation001Db, frequencyHz, polarization } })).rainAttenuation001Db!;
    expect(measured(22, F[1] * 1e9)).toBeCloseTo(22, 9);
    // Section 2.4.3 by hand, 18 to 7.361 GHz.
    const phi = (f: number) => f ** 2 / (1 + 1e-4 * f ** 2);
    const H = 1.12e-3 * Math.sqrt(phi(F[1]) / phi(18)) * (phi(18) * 22) ** 0.55;
    expect(measured(22, 18e9)).toBeCloseTo(22 * (phi(F[1]) / phi(18)) ** (1 - H), 9);
    const scaled = longHop({ measuredRain: { attenuation001Db: 22, frequencyHz: 18e9 } });
    const there = 1.12e-3 * Math.sqrt(phi(F[0]) / phi(18)) * (phi(18) * 22) ** 0.55;
    expect(stepOf(scaled, "A2Db")).toBeCloseTo(22 * (phi(F[0]) / phi(18)) ** (1 - there), 3);
    // Section 2.4.4: 300 A/(335 + A).
    expect(measured(22, F[1] * 1e9, "horizontal")).toBeCloseTo((300 * 22) / (335 + 22), 9);
  });

  test("measured in one polarization is turned into the other, and into a slant one not at all", () => {
    const measured = (had: "vertical" | "horizontal" | undefined, polarization: Hop["polarization"]) =>
      judge(
        longHop({
          polarization,
          measuredRain: { attenuation001Db: 22, frequencyHz: F[1] * 1e9, polarization: had },
        }),
      );
    const between = [
      ["vertical", "slant"],
      ["horizontal", "slant"],
    ] as const;
    for (const [had, wanted] of between) {
      const { rainAttenuation001Db, missing } = measured(had, wanted);
      expect(rainAttenuation001Db).toBeUndefined();
      expect(missing).toContainEqual({
        code: "refusal",
        of: ["rain"],
        reason: { code: "rain-turned-from-slant" },
      });
    }
    for (const [had, wanted] of [
      [undefined, "slant"],
      ["vertical", "horizontal"],
      ["horizontal", "horizontal"],
    ] as const) {
      const { rainAttenuation001Db, missing } = measured(had, wanted);
      expect(rainAttenuation001Db).toBeGreaterThan(0);
      expect(missing).toEqual([]);
    }
  });

  test("measured where its method does not reach gives no figure of rain, and says so", () => {
    const at = (frequencyHz: number) =>
      judge(longHop({ measuredRain: { attenuation001Db: 22, frequencyHz } }));
    // From 1 GHz on.
    expect(at(1e9).rainAttenuation001Db).toBeGreaterThan(0);
    const refused = at(0.99e9);
    expect(refused.rainAttenuation001Db).toBeUndefined();
    expect(refused.availability).toBeUndefined();
    expect(refused.methods).not.toContain("rain-frequency");
    expect(refused.missing).toContainEqual(expect.objectContaining({ code: "refusal", of: ["rain"] }));
    expect(notFinite(refused)).toEqual([]);
  });

  test("with wet snow: none above it, more in the melting layer, rain alone far below", () => {
    const at = (rainHeightM: number) =>
      judge(
        longHop({ climate: { ...CLIMATE, rainRateMmPerH: 120, rainHeightM, rainProbabilityPercent: 5 } }),
      );
    const rain = (result: HopResult) => there(result).rain!.timePercent;
    const alone = judge(longHop({ climate: { ...CLIMATE, rainRateMmPerH: 120 } }));
    expect(rain(at(10_000))).toBe(rain(alone));
    expect(rain(at(500))).toBeGreaterThan(rain(alone));
    expect(rain(at(-2300))).toBe(0);
    expect(at(500).methods).toContain("wet-snow");
    // Wet snow takes more than rain does: its multiplier is greatest where it melts.
    const snow = longHop({ climate: { ...CLIMATE, rainHeightM: 500, rainProbabilityPercent: 5 } });
    expect(stepOf(snow, "greatestMultiplier")).toBeGreaterThan(1);
    const unsure = judge(longHop({ climate: { ...CLIMATE, rainHeightM: 500 } }));
    expect(notesTold(unsure).join(" ")).toContain("the probability of rain is not known");
  });

  test("in the worst month follows P.841 with the design's parameters", () => {
    const month = (climate: object) => {
      const found = judge(longHop({ climate: { ...CLIMATE, rainRateMmPerH: 120, ...climate } }));
      const { yearPercent, worstMonthPercent } = cause(found, "rain")!;
      return { yearPercent, worstMonthPercent };
    };
    const { yearPercent: p, worstMonthPercent } = month({});
    expect(worstMonthPercent! / (2.85 * p ** 0.87)).toBeCloseTo(1, 9);
    expect(month({ worstMonthQ1: 3, worstMonthBeta: 0.2 }).worstMonthPercent! / (3 * p ** 0.8)).toBeCloseTo(
      1,
      9,
    );
    expect(month({ uncheckedMethods: "leave-out" }).worstMonthPercent).toBeUndefined();
  });

  test("on 45 degrees lies between the two polarizations", () => {
    const a001 = (polarization: "horizontal" | "vertical" | "slant") =>
      judge(longHop({ polarization })).rainAttenuation001Db!;
    expect(a001("slant")).toBeGreaterThan(a001("vertical"));
    expect(a001("slant")).toBeLessThan(a001("horizontal"));
  });
});

describe("multipath methods", () => {
  const p0 = (climate: Hop["climate"]) =>
    occurrence(judge(longHop({ climate: { rainRateMmPerH: 34, ...climate } })));
  const d = LONG_M / 1000;
  const ep = 20 / d;

  // Rec. ITU-R P.530-17 section 2.3.1.
  test("preceding, detailed with a roughness", () => {
    const K = 10 ** (-4.4 + 0.0027 * 250) * (10 + 20) ** -0.46;
    const expected = K * d ** 3.4 * (1 + ep) ** -1.03 * F[0] ** 0.8 * 10 ** (-0.00076 * 260);
    expect(p0({ dN1: -250, terrainRoughnessM: 20, multipathMethod: "preceding" }) / expected).toBeCloseTo(
      1,
      6,
    );
  });

  test("quick, and quick with a gradient assumed, which says so", () => {
    const expected = (dN1: number) =>
      10 ** (-4.6 - 0.0027 * dN1) * d ** 3.1 * (1 + ep) ** -1.29 * F[0] ** 0.8 * 10 ** (-0.00089 * 260);
    expect(p0({ dN1: -250, multipathMethod: "quick" }) / expected(-250)).toBeCloseTo(1, 6);
    expect(p0({ multipathMethod: "quick" }) / expected(-300)).toBeCloseTo(1, 6);
    const assumed = judge(longHop({ climate: { rainRateMmPerH: 34, multipathMethod: "quick" } }));
    expect(assumed.availability!.planningOnly).toBe(true);
    expect(assumed.inputs).toContainEqual(expect.objectContaining({ code: "dn1", origin: "default" }));
    expect(
      lacksTold(judge(longHop({ climate: { rainRateMmPerH: 34, multipathMethod: "current" } }))),
    ).toContain("needs logK and dN75");
    // A method that was chosen is not replaced by another.
    const preceding = judge(
      longHop({ climate: { rainRateMmPerH: 34, multipathMethod: "preceding", terrainRoughnessM: 20 } }),
    );
    expect(lacksTold(preceding)).toContain("the preceding method needs dN1");
    expect(there(preceding).multipath).toBeUndefined();
    expect(preceding.inputs.map(({ code }) => code)).not.toContain("dn1");
  });
});

describe("degradation and adaptive modes", () => {
  test("interference takes from the margin what it adds to the threshold", () => {
    const [without, withIt] = [judge(longHop()), judge(longHop({ degradationDb: 2.5 }))].map(there);
    expect(without!.fadeMarginDb - withIt!.fadeMarginDb).toBeCloseTo(2.5, 12);
    expect(withIt!.thresholdDbm).toBe(without!.thresholdDbm);
  });

  test("times in use and outage of the lowest mode fill the year; the mean capacity follows", () => {
    const modes = [QPSK, QAM128];
    const radio = { ...R18, modes, hysteresisDb: 3 };
    const found = direction(judge(longHop({ modes, radio })), "KELD");
    const [low, high] = found.modes.map((mode) => mode.timeInUsePercent!);
    expect(low! + high! + 100 - found.modes[0]!.availabilityPercent!).toBeCloseTo(100, 9);
    expect(found.expectedCapacityBps! / 1e6).toBeCloseTo((low! * 78 + high! * 310) / 100, 6);
    // A mode above is lost at least as long as those below it, however many there are.
    const third = { ...QPSK, modulation: "16QAM", thresholdDbm: -86.5 };
    const three = { ...R18, modes: [QPSK, third, QAM128] };
    const of = direction(judge(longHop({ modes: three.modes, radio: three })), "KELD");
    const times = of.modes.map((mode) => mode.timeInUsePercent!);
    expect(Math.min(...times)).toBeGreaterThanOrEqual(0);
    expect(times.reduce((sum, one) => sum + one, 0) + 100 - of.modes[0]!.availabilityPercent!).toBeCloseTo(
      100,
      9,
    );
    expect(times[0]).toBe(0);
    const eager = direction(judge(longHop({ modes, radio: { ...radio, hysteresisDb: 0 } })), "KELD");
    expect(eager.expectedCapacityBps!).toBeGreaterThan(found.expectedCapacityBps!);
  });

  test("a share of time is an estimate where the rain that it rests on is one, with hysteresis too", () => {
    const modes = [QPSK, QAM128];
    const estimated = (hysteresisDb: number, rainRateMmPerH: number) => {
      const climate = { ...CLIMATE, logK: -3.6, rainRateMmPerH };
      const hop = longHop({ modes, radio: { ...R18, modes, hysteresisDb }, climate }, { extraLossDb: 20 });
      return direction(judge(hop), "KELD").modes.map((mode) => [
        mode.rain!.atMostPercent !== undefined,
        mode.timeInUseEstimated,
      ]);
    };
    for (const hysteresisDb of [0, 3]) {
      expect(estimated(hysteresisDb, 150)).toEqual([
        [false, undefined],
        [false, undefined],
      ]);
      expect(estimated(hysteresisDb, 10)).toEqual([
        [true, true],
        [true, true],
      ]);
    }
  });

  test("a mode without a level for it is never in use, whatever is known of fading", () => {
    const modes = [QPSK, QAM128];
    for (const climate of [CLIMATE, {}])
      for (const hysteresisDb of [0, 3]) {
        const hop = longHop({ modes, radio: { ...R18, modes, hysteresisDb }, climate }, { extraLossDb: 80 });
        const found = direction(judge(hop), "KELD");
        for (const { fadeMarginDb } of found.modes) expect(fadeMarginDb).toBeLessThan(0);
        expect(found.modes.map(({ timeInUsePercent }) => timeInUsePercent)).toEqual([0, 0]);
        expect(found.expectedCapacityBps).toBe(0);
      }
  });

  test("the committed mode is the highest that meets the objective both ways", () => {
    const modes = [QPSK, QAM128];
    const committed = (availabilityPercent: number) =>
      judge(longHop({ modes, radio: { ...R18, modes }, objective: { ...TRUNK, availabilityPercent } }))
        .availability!.committed;
    expect(committed(99)).toEqual({ modulation: "128QAM", capacityBps: 310e6 });
    expect(committed(99.9999999)).toBeUndefined();
  });
});

describe("equipment", () => {
  const radio = { ...R18, mtbfHours: 50 * 8766 };
  const of = (name: string, more: object = {}) =>
    judge(longHop({ arrangement: { name }, radio: { ...radio, ...more }, repairHours: 24 })).availability!;
  // A unit of 50 years and 24 h: 24/(438 300 + 24).
  const u = 24 / 438_324;

  test("two ends in series, protection by pairs, carriers in series", () => {
    expect(of("1+0").equipment!.unavailabilityPercent / (100 * (1 - (1 - u) ** 2))).toBeCloseTo(1, 9);
    expect(of("1+1 hot-standby").equipment!.unavailabilityPercent / (200 * u ** 2)).toBeCloseTo(1, 6);
    expect(of("2+0 xpic").equipment!.unavailabilityPercent / (100 * (1 - (1 - u) ** 4))).toBeCloseTo(1, 9);
    // n+1 per channel: about (n + 1)/2 u^2 an end.
    expect(of("3+1 xpic").equipment!.unavailabilityPercent / (2 * 100 * 2 * u ** 2)).toBeCloseTo(1, 3);
  });

  test("switching over adds its interruptions", () => {
    const extra = of("1+1 hot-standby", { switchOverHours: 0.05 }).equipment!;
    expect(extra.switchOverPercent! / ((100 * 2 * 0.05) / 438_300)).toBeCloseTo(1, 9);
  });

  test("stands beside propagation and in the total", () => {
    const found = of("1+0");
    expect(found.totalPercent).toBeCloseTo(
      found.availabilityPercent - found.equipment!.unavailabilityPercent,
      12,
    );
    expect(found.outage.secondsPerYear / found.outage.yearPercent).toBeCloseTo(315_576, 6);
    expect(judge(longHop()).availability!.equipment).toBeUndefined();
  });
});

describe("objectives of a link", () => {
  const held = (objective: object) =>
    judge(longHop({ objective: { ...TRUNK, ...objective } })).objectives?.[0];

  test("F.1703: the share by length of B L/2500 km + C", () => {
    const found = held({
      availabilityClass: { portion: "long-haul", linkLengthM: 180_000, propagationPercent: 50 },
    })!;
    const link = 1.9e-3 * (180 / 2500) + 1.1e-4;
    expect(found.allowedPercent / ((100 * 0.5 * link * LONG_M) / 180_000)).toBeCloseTo(1, 9);
    expect(found.counts).toBe("precipitation");
    // Both figures are shares of time out, and named so.
    expect(shown(objectiveMessage(found))).toBe("unavailability of the link");
  });

  test("F.1668: 0.4 % of 0.002 each by length and block over 200 km", () => {
    const found = held({ quality: { portion: "intermediate", linkLengthM: 200_000 } })!;
    expect(found.allowedPercent / ((100 * 1.6e-5 * LONG_M) / 200_000)).toBeCloseTo(1, 9);
    expect(found.foundPercent).toBe(
      Math.max(...judge(longHop()).directions.map(({ modes }) => modes[0]!.multipathWorstMonthPercent!)),
    );
    expect(held({ quality: { portion: "access" } })!.allowedPercent).toBeCloseTo(100 * 1.6e-4, 12);
  });
});

test("that the law of rain ends is told where it leaves an objective of a link open, and nowhere else", () => {
  const told = new Set<string>();
  for (const propagationPercent of [0, 0.01, 0.1, 1, 5, 20, 100])
    for (const rainRateMmPerH of [1, 20, 60, 120])
      for (const extraLossDb of [0, 30]) {
        const objective = {
          name: "link",
          clearance: [],
          availabilityClass: { portion: "access", propagationPercent },
        } as const;
        const climate = { ...CLIMATE, rainRateMmPerH, rareRain: "bound" } as const;
        const { objectives, missing } = judge(longHop({ climate, objective }, { extraLossDb }));
        const { verdict, bound } = objectives![0]!;
        const ends = missing.some(({ reason }) => reason?.code === "law-of-rain-ends");
        expect(ends, `${propagationPercent} %, ${rainRateMmPerH} mm/h`).toBe(verdict === "open");
        told.add(`${verdict} ${bound}`);
      }
  for (const one of ["met at most", "open at most", "met undefined", "missed undefined"])
    expect(told).toContain(one);
});

describe("every cause together", () => {
  const everything = (loss: number, dispersiveMarginDb: number, spacingM: number) =>
    longHop(
      {
        arrangement: { name: "1+1 space-diversity" },
        modes: [{ ...QAM128, dispersiveMarginDb }],
        climate: { ...CLIMATE, logK: -3.6, rainHeightM: 900, rainProbabilityPercent: 4 },
      },
      { extraLossDb: loss, diversityAntenna: antenna, diversityHeightM: 60 - spacingM },
      { diversityAntenna: antenna, diversityHeightM: 80 - spacingM },
    );

  test("more loss never makes a hop more available, and the causes add up to the outage", () => {
    const dB = fc.double({ min: 0, max: 40, noNaN: true });
    const spacing = fc.double({ min: 1, max: 25, noNaN: true });
    fc.assert(
      fc.property(
        dB,
        dB,
        fc.double({ min: 30, max: 60, noNaN: true }),
        spacing,
        (a, b, dispersive, spacingM) => {
          const at = (loss: number) => judge(everything(loss, dispersive, spacingM)).availability!;
          const [better, worse] = [at(Math.min(a, b)), at(Math.max(a, b))];
          expect(worse.availabilityPercent).toBeLessThanOrEqual(better.availabilityPercent + 1e-9);
          if (worse.dominant === "none") return;
          const sum = worse.causes.reduce((total, one) => total + one.yearPercent, 0);
          expect(Math.min(100, sum)).toBeCloseTo(worse.outage.yearPercent, 9);
        },
      ),
      { numRuns: 200 },
    );
  });

  test("each cause with a method of its own is explained with steps and no figure is lost", () => {
    const hop = everything(0, 45, 12);
    const told = explainHop(hop, judge(hop));
    expect(notFinite(told)).toEqual([]);
    const diversity = told.find(({ figure }) => figure.startsWith("fading with diversity"))!;
    expect(diversity.steps.map(({ key }) => key)).toEqual(expect.arrayContaining(["I", "kns2", "ks2"]));
    const result = judge(hop);
    const cited = new Set(told.flatMap(({ methods }) => methods));
    expect(result.methods.filter((id) => !cited.has(id))).toEqual([]);
  });

  test("nothing wild in a sound hop yields a number that is not finite", () => {
    const wild = fc.oneof(
      fc.constantFrom(0, 1, -1, 1e-300, 1e300, 5e-324, undefined),
      fc.double({ min: -1000, max: 1000, noNaN: true }),
    );
    fc.assert(
      fc.property(fc.array(wild, { minLength: 16, maxLength: 16 }), fc.nat(6), (w, which) => {
        const names = [
          "1+0",
          "2+0 xpic",
          "3+1",
          "1+1 space-diversity",
          "1+1 frequency-diversity",
          "1+1 hot-standby",
        ];
        const hop = longHop(
          {
            arrangement: { name: names[which] ?? "1+1 space-and-frequency-diversity" },
            modes: [
              {
                ...QPSK,
                dispersiveMarginDb: w[0],
                signature:
                  w[1] === undefined
                    ? undefined
                    : { widthHz: 1e6 * w[1], depthDb: w[2] ?? 20, referenceDelayNs: w[3] ?? 6 },
              },
              QAM128,
            ],
            radio: { ...R18, xpicGainDb: w[4], hysteresisDb: w[5], mtbfHours: w[6], switchOverHours: w[7] },
            repairHours: w[8],
            degradationDb: w[9],
            climate: {
              ...CLIMATE,
              rainHeightM: w[10],
              rainProbabilityPercent: w[11],
              worstMonthQ1: w[12],
              worstMonthBeta: w[13],
            },
            furtherChannels: [
              {
                plan: "P",
                bandwidthHz: 1,
                number: 1,
                standing: "stated" as const,
                separationHz: 1e6 * (w[14] ?? 84),
              },
            ],
            surfaces: [{ kind: "water", fromM: 0, toM: LONG_M, heightM: w[15] }],
          },
          { diversityAntenna: antenna, diversityHeightM: w[14] },
          { diversityAntenna: antenna, diversityHeightM: w[15] },
        );
        const result = judge(hop);
        expect(notFinite(result)).toEqual([]);
        expect(notFinite(explainHop(hop, result))).toEqual([]);
      }),
      { numRuns: 500 },
    );
  });
});
