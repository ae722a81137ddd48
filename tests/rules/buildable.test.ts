/** What can't be built is told: each rule on both sides of its limit, and where its brothers stand. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Antenna } from "../../shared/design/catalogue.js";
import type { Hop } from "../../shared/design/design.js";
import type { Finding } from "../../shared/design/finding.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { bitsPerSymbol } from "../../shared/radio/modulation.js";
import { leastThresholdDbm } from "../../shared/radio/threshold.js";
import { exampleHop } from "../../shared/rules/example-preamble.js";
import { judgeHop } from "../../shared/rules/judge.js";
import { judgeNetwork } from "../../shared/rules/judge-network.js";
import { ANTENNA, end, KELD, makeHop, NO_GROUND, QAM128, R18, TARN } from "../evaluate/builders.js";
import { judgeExample, TODAY } from "./example-design.js";

/** Findings of one rule on an example as a user writes it. */
function found(rule: string, text: string): Finding[] {
  const { problems, findings } = judgeExample(text);
  expect(problems).toEqual([]);
  return findings.filter((one) => one.rule === rule);
}

/** Findings of one rule on a hop as data. */
function judged(rule: string, hop: Hop): Finding[] {
  const design = {
    terrain: [],
    sites: new Map(hop.ends.map(({ site }) => [site.name, site])),
    hops: new Map([[hop.name, hop]]),
  };
  const result = evaluateHop(hop, NO_GROUND);
  const all = [
    ...judgeHop(hop, result, TODAY),
    ...judgeNetwork(design, new Map([[hop.name, result]]), TODAY),
  ];
  return all.filter((one) => one.rule === rule);
}

const severities = (findings: readonly Finding[]) => findings.map(({ severity }) => severity);

describe("mode-width", () => {
  const channel = (bandwidthHz: number, number = 4) => ({
    plan: "P18",
    bandwidthHz,
    number,
    lowHz: 17.92e9,
    highHz: 18.93e9,
    standing: "stated" as const,
  });
  const hopOf = (modeMHz: number, channelMHz: number, ...furtherMHz: readonly number[]) => {
    const mode = { ...QAM128, bandwidthHz: modeMHz * 1e6 };
    return makeHop({
      channel: channel(channelMHz * 1e6),
      furtherChannels: furtherMHz.map((width, i) => ({
        ...channel(width * 1e6, 6 + i),
        separationHz: 110e6,
      })),
      arrangement: { name: furtherMHz.length > 0 ? "2+0 dual-polarization" : "1+0" },
      modes: [{ ...mode, modulation: "QPSK" }, mode],
    });
  };

  test("3 % wider passes, 3.1 % wider does not; 3 % narrower passes, 3.1 % narrower is remarked", () => {
    expect(judged("mode-width", hopOf(28, 28))).toEqual([]);
    expect(judged("mode-width", hopOf(28 * 1.03, 28))).toEqual([]);
    expect(judged("mode-width", hopOf(28 * 1.031, 28))).toMatchObject([
      {
        severity: "error",
        at: "hop KELD-TARN / modes",
        message: expect.stringContaining("3.1 % more than the 28 MHz"),
      },
    ]);
    expect(judged("mode-width", hopOf(28, 28 * 1.03))).toEqual([]);
    expect(judged("mode-width", hopOf(28, 28 * 1.031))).toMatchObject([{ severity: "info" }]);
    // Names of one raster: 27.5 and 28, 55 and 56 MHz.
    for (const [mode, width] of [
      [28, 27.5],
      [56, 55],
      [27.5, 28],
      [55, 56],
    ] as const)
      expect(judged("mode-width", hopOf(mode, width))).toEqual([]);
  });

  test("every channel of the hop counts, and one finding tells the first that is too narrow", () => {
    expect(judged("mode-width", hopOf(55, 55, 28))).toMatchObject([
      {
        severity: "error",
        message: expect.stringMatching(/of channel 6$/),
        related: [{ at: "hop KELD-TARN / channel#1" }],
      },
    ]);
    expect(severities(judged("mode-width", hopOf(55, 112, 28)))).toEqual(["error"]);
    expect(severities(judged("mode-width", hopOf(55, 55, 112)))).toEqual(["info"]);
  });

  test("no design with a mode wider than its channel plus 3 % passes without an error", () => {
    const width = fc.double({ min: 1, max: 2000, noNaN: true });
    fc.assert(
      fc.property(width, width, fc.array(width, { maxLength: 3 }), (mode, first, further) => {
        const told = severities(judged("mode-width", hopOf(mode, first, ...further)));
        const narrowest = Math.min(first, ...further);
        const widest = Math.max(first, ...further);
        // Where the limit itself lies is the examples' task.
        fc.pre(
          [narrowest, widest].every(
            (one) => Math.abs(mode / one - 1.03) > 1e-5 && Math.abs(one / mode - 1.03) > 1e-5,
          ),
        );
        if (mode > narrowest * 1.03) expect(told).toEqual(["error"]);
        else expect(told).toEqual(mode * 1.03 < widest ? ["info"] : []);
      }),
      { numRuns: 200 },
    );
  });
});

