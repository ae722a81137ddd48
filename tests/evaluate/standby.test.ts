/** Every state of the arms that can occur in service, against what is asked. Common practice, no source. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Coupler } from "../../shared/design/catalogue.js";
import type { Hop, HopEnd } from "../../shared/design/design.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { ARRANGEMENTS } from "../../shared/radio/arrangements.js";
import { judgeHop } from "../../shared/rules/judge.js";
import {
  ANTENNA,
  direction,
  end,
  KELD,
  levelGround,
  makeHop,
  QAM128,
  QPSK,
  R18,
  TARN,
  TRUNK,
} from "./builders.js";

const LENGTH_M = evaluateHop(makeHop(), levelGround(9000)).distanceM!;
const GROUND = levelGround(LENGTH_M);
const UNEQUAL: Coupler = { name: "H18-U", kind: "hybrid", mainLossDb: 1.6, standbyLossDb: 6.4 };
const EQUAL: Coupler = { name: "H18-E", kind: "hybrid", mainLossDb: 3.5 };

function guarded(
  standbyMarginDb: number | undefined,
  keld: Partial<HopEnd> = { coupler: UNEQUAL },
  tarn: Partial<HopEnd> = keld,
  more: Partial<Hop> = {},
): Hop {
  return makeHop({
    arrangement: { name: "1+1 hot-standby" },
    objective: { ...TRUNK, fadeMarginDb: undefined, availabilityPercent: undefined, standbyMarginDb },
    ends: [end(KELD, "high", keld), end(TARN, "low", tarn)],
    ...more,
  });
}
const evaluate = (hop: Hop) => evaluateHop(hop, GROUND);
const told = (hop: Hop) =>
  judgeHop(hop, evaluate(hop), "2026-01-01").filter(({ rule }) => rule.startsWith("standby-"));
const normalDb = Math.min(
  ...evaluate(guarded(undefined)).directions.map(({ modes }) => modes[0]!.fadeMarginDb),
);

describe("hot standby on unequal couplers", () => {
  test("is judged with both ends on standby: 2 x 4.8 dB below the main units", () => {
    const { standby } = evaluate(guarded(10));
    expect(standby).toMatchObject({ askedDb: 10, verdict: "met", weakest: { state: "both on standby" } });
    expect(standby!.weakest!.fadeMarginDb).toBeCloseTo(normalDb - 9.6, 9);
    expect(standby!.weakest!.lessThanNormalDb).toBeCloseTo(9.6, 9);
  });

  test("one unequal coupler: the state that switches there, and both are alike", () => {
    const { standby } = evaluate(guarded(10, { coupler: UNEQUAL }, { coupler: EQUAL }));
    expect(standby!.weakest!.lessThanNormalDb).toBeCloseTo(4.8, 9);
  });

  test("a margin is missed a hair above what is left, and met at it", () => {
    const leftDb = normalDb - 9.6;
    expect(evaluate(guarded(leftDb)).standby!.verdict).toBe("met");
    expect(told(guarded(leftDb))).toEqual([]);
    expect(evaluate(guarded(leftDb + 0.01)).standby!.verdict).toBe("missed");
    const [finding, ...others] = told(guarded(leftDb + 0.01));
    expect(others).toEqual([]);
    expect(finding).toMatchObject({
      rule: "standby-margin",
      severity: "error",
      message: expect.stringMatching(
        /^with both ends on standby [\d.]+ dB are left towards (KELD|TARN) in 128QAM; the objective asks [\d.]+ dB$/,
      ),
      help: "That is 9.6 dB less than between the main units.",
    });
  });

  test("without a margin asked the threshold decides: reached at it, missed a hair below", () => {
    // What the margin asked leaves out of the two: one rule speaks, never both.
    const at = (extraLossDb: number) =>
      guarded(undefined, { coupler: UNEQUAL, extraLossDb }, { coupler: UNEQUAL });
    const lossDb = normalDb - 9.6;
    expect(evaluate(at(lossDb - 1e-6)).standby!.verdict).toBe("met");
    expect(told(at(lossDb - 1e-6))).toEqual([]);
    expect(evaluate(at(lossDb + 1e-6)).standby!.verdict).toBe("missed");
    expect(told(at(lossDb + 0.1)).map(({ rule, message }) => [rule, message])).toEqual([
      [
        "standby-level",
        expect.stringMatching(/^with both ends on standby (KELD|TARN) receives .* below the threshold -69/),
      ],
    ]);
    // One switch alone would still do: it was the only state judged before.
    const one = evaluate(at(lossDb + 0.1)).directions.flatMap(({ paths }) =>
      paths!.filter(({ state }) => state !== "normal" && state !== "both on standby"),
    );
    for (const { receivedLevelDbm } of one) expect(receivedLevelDbm).toBeGreaterThan(-69);
  });

  test("interference that raises the threshold counts", () => {
    const degraded = guarded(
      undefined,
      { coupler: UNEQUAL, extraLossDb: normalDb - 9.6 - 1 },
      { coupler: UNEQUAL },
    );
    expect(told(degraded)).toEqual([]);
    expect(told({ ...degraded, degradationDb: 1.2 })[0]!.message).toMatch(/128QAM with 1\.2 dB degradation$/);
  });

  test("the mode that carries the capacity asked for is judged", () => {
    const hop = guarded(10, { coupler: UNEQUAL }, { coupler: UNEQUAL }, { modes: [QPSK, QAM128] });
    expect(evaluate(hop).standby!.weakest!.modulation).toBe("128QAM");
    const less = { ...hop, objective: { ...hop.objective!, capacityBps: 70e6 } };
    // 4 dB more power and 17 dB less threshold.
    expect(evaluate(less).standby!.weakest!.fadeMarginDb).toBeCloseTo(normalDb - 9.6 + 4 + 17, 9);
  });
});

describe("what is not known is open", () => {
  test("an end without an antenna, a coupler without a figure", () => {
    for (const keld of [{ antenna: undefined }, { coupler: { name: "C", kind: "hybrid" } as const }]) {
      expect(evaluate(guarded(10, keld, { coupler: UNEQUAL })).standby).toEqual({
        askedDb: 10,
        verdict: "open",
        weakest: undefined,
      });
    }
  });
});

test("a mode that comes to no margin leaves what is left on standby open", () => {
  const modes = [QPSK, { ...QAM128, thresholdDbm: undefined }];
  const radio = { ...R18, noiseFigureDb: undefined, modes };
  const hop = guarded(10, { coupler: UNEQUAL }, { coupler: UNEQUAL }, { modes, radio });
  // 300 Mbit/s are asked, which 128QAM alone carries; the levels are known all the same.
  expect(direction(evaluate(hop), "KELD").paths).toHaveLength(4);
  expect(evaluate(hop).standby).toMatchObject({ verdict: "open", weakest: undefined });
});

test("an arrangement without standby has no such result, one with it always has", () => {
  for (const { name, hotStandby } of ARRANGEMENTS) {
    const { standby } = evaluate(guarded(10, {}, {}, { arrangement: { name } }));
    expect(standby !== undefined, name).toBe(hotStandby);
  }
});

test("verdict and finding are one thing, over any couplers, antennas and margins", () => {
  const lossDb = fc.double({ min: 0.5, max: 30, noNaN: true });
  const some = fc.record({
    coupler: fc.record({
      name: fc.constant("C"),
      kind: fc.constant("hybrid" as const),
      mainLossDb: lossDb,
      standbyLossDb: fc.option(lossDb, { nil: undefined }),
    }),
    extraLossDb: fc.double({ min: 0, max: 30, noNaN: true }),
    antenna: fc
      .double({ min: 25, max: 45, noNaN: true })
      .map((gainDbi) => ({ ...ANTENNA, gain: [{ gainDbi }] })),
  });
  const asked = fc.option(fc.double({ min: 0, max: 40, noNaN: true }), { nil: undefined });
  fc.assert(
    fc.property(asked, some, some, (askedDb, keld, tarn) => {
      const hop = guarded(askedDb, keld, tarn);
      const result = evaluate(hop);
      const worst = Math.min(
        ...result.directions.flatMap((one) =>
          one
            .paths!.filter(({ state }) => state !== "normal")
            .map(({ receivedLevelDbm }) => receivedLevelDbm + 69),
        ),
      );
      expect(result.standby!.weakest!.fadeMarginDb).toBeCloseTo(worst, 6);
      if (Math.abs(worst - (askedDb ?? 0)) < 1e-6) return;
      expect(result.standby!.verdict).toBe(worst < (askedDb ?? 0) ? "missed" : "met");
      const all = judgeHop(hop, result, "2026-01-01").map(({ rule }) => rule);
      // A hop that does not work at all is told once.
      const cause = all.includes("level-below-threshold");
      const rule = askedDb === undefined ? "standby-level" : "standby-margin";
      expect(all.filter((one) => one.startsWith("standby-"))).toEqual(
        worst < (askedDb ?? 0) && !cause ? [rule] : [],
      );
      for (const { from } of result.directions) expect(direction(result, from).paths).toHaveLength(4);
    }),
  );
});
