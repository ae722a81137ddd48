/** A dish that cannot be mounted directly, and nothing said of how it is joined: told, estimated, and never hidden. */

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { hopReport } from "../../language/editor/hover-hop.js";
import type { Antenna } from "../../shared/design/catalogue.js";
import type { Hop, HopEnd } from "../../shared/design/design.js";
import { FLEXIBLE_GUIDE_LOSS } from "../../shared/equipment/flexible-guide.data.js";
import { guideEstimate } from "../../shared/equipment/guide-to-choose.js";
import { partsOfNetwork, spareParts } from "../../shared/equipment/parts-list.js";
import type { HopResult } from "../../shared/evaluate/account/result.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { explainHop } from "../../shared/report/explain.js";
import { endsTable } from "../../shared/report/pages/ends.js";
import { exampleHop } from "../../shared/rules/example-preamble.js";
import { judgeHop } from "../../shared/rules/judge.js";
import { inputLine } from "../../shared/words/inputs.js";
import { lackSentence } from "../../shared/words/lacks.js";
import { shown } from "../../shared/words/message.js";
import {
  ANTENNA,
  direction,
  end,
  KELD,
  levelGround,
  makeHop,
  notesTold,
  notFinite,
  TARN,
} from "../evaluate/builders.js";
import { judgeExample, TODAY } from "../rules/example-design.js";
import { designOf } from "./designs.js";
import { partsOfHop } from "./parts-of-hop.js";

const LENGTH_M = 9304;
const BIG: Antenna = { ...ANTENNA, name: "BIG", diameterM: 2.4, gain: [{ gainDbi: 50.5 }] };
const FLEX = { name: "FLEX", kind: "flexible", loss: [{ lossDbPerM: 1 }] };

/** A hop at two frequencies whose first end is as given; the antennas have the same gain everywhere. */
function hopAt(lowHz: number, highHz: number, first: Partial<HopEnd>, more: Partial<Hop> = {}): Hop {
  const plain = { ...ANTENNA, gain: [{ gainDbi: 38.5 }] };
  const ends: Hop["ends"] = [
    { ...end(KELD, "high", { antenna: plain, ...first }), transmitFrequencyHz: highHz },
    { ...end(TARN, "low", { antenna: plain }), transmitFrequencyHz: lowHz },
  ];
  return makeHop({ ends, ...more });
}

const evaluated = (hop: Hop) => evaluateHop(hop, levelGround(LENGTH_M));
const levels = (result: HopResult) =>
  ["KELD", "TARN"].map((from) => direction(result, from).receivedLevelDbm);
const told = (hop: Hop, rule: string) =>
  judgeHop(hop, evaluated(hop), TODAY).filter((one) => one.rule === rule);