describe("antenna-gain-implausible", () => {
  // 0.6 m at 18.7 GHz: lambda 16.0317 mm, (pi D / lambda)^2 = 117.58^2 = 41.41 dB; 30 % of it 36.18 dB. By hand.
  const of = (gain: string, more = "") =>
    found(
      "antenna-gain-implausible",
      `antenna A like DISH60-18 {\n  diameter 0.6 m\n  gain ${gain}\n}\n\n${exampleHop({
        keld: `antenna A at 40 m\n    transmits high${more}`,
      })}`,
    );

  test("100 % and 30 % of the aperture", () => {
    expect(of("41.4 dBi at 18.7 GHz")).toEqual([]);
    expect(of("41.5 dBi at 18.7 GHz")).toMatchObject([
      {
        severity: "error",
        at: "antenna A / gain",
        message: "A states 41.5 dBi at 18.7 GHz; a dish of 0.6 m has 41.4 dBi at most",
      },
    ]);
    expect(of("36.2 dBi at 18.7 GHz")).toEqual([]);
    expect(of("36.1 dBi at 18.7 GHz")).toMatchObject([{ severity: "warning" }]);
  });

  test("a gain without a frequency counts where the hops use it", () => {
    // Transmits 18.93 GHz and receives 17.92 GHz: 41.04 dBi at the lower, 41.51 dBi at the higher; 30 %: 36.28 dBi.
    expect(of("41 dBi")).toEqual([]);
    expect(severities(of("41.2 dBi"))).toEqual(["error"]);
    expect(of("36.3 dBi")).toEqual([]);
    expect(severities(of("36.2 dBi"))).toEqual(["warning"]);
  });

  test.each([
    ["antenna DISH30-18", 0.3, "error"],
    ["antenna DISH120-18", 1.2, "warning"],
  ])("%s that inherits the gain of 0.6 m with its own diameter", (_name, diameter, severity) => {
    const text = `antenna A like DISH60-18 {\n  diameter ${diameter} m\n}\n\n`;
    const main = exampleHop({ keld: "antenna A at 40 m\n    transmits high" });
    expect(severities(found("antenna-gain-implausible", text + main))).toEqual([severity]);
    const diversity = exampleHop({
      hop: "polarization vertical\n  radio R18\n  mode 55 MHz 128QAM\n  arrangement 1+1 space-diversity",
      tarn: "antenna DISH60-18 at 40 m\n    diversity-antenna A at 30 m\n    transmits low",
    });
    expect(severities(found("antenna-gain-implausible", text + diversity))).toEqual([severity]);
  });

  test("no antenna in use with a gain above its aperture passes without an error, whichever end or role it has", () => {
    const role = fc.constantFrom("main high", "main low", "diversity high", "diversity low");
    const any = fc.record({
      diameterM: fc.double({ min: 0.1, max: 4, noNaN: true }),
      ghz: fc.double({ min: 4, max: 90, noNaN: true }),
    });
    fc.assert(
      fc.property(
        role,
        any,
        fc.double({ min: -15, max: 15, noNaN: true }),
        (place, { diameterM, ghz }, overDb) => {
          fc.pre(Math.abs(overDb) > 1e-6 && Math.abs(overDb - 10 * Math.log10(0.3)) > 1e-6);
          const aperture = ((Math.PI * diameterM * ghz * 1e9) / 299_792_458) ** 2;
          const gainDbi = 10 * Math.log10(aperture) + overDb;
          const antenna: Antenna = {
            ...ANTENNA,
            name: "A",
            diameterM,
            gain: [{ gainDbi, frequencyHz: ghz * 1e9 }],
          };
          const put = place.startsWith("main")
            ? { antenna }
            : { diversityAntenna: antenna, diversityHeightM: 30 };
          const ends: Hop["ends"] = place.endsWith("high")
            ? [end(KELD, "high", put), end(TARN, "low")]
            : [end(KELD, "high"), end(TARN, "low", put)];
          const wanted = overDb > 0 ? ["error"] : overDb < 10 * Math.log10(0.3) ? ["warning"] : [];
          expect(severities(judged("antenna-gain-implausible", makeHop({ ends })))).toEqual(wanted);
        },
      ),
      { numRuns: 100 },
    );
  });
});

