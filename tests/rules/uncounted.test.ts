/** What a figure leaves out keeps its verdict open, whatever a design agrees on about the rule that tells it. */
import { describe, expect, test } from "vitest";
import type { Hop, Policy } from "../../shared/design/design.js";
import type { Objective } from "../../shared/design/objective.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { judgeHop } from "../../shared/rules/judge.js";
import { ANTENNA, end, KELD, levelGround, makeHop, QAM128, R18, TARN } from "../evaluate/builders.js";

const TODAY = "2026-06-01";
const LENGTH_M = evaluateHop(makeHop(), levelGround(9000)).distanceM!;
const ASKED: Objective = {
  name: "asked",
  clearance: [{ fresnelFraction: 0.6, kFactor: 1.33 }],
  availabilityPercent: 99.9,
  fadeMarginDb: 10,
};
const HYBRID = { name: "H18", kind: "hybrid" as const, mainLossDb: 3.6 };
const OMT = { name: "O18", kind: "omt" as const, mainLossDb: 0.4 };
const pair = (a: object, b: object = a): Partial<Hop> => ({
  ends: [end(KELD, "high", a), end(TARN, "low", b)],
});
const plain = (apartHz: number): Partial<Hop> => ({
  radio: { ...R18, lowHalf: undefined, highHalf: undefined, duplexSpacingHz: undefined },
  channel: undefined,
  ends: [
    end(KELD, "high", { transmits: undefined, transmitFrequencyHz: 18e9 }),
    end(TARN, "low", { transmits: undefined, transmitFrequencyHz: 18e9 + apartHz }),
  ],
});
const crane = (distanceM: number): Partial<Hop> => ({
  obstacles: [{ title: "crane", heightM: 1, distanceM }],
});
const HOT: Partial<Hop> = { arrangement: { name: "1+1 hot-standby" } };
const SEVEN = { fromHz: 7.1e9, toHz: 7.9e9 };
const EIGHTEEN = { fromHz: 17.7e9, toHz: 19.7e9 };
const inBand = (band: typeof SEVEN) => ({
  antenna: { antenna: { ...ANTENNA, band } },
  coupler: { coupler: { ...HYBRID, band } },
  feeder: { feeder: { name: "GUIDE", band, loss: [{ lossDbPerM: 0.2 }] }, feederLengthM: 1 },
});
const OTHER = inBand(SEVEN);
const OWN = inBand(EIGHTEEN);

/** What is left out, and beside it the same hop with it counted. */
const ROWS: readonly [rule: string, Partial<Hop>, Partial<Hop>][] = [
  ["obstacle-off-path", crane(LENGTH_M), crane(LENGTH_M - 1)],
  ["obstacle-off-path", crane(0), crane(1)],
  ["both-ends-same-half", { ends: [end(KELD, "high"), end(TARN, "high")] }, pair({})],
  ["both-ends-same-half", plain(QAM128.bandwidthHz - 1), plain(QAM128.bandwidthHz)],
  ["both-ends-same-half", plain(0), plain(1e9)],
  ["coupler-missing", { ...HOT, ...pair({ coupler: HYBRID }, {}) }, { ...HOT, ...pair({ coupler: HYBRID }) }],
  [
    "coupler-wrong-kind",
    { ...HOT, ...pair({ coupler: HYBRID }, { coupler: OMT }) },
    { ...HOT, ...pair({ coupler: HYBRID }) },
  ],
  ["antenna-out-of-band", pair(OTHER.antenna, {}), pair(OWN.antenna, {})],
  ["coupler-out-of-band", { ...HOT, ...pair(OTHER.coupler) }, { ...HOT, ...pair(OWN.coupler) }],
  ["feeder-out-of-band", pair({}, OTHER.feeder), pair({}, OWN.feeder)],
  ["power-above-mode", pair({ transmitPowerDbm: 20.1 }), pair({ transmitPowerDbm: 20 })],
];

function told(more: Partial<Hop>, statements: Policy["statements"] = []) {
  const hop = makeHop({ objective: ASKED, policy: { statements }, ...more });
  const result = evaluateHop(hop, levelGround(LENGTH_M));
  const findings = judgeHop(hop, result, TODAY);
  const errors = findings.filter(({ severity }) => severity === "error").map(({ rule }) => rule);
  return { errors, verdict: result.availability?.verdict };
}

describe.each(ROWS)("%s", (rule, without, counted) => {
  test("one error while its rule has its own severity", () => {
    const { errors, verdict } = told(without);
    expect({ errors: [...new Set(errors)], verdict }).toEqual({ errors: [rule], verdict: "open" });
  });

  test("made milder or accepted, the hop is not judged", () => {
    const accepts = [{ rule, reason: "so it is" }];
    const cases = [
      told(without, [{ rule, severity: "warning", required: false }]),
      told(without, [{ rule, severity: "info", required: false }]),
      told({ ...without, accepts }),
    ];
    for (const { errors, verdict } of cases) {
      expect(errors).toContain("not-judged");
      expect(errors).not.toContain(rule);
      expect(verdict).toBe("open");
    }
  });

  test("counted, it is met", () => {
    expect(told(counted)).toEqual({ errors: [], verdict: "met" });
  });
});