describe("the table of usual losses", () => {
  // Flexible guide, dB/m, from memory, unconfirmed: 6-8 GHz 0.15-0.3, 11-13 GHz 0.3-0.5, 15 GHz 0.4-0.7,
  // 18-23 GHz 0.8-1.3, 26-32 GHz 1.3-2.2, 38 GHz 1.5-2.5; above 42 GHz practically not used.
  test("is as it was copied", () => {
    expect(FLEXIBLE_GUIDE_LOSS.map(({ band, lossDbPerM }) => [band, ...lossDbPerM])).toEqual([
      ["6 to 8 GHz", 0.15, 0.3],
      ["11 to 13 GHz", 0.3, 0.5],
      ["15 GHz", 0.4, 0.7],
      ["18 to 23 GHz", 0.8, 1.3],
      ["26 to 32 GHz", 1.3, 2.2],
      ["38 GHz", 1.5, 2.5],
    ]);
  });

  test.each([
    // In a band, on both sides of its end, between two bands, below the first, up to 42 GHz.
    [4.4, 0.3],
    [6.2, 0.3],
    [8.275, 0.3],
    [8.5, 0.3],
    [8.6, 0.5],
    [10.5, 0.5],
    [13.25, 0.5],
    [13.3, 0.7],
    [15.35, 0.7],
    [15.4, 1.3],
    [18.7, 1.3],
    [23.6, 1.3],
    [24.5, 2.2],
    [33.4, 2.2],
    [33.5, 2.5],
    [38, 2.5],
    [42, 2.5],
  ])("at %f GHz a metre loses %f dB in both directions", (ghz, lossDb) => {
    const hop = hopAt(ghz * 1e9, ghz * 1e9, { antenna: BIG });
    const known = { ...BIG, mount: { direct: true } };
    const without = levels(evaluated(hopAt(ghz * 1e9, ghz * 1e9, { antenna: known })));
    expect(guideEstimate(hop, hop.ends[0])).toMatchObject({ lossDb });
    for (const [i, level] of levels(evaluated(hop)).entries())
      expect(without[i]! - level).toBeCloseTo(lossDb, 9);
  });

  test("the higher frequency of the hop decides for both directions", () => {
    const hop = hopAt(8.4e9, 8.6e9, { antenna: BIG });
    expect(guideEstimate(hop, hop.ends[0])).toMatchObject({ lossDb: 0.5 });
  });

  test("above 42 GHz the level is open, and the results hold no verdict", () => {
    for (const [low, high] of [
      [42.1e9, 42.1e9],
      [41.9e9, 42.1e9],
      [73e9, 83e9],
    ] as const) {
      const hop = hopAt(low, high, { antenna: BIG });
      const result = evaluated(hop);
      expect(result.directions).toEqual([]);
      expect(result.availability).toBeUndefined();
      expect(result.missing.map((lack) => shown(lackSentence(lack)))).toContain(
        "The waveguide at KELD is not stated, and above 42 GHz none is estimated.",
      );
      expect(told(hop, "waveguide-missing")).toMatchObject([
        {
          severity: "error",
          message: expect.stringMatching(/nothing is estimated for it, and the level is open$/),
        },
      ]);
      // What the objective asks and what is missing are said apart, the latter once.
      expect(told(hop, "not-judged")).toMatchObject([
        {
          severity: "error",
          message: "availability and fade margin are not judged: waveguide at KELD not stated",
        },
      ]);
      for (const objective of [hop.objective, undefined])
        expect(told({ ...hop, objective }, "hop-incomplete")).toEqual([]);
      const named = explainHop(hop, result).filter(({ figure }) => figure === "not computed");
      expect(named.map(({ value }) => value).join(" ")).toContain("above 42 GHz none is estimated");
    }
  });
});