describe("threshold-implausible without a rate", () => {
  test("bits a symbol by the name", () => {
    // log2 of the number of points.
    const known = {
      BPSK: 1,
      QPSK: 2,
      "4QAM": 2,
      "8PSK": 3,
      "16QAM": 4,
      "64-QAM": 6,
      "128QAM": 7,
      QAM256: 8,
      "32APSK": 5,
      "4096QAM": 12,
    };
    for (const [name, bits] of Object.entries(known))
      expect([name, bitsPerSymbol(name)]).toEqual([name, bits]);
    for (const name of ["", "QAM", "fast", "1QAM", `${"9".repeat(400)}QAM`])
      expect(bitsPerSymbol(name)).toBeUndefined();
  });

  const of = (
    modulation: string,
    thresholdDbm: number,
    more: Partial<Hop["modes"][number]> = {},
    noiseFigureDb: number | undefined = 6.5,
  ) => {
    const mode = { ...QAM128, modulation, thresholdDbm, bitRateBps: undefined, ...more };
    return judged(
      "threshold-implausible",
      makeHop({ radio: { ...R18, noiseFigureDb, modes: [mode] }, modes: [mode] }),
    );
  };

  test("both sides of the bound, with a noise figure and without", () => {
    // kT0 -173.975 dBm/Hz, 55 MHz / 1.5 = 36.67 MHz: 75.642 dB; -98.33 dBm. 3.5 bits a symbol: 10 lg(2^3.5 - 1) = 10.13 dB.
    expect(leastThresholdDbm("128QAM", 55e6, 0)).toBeCloseTo(-88.2, 2);
    expect(of("128QAM", -81.6)).toEqual([]);
    expect(of("128QAM", -81.8)).toMatchObject([
      {
        severity: "error",
        at: "radio R18 / mode",
        message:
          "threshold -81.8 dBm of 128QAM is impossible; at this modulation, width and noise figure nothing works below -81.7 dBm",
      },
    ]);
    const silent = { ...R18, noiseFigureDb: undefined };
    const without = (thresholdDbm: number) => {
      const mode = { ...QAM128, thresholdDbm, bitRateBps: undefined };
      return judged("threshold-implausible", makeHop({ radio: { ...silent, modes: [mode] }, modes: [mode] }));
    };
    expect(without(-88.1)).toEqual([]);
    expect(severities(without(-88.3))).toEqual(["error"]);
  });

  test("with a rate the stricter of both bounds counts; a name that tells nothing counts as one bit", () => {
    // A rate that was mistyped by a hundred does not let everything pass.
    expect(severities(of("128QAM", -95, { bitRateBps: 3.1e6 }))).toEqual(["error"]);
    // 10 lg(2^0.5 - 1) = -3.83 dB: -98.33 + 6.5 - 3.83 = -95.66 dBm.
    expect(of("robust", -95.5)).toEqual([]);
    expect(severities(of("robust", -95.8))).toEqual(["error"]);
  });

  test("a threshold from an SNR is held against it too", () => {
    // In 55 MHz / 1.15 the noise is 1.15 dB above that of the bound.
    const at = (requiredSnrDb: number) => of("128QAM", 0, { thresholdDbm: undefined, requiredSnrDb });
    expect(at(9.1)).toEqual([]);
    expect(severities(at(8.9))).toEqual(["error"]);
  });

  test("figures where real equipment lies pass: noise figure 5 to 10 dB, SNR of the trade", () => {
    // Required SNR of coded modes, from memory, unconfirmed: 5.95 (QPSK) to 37.01 dB (4096QAM).
    const snr = {
      QPSK: 5.95,
      "16QAM": 12.96,
      "32QAM": 16.35,
      "64QAM": 19.15,
      "128QAM": 22.41,
      "256QAM": 25.14,
      "512QAM": 28.37,
      "1024QAM": 31.08,
      "2048QAM": 34.3,
      "4096QAM": 37.01,
    };
    for (const [modulation, requiredSnrDb] of Object.entries(snr))
      for (const noiseFigureDb of [5, 10])
        expect(of(modulation, 0, { thresholdDbm: undefined, requiredSnrDb }, noiseFigureDb)).toEqual([]);
  });
});

