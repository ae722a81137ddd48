/** A hop whose channel is still to be chosen, against the same hop on the worst and on the best channel of its plan. */
import { expect, test } from "vitest";
import type { Hop, HopEnd } from "../../shared/design/design.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { ANTENNA, end, KELD, levelGround, makeHop, TARN } from "./builders.js";

const LENGTH_M = evaluateHop(makeHop(), levelGround(9000)).distanceM!;
const GROUND = levelGround(LENGTH_M, 20);
/** Lower frequency of the pair on the highest channel of the plan, and on the lowest. */
const [HIGHEST, LOWEST] = [18.6e9, 17.72e9];

function on(lowHz: number, at: Partial<HopEnd>): Hop {
  return makeHop({
    arrangement: { name: at.diversityAntenna ? "1+1 space-diversity" : "1+0" },
    ends: [
      end(KELD, "high", { ...at, transmitFrequencyHz: lowHz + 1.01e9 }),
      end(TARN, "low", { ...at, transmitFrequencyHz: lowHz }),
    ],
  });
}

function open(lowestHz: number, at: Partial<HopEnd>): Hop {
  const openChannel = { plan: "P18", bandwidthHz: 55e6, number: 17, count: 17, lowestHz };
  return { ...on(HIGHEST, at), openChannel };
}

const evaluate = (hop: Hop) => evaluateHop(hop, GROUND);
/** Missed is what is missed on every channel; the rest waits for the channel. */
const together = (worst: string, best: string) =>
  worst === "missed" && best === "missed" ? "missed" : "open";

test("a margin is told with that of the best channel where that is more", () => {
  const margins = (hop: Hop) =>
    evaluate(hop).directions.flatMap(({ modes }) => modes.map(({ fadeMarginDb }) => fadeMarginDb));
  const best = (hop: Hop) =>
    evaluate(hop).directions.flatMap(({ modes }) => modes.map(({ bestFadeMarginDb }) => bestFadeMarginDb));
  expect(margins(open(LOWEST, {}))).toEqual(margins(on(HIGHEST, {})));
  for (const [i, margin] of margins(on(LOWEST, {})).entries())
    expect(best(open(LOWEST, {}))[i]).toBeCloseTo(margin, 9);
  expect(best(open(HIGHEST, {}))).toEqual([undefined, undefined]);
});

test("a ray that clears on some channels only is open, that of further antennas too", () => {
  const told = new Set<string>();
  for (let heightM = 20; heightM <= 44; heightM += 0.25) {
    const at = { antennaHeightM: heightM, diversityAntenna: ANTENNA, diversityHeightM: heightM - 2 };
    const [shown, worst, best] = [open(LOWEST, at), on(LOWEST, at), on(HIGHEST, at)].map(evaluate);
    const rays = (result: typeof shown) => [
      result!.clearance,
      ...result!.furtherPaths!.map(({ clearance }) => clearance),
    ];
    expect(rays(shown)).toHaveLength(3);
    for (const [i, ray] of rays(shown).entries())
      for (const [k, { fraction, verdict }] of ray.entries()) {
        expect(fraction).toBe(rays(worst)[i]![k]!.fraction);
        expect(verdict).toBe(together(rays(worst)[i]![k]!.verdict, rays(best)[i]![k]!.verdict));
        told.add(`${i > 0} ${verdict} ${rays(worst)[i]![k]!.verdict}`);
      }
  }
  for (const further of [false, true])
    for (const verdicts of ["open met", "open missed", "missed missed"])
      expect(told).toContain(`${further} ${verdicts}`);
});