describe("who needs a guide", () => {
  const at = (first: Partial<HopEnd>, more: Partial<Hop> = {}) => hopAt(17.92e9, 18.93e9, first, more);
  const needs = (hop: Hop) =>
    told(hop, "waveguide-missing").map(({ severity, at: place }) => [severity, place]);
  const SIZE = (diameterM: number, direct?: boolean): Antenna => ({ ...BIG, diameterM, mount: { direct } });
  const installed = (mounting: "direct" | "separate") => ({ installation: { mounting, ifPorts: [] } });

  test("a dish above 1.8 m, or not made for direct mounting, with neither mounting nor feeder stated", () => {
    expect(needs(at({ antenna: SIZE(1.8) }))).toEqual([]);
    expect(needs(at({ antenna: SIZE(1.81) }))).toEqual([["error", "hop KELD-TARN / KELD / antenna"]]);
    expect(needs(at({ antenna: SIZE(0.6, false) }))).toEqual([["error", "hop KELD-TARN / KELD / antenna"]]);
    expect(needs(at({ antenna: SIZE(3, true) }))).toEqual([]);
    expect(needs(at({ antenna: SIZE(3), feeder: FLEX, feederLengthM: 0.9 }))).toEqual([]);
    expect(needs(at({ antenna: SIZE(0.6), ...installed("separate") }))).toEqual([
      ["error", "hop KELD-TARN / KELD / mounting"],
    ]);
  });

  test("the second antenna of diversity, where the arrangement uses it; the second end", () => {
    const second = { diversityAntenna: BIG, diversityHeightM: 30 };
    expect(needs(at(second, { arrangement: { name: "1+1 space-diversity" } }))).toEqual([
      ["error", "hop KELD-TARN / KELD / diversity-antenna"],
    ]);
    expect(needs(at(second))).toEqual([]);
    const other = makeHop({ ends: [end(KELD, "high"), end(TARN, "low", { antenna: BIG })] });
    expect(needs(other)).toEqual([["error", "hop KELD-TARN / TARN / antenna"]]);
  });

  test("direct mounting of such a dish is an error of its own, of the diversity antenna too; no guide is invented", () => {
    const direct = at({ antenna: BIG, ...installed("direct") });
    expect(needs(direct)).toEqual([]);
    expect(told(direct, "direct-mounting")).toHaveLength(1);
    expect(levels(evaluated(direct))).toEqual(levels(evaluated(at({ antenna: SIZE(2.4, true) }))));
    const second = at(
      { diversityAntenna: BIG, diversityHeightM: 30, ...installed("direct") },
      { arrangement: { name: "1+1 space-diversity" } },
    );
    expect(told(second, "direct-mounting")).toMatchObject([
      { message: expect.stringContaining("BIG has 2.4 m") },
    ]);
  });

  test("direct mounting with a feeder contradicts itself, said once, and the feeder counts", () => {
    for (const mounted of [installed("direct"), { mounting: "direct" as const }]) {
      for (const antenna of [SIZE(0.6), SIZE(2.4)]) {
        const hop = at({ antenna, feeder: FLEX, feederLengthM: 0.9, ...mounted });
        expect(told(hop, "direct-with-feeder")).toHaveLength(1);
        expect([...told(hop, "direct-mounting"), ...told(hop, "waveguide-missing")]).toEqual([]);
        expect(direction(evaluated(hop), "KELD").levels.map(({ passes }) => passes.code)).toContain("feeder");
      }
    }
    expect(
      told(at({ feeder: FLEX, feederLengthM: 0.9, ...installed("separate") }), "direct-with-feeder"),
    ).toEqual([]);
  });

  test("an all-indoor radio without a feeder: nothing is estimated for the long line", () => {
    const hop = at({}, { arrangement: { name: "all-indoor 1+0" } });
    expect(told(hop, "waveguide-missing")).toMatchObject([
      { at: "hop KELD-TARN / KELD", message: expect.stringContaining("stands indoors") },
      { at: "hop KELD-TARN / TARN" },
    ]);
    expect(evaluated(hop).directions).toEqual([]);
    expect(evaluated(hop).missing.map((lack) => shown(lackSentence(lack)))).toContain(
      "The feeder of the all-indoor radio at KELD is not stated.",
    );
  });

  test("whatever is stated: no level without a guide where units cannot sit on the dish, and no figure that is none", () => {
    const antenna = fc.record({
      diameterM: fc.constantFrom(undefined, 0.3, 1.8, 1.9, 3),
      direct: fc.constantFrom(undefined, true, false),
    });
    const mounting = fc.constantFrom(undefined, "direct" as const, "separate" as const);
    const feeder = fc.constantFrom(undefined, 0, 0.9);
    const ghz = fc.double({ min: 1, max: 90, noNaN: true });
    fc.assert(
      fc.property(antenna, mounting, feeder, ghz, fc.boolean(), (stated, word, lengthM, f, indoors) => {
        const dish: Antenna = { ...BIG, diameterM: stated.diameterM, mount: { direct: stated.direct } };
        const hop = hopAt(
          f * 1e9,
          f * 1e9,
          {
            antenna: dish,
            feeder: lengthM === undefined ? undefined : FLEX,
            feederLengthM: lengthM,
            ...(word && installed(word)),
          },
          { arrangement: { name: indoors ? "all-indoor 1+0" : "1+0" } },
        );
        const result = evaluated(hop);
        const errors = judgeHop(hop, result, TODAY).filter(({ severity }) => severity === "error");
        const [first] = result.directions;
        const guided = first?.levels.some(
          ({ passes: { code }, site }) =>
            site === "KELD" && (code === "feeder" || code === "guide-to-choose"),
        );
        const heavy =
          stated.direct === false || (stated.direct === undefined && (stated.diameterM ?? 0) > 1.8);
        const bare = (heavy || word === "separate" || indoors) && lengthM === undefined;
        if (bare)
          expect(errors.map(({ rule }) => rule)).toContain(
            word === "direct" && !indoors ? "direct-mounting" : "waveguide-missing",
          );
        // A level is there only with a guide, or where nobody needs one or says that there is none.
        if (first !== undefined && bare && word !== "direct") expect(guided).toBe(true);
        expect(notFinite(result)).toEqual([]);
      }),
      { numRuns: 300 },
    );
  });
});