describe("heights, lengths, sites", () => {
  const SITE = "site MOSS {\n  at 47.5 -30.5\n}\n\n";
  const at = (lines: string) =>
    SITE + exampleHop({ keld: `${lines}\n    transmits high` }).replaceAll("KELD", "MOSS");

  test("an antenna above 120 m asks for a structure, a diversity antenna too; with one it is held against it", () => {
    expect(found("antenna-without-structure", at("antenna DISH60-18 at 120 m"))).toEqual([]);
    expect(found("antenna-without-structure", at("antenna DISH60-18 at 120.1 m"))).toMatchObject([
      { severity: "warning", at: "hop MOSS-TARN / MOSS / antenna.at" },
    ]);
    expect(
      found(
        "antenna-without-structure",
        at("antenna DISH60-18 at 40 m\n    diversity-antenna DISH60-18 at 130 m"),
      ),
    ).toMatchObject([{ at: "hop MOSS-TARN / MOSS / diversity-antenna.at" }]);
    const standing = at("antenna DISH60-18 at 130 m").replace("-30.5\n", "-30.5\n  structure mast 140 m\n");
    expect(found("antenna-without-structure", standing)).toEqual([]);
  });

  const FEEDERS = `feeder FLEX { kind flexible; loss 1.1 dB/m at 18.7 GHz }
feeder ELL { kind elliptical; loss 20 dB/100m at 18.7 GHz }
radio R18-IN like R18 { construction all-indoor }

`;

  test("flexible guide: 2 m pass, 2.1 m do not; other kinds may be long", () => {
    const long = (feeder: string) =>
      found(
        "flexible-guide-long",
        FEEDERS + exampleHop({ tarn: `antenna DISH60-18 at 40 m\n    feeder ${feeder}\n    transmits low` }),
      );
    expect(long("FLEX length 2 m")).toEqual([]);
    expect(long("FLEX length 2.1 m")).toMatchObject([
      { severity: "warning", at: "hop KELD-TARN / TARN / feeder.length" },
    ]);
    expect(long("ELL length 40 m")).toEqual([]);
  });

  const indoor = (feeder: string, arrangement = "all-indoor 1+0", more = "") =>
    FEEDERS +
    exampleHop({
      hop: `polarization vertical\n  radio R18-IN\n  mode 55 MHz 128QAM\n  arrangement ${arrangement}`,
      keld: `antenna DISH60-18 at 40 m${more}\n    feeder ${feeder}\n    transmits high`,
      tarn: "antenna DISH60-18 at 40 m\n    feeder ELL length 60 m\n    transmits low",
    });

  test("the feeder of an all-indoor radio is as long as its highest antenna is high", () => {
    expect(found("feeder-too-short", indoor("ELL length 40 m"))).toEqual([]);
    expect(found("feeder-too-short", indoor("ELL length 39.9 m"))).toMatchObject([
      {
        severity: "error",
        at: "hop KELD-TARN / KELD / feeder.length",
        message: expect.stringContaining("39.9 m long, its antenna hangs at 40.0 m"),
      },
    ]);
    const second = "\n    diversity-antenna DISH60-18 at 50 m";
    const diversity = (length: number) =>
      found("feeder-too-short", indoor(`ELL length ${length} m`, "all-indoor 1+1 space-diversity", second));
    expect(diversity(50)).toEqual([]);
    expect(diversity(49)).toMatchObject([
      { message: expect.stringContaining("diversity antenna hangs at 50.0 m") },
    ]);
    // A radio on the pole has a short piece at any height.
    expect(
      found(
        "feeder-too-short",
        indoor("FLEX length 0.9 m").replace("construction all-indoor", "").replace("all-indoor 1+0", "1+0"),
      ),
    ).toEqual([]);
    // Where the room may lie under the roof, it is a warning.
    const roof = "site MOSS {\n  at 47.5 -30.5\n  structure roof 60 m\n}\n\n";
    expect(
      severities(found("feeder-too-short", roof + indoor("ELL length 8 m").replaceAll("KELD", "MOSS"))),
    ).toEqual(["warning"]);
  });

  test("a site without a hop is remarked; an end of an unfinished hop is no such site", () => {
    const MOSS = "site MOSS {\n  at 47.45 -30.45\n}\n\n";
    expect(found("site-unused", MOSS + exampleHop())).toMatchObject([
      { severity: "info", at: "site MOSS", message: "no hop ends at MOSS" },
    ]);
    expect(
      found(
        "site-unused",
        `${MOSS}hop MOSS-FELL {\n  MOSS { antenna DISH60-18 at 40 m }\n}\n\n${exampleHop()}`,
      ),
    ).toEqual([]);
  });

  test("both polarizations without a word which: told once, and not where one is stated or one is used", () => {
    const hop = (polarization: string, arrangement: string) =>
      found(
        "polarization-open",
        exampleHop({ hop: `${polarization}radio R18\n  mode 55 MHz 128QAM\n  arrangement ${arrangement}` }),
      );
    for (const arrangement of [
      "2+0 xpic",
      "2+0 dual-polarization",
      "1+1 xpic two-units",
      "4+0 xpic",
      "3+1 dual-polarization",
    ]) {
      expect(severities(hop("", arrangement))).toEqual(["warning"]);
      for (const polarization of ["vertical", "horizontal", "slant"])
        expect(hop(`polarization ${polarization}\n  `, arrangement)).toEqual([]);
    }
    expect(hop("", "1+0")).toEqual([]);
  });
});