describe("where the estimate is shown", () => {
  const TEXT = `antenna DISH240-18 like DISH60-18 {
  diameter 2.4 m
  gain 50.5 dBi
  direct-mounting no
}

${exampleHop({ keld: "antenna DISH240-18 at 40 m\n    transmits high" })}`;
  const design = designOf(TEXT);
  const hop = design.hops.get("KELD-TARN")!;
  const result = evaluateHop(hop, levelGround(LENGTH_M));

  test("in the level diagram of both directions, marked", () => {
    for (const from of ["KELD", "TARN"]) {
      const row = direction(result, from).levels.find(({ passes }) => passes.code === "guide-to-choose");
      expect(row).toMatchObject({
        passes: { code: "guide-to-choose", lengthM: 1 },
        site: "KELD",
        changeDb: -1.3,
      });
    }
  });

  test("as an input that is a default, once, with its standing; no second finding tells it", () => {
    const told = result.inputs.filter(({ code }) => code === "guide-loss");
    expect(told).toMatchObject([{ site: "KELD", lossDb: 1.3, origin: "default", standing: "estimated" }]);
    expect(told.map((input) => shown(inputLine(input)))).toEqual([
      "loss of the waveguide at KELD 1.3 dB (default, estimated: 1.0 m of flexible guide with the greatest usual loss at 18 to 23 GHz, from memory, unconfirmed)",
    ]);
    const { findings } = judgeExample(TEXT);
    const about = findings.filter(({ message }) => /waveguide|flexible/.test(message));
    expect(about.map(({ rule, message }) => `${rule}: ${message}`)).toEqual([
      "waveguide-missing: DISH240-18 at KELD cannot be mounted directly, and neither mounting nor feeder is stated; 1.3 dB are estimated, 1 m of flexible guide",
    ]);
  });

  test("in hover, explain and the table of ends", () => {
    expect(hopReport({ hop, result, findings: [] })).toContain(
      "| KELD | waveguide, to be chosen | flexible, 1.0 m, estimate | -1.3 dB |",
    );
    const level = explainHop(hop, result).find(({ figure }) =>
      figure.startsWith("received level KELD to TARN"),
    )!;
    expect(level.steps.map(({ name }) => name)).toContain("waveguide, to be chosen");
    expect(level.inputs.map(({ code }) => code)).toContain("guide-loss");
    expect(notesTold(level).join(" ")).toContain("which is still to be chosen, is estimated: 1.3 dB");
    const feeder = endsTable(hop, result).rows.find(({ cells }) =>
      JSON.stringify(cells[0]).includes("Feeder"),
    );
    expect(feeder?.cells.slice(1)).toEqual(["waveguide, to be chosen; 1.3 dB estimated", "–"]);
  });

  test("in the parts list, by piece, without a length and without spares", () => {
    const part = partsOfHop(hop, design).filter(({ toChoose }) => toChoose);
    expect(part).toMatchObject([{ kind: "feeder", name: "waveguide, to be chosen", quantity: 1 }]);
    expect(spareParts(partsOfNetwork(design), [{ kind: "feeder", sharePercent: 100, least: 5 }])).toEqual([]);
    const both = designOf(
      `antenna DISH240-18-VH like DISH60-18 { diameter 2.4 m; gain 50.5 dBi; polarizations dual }\n\n${exampleHop(
        {
          hop: "polarization vertical\n  radio R18\n  mode 55 MHz 128QAM\n  arrangement 2+0 xpic",
          keld: "antenna DISH240-18-VH at 40 m\n    coupler O18\n    transmits high",
          tarn: "antenna DISH240-18-VH at 40 m\n    coupler O18 separate\n    transmits low",
        },
      )}`,
    );
    // One piece for each polarization, at both ends.
    expect(partsOfNetwork(both).find(({ toChoose }) => toChoose)?.quantity).toBe(4);
  });
});
