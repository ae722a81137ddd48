/** What a result says beside its figures: each remark and each citation on both sides of what it depends on. */
import { describe, expect, test } from "vitest";
import type { Hop, HopEnd } from "../../shared/design/design.js";
import type { MethodId } from "../../shared/evaluate/account/methods.js";
import type { NoteCode } from "../../shared/evaluate/account/note.js";
import type { HopResult } from "../../shared/evaluate/account/result.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import type { GroundInput } from "../../shared/evaluate/path/ground.js";
import {
  ANTENNA,
  antennasFor,
  CLIMATE,
  end,
  KELD,
  levelGround,
  makeHop,
  NO_GROUND,
  QAM128,
  R18,
  TARN,
} from "./builders.js";

const LENGTH_M = evaluateHop(makeHop(), levelGround(9000)).distanceM!;
const GROUND = levelGround(LENGTH_M);
/** Taller than the ray, 40 m above level ground, less the bulge of the Earth. */
const HILL = levelGround(LENGTH_M, 50);

/** Both ends alike. */
function alike(at: Partial<HopEnd>, more: Partial<Hop> = {}): Hop {
  return makeHop({ ends: [end(KELD, "high", at), end(TARN, "low", at)], ...more });
}

/** Ends with both antennas at this height above sea level, 40 m above the ground. */
function atSea(heightM: number): Hop {
  const groundM = heightM - 40;
  return makeHop({ ends: [end({ ...KELD, groundM }, "high"), end({ ...TARN, groundM }, "low")] });
}

const xpd = { antenna: { ...ANTENNA, crossPolarDiscriminationDb: 30 } };
const xpic = (radio: Partial<typeof R18>) =>
  alike(xpd, { arrangement: { name: "2+0 xpic" }, radio: { ...R18, ...radio } });
const gainOf = (...gain: (typeof ANTENNA)["gain"]) => alike({ antenna: { ...ANTENNA, gain } });
const inClimate = (climate: Hop["climate"]) => makeHop({ climate });
const mode = (more: object) => makeHop({ modes: [{ ...QAM128, ...more }] });
const failing = (mtbfHours: number | undefined, repairHours: number | undefined) =>
  makeHop({ radio: { ...R18, mtbfHours }, repairHours });
function onOneChannel(name: string): Hop {
  const channel = { plan: "P18", bandwidthHz: 55e6, number: 1, standing: "stated" as const };
  return makeHop({ arrangement: { name }, channel });
}
const AIR = { pressureHPa: 990, temperatureK: 288, waterVapourDensityGm3: 7 };

const HYBRID = { name: "H", kind: "hybrid", mainLossDb: 1.6, standbyLossDb: 6.4 } as const;

interface Case {
  readonly hop: Hop;
  readonly ground?: GroundInput;
}
const of = ({ hop, ground = GROUND }: Case): HopResult => evaluateHop(hop, ground);

/** A hop that has it told, and one next to it that has not. */
const NOTES: readonly (readonly [NoteCode, one: Case, next: Case])[] = [
  ["fading-as-of-clear-path", { hop: makeHop(), ground: HILL }, { hop: makeHop() }],
  ["median-diffraction-loss", { hop: makeHop(), ground: HILL }, { hop: makeHop() }],
  [
    "path-above-reference-air",
    { hop: atSea(9000.1), ground: NO_GROUND },
    { hop: atSea(9000), ground: NO_GROUND },
  ],
  ["path-below-sea-level", { hop: atSea(-0.1), ground: NO_GROUND }, { hop: atSea(0), ground: NO_GROUND }],
  ["gain-estimated", { hop: gainOf() }, { hop: makeHop() }],
  [
    "gain-of-nearest-point",
    { hop: gainOf({ gainDbi: 38, frequencyHz: 17e9 }, { gainDbi: 38.4, frequencyHz: 18e9 }) },
    { hop: gainOf({ gainDbi: 38, frequencyHz: 17e9 }, { gainDbi: 39, frequencyHz: 19e9 }) },
  ],
  ["cross-polar-not-counted", { hop: xpic({ noiseFigureDb: undefined }) }, { hop: xpic({}) }],
  [
    "channels-not-stated",
    { hop: onOneChannel("2+0 single-polarization") },
    { hop: onOneChannel("2+0 xpic") },
  ],
  // One carrier on the one channel that is stated; what the second would add is told with diversity.
  [
    "channels-not-stated",
    { hop: onOneChannel("3+0 single-polarization") },
    { hop: onOneChannel("1+1 frequency-diversity") },
  ],
  [
    "ducts-likely",
    { hop: inClimate({ ...CLIMATE, logK: undefined, dN1: -157.1 }) },
    { hop: inClimate({ ...CLIMATE, logK: undefined, dN1: -157 }) },
  ],
  ["equipment-not-counted", { hop: failing(1e5, undefined) }, { hop: failing(1e5, 24) }],
  ["equipment-not-counted", { hop: failing(undefined, 24) }, { hop: failing(undefined, undefined) }],
  [
    "wet-snow-counted",
    { hop: inClimate({ ...CLIMATE, rainHeightM: 500, rainProbabilityPercent: 5 }) },
    { hop: inClimate({ rainHeightM: 500, rainProbabilityPercent: 5 }) },
  ],
  [
    "rain-alone-counted",
    { hop: inClimate({ ...CLIMATE, rainHeightM: 500 }) },
    { hop: inClimate({ rainHeightM: 500 }) },
  ],
];

describe.each(NOTES)("the remark %s", (code, withIt, without) => {
  const told = (one: Case) => of(one).notes.filter((note) => note.code === code).length;

  test("is made where it applies, and there only", () => {
    expect(told(withIt)).toBeGreaterThan(0);
    expect(told(without)).toBe(0);
  });
});

const METHODS_CITED: readonly (readonly [MethodId, one: Case, next: Case])[] = [
  ["equipment", { hop: failing(1e5, 24) }, { hop: failing(1e5, undefined) }],
  ["total-outage", { hop: mode({ dispersiveMarginDb: 40 }) }, { hop: mode({}) }],
  ["diffraction", { hop: makeHop(), ground: HILL }, { hop: makeHop() }],
  [
    "reference-atmosphere",
    { hop: inClimate({ ...CLIMATE, ...AIR, temperatureK: undefined }) },
    { hop: inClimate({ ...CLIMATE, ...AIR }) },
  ],
];

test.each(METHODS_CITED)("the method %s is cited where it counts, and there only", (id, withIt, without) => {
  expect(of(withIt).methods).toContain(id);
  expect(of(without).methods).not.toContain(id);
});

test("each frequency has the gain of its own where the catalogue has several points, told once each", () => {
  const gains = (hop: Hop) => of({ hop }).inputs.filter(({ code }) => code === "antenna-gain");
  const points = [
    { gainDbi: 38, frequencyHz: 17e9 },
    { gainDbi: 39, frequencyHz: 19e9 },
  ];
  expect(gains(gainOf(...points))).toMatchObject([{ ofPointsAtHz: 18.93e9 }, { ofPointsAtHz: 17.92e9 }]);
  expect(gains(gainOf(points[0]!))).toMatchObject([{ gainDbi: 38 }]);
});

describe("what further antennas lack", () => {
  const arrangement = { name: "1+1 hot-standby two-antennas" };
  const stated = (further: HopEnd["further"], first: Partial<HopEnd> = {}) => {
    const tarn = end(TARN, "low", antennasFor(arrangement.name));
    const hop = makeHop({ arrangement, ends: [end(KELD, "high", { further, ...first }), tarn] });
    return of({ hop }).missing.flatMap(({ fact, at }) =>
      fact ? [`${fact.code}: ${at!.split(" / ").at(-1)}`] : [],
    );
  };
  const lacksAntenna = "further-antenna: second-antenna";
  const lacksHeight = "further-antenna-height: second-antenna";

  test("is the antenna before its height, and nothing once both are stated", () => {
    expect(stated(undefined)).toEqual([lacksAntenna]);
    expect(stated([{ heightM: 38 }])).toEqual([lacksAntenna]);
    expect(stated([{ antenna: ANTENNA }])).toEqual([lacksHeight]);
    expect(stated([{ antenna: ANTENNA, heightM: 38 }])).toEqual([]);
  });

  test("is told of that antenna, whatever the first one and others lack", () => {
    const first = "antenna-height: antenna.at";
    const noHeight = { antennaHeightM: undefined };
    expect(stated([{ antenna: ANTENNA, heightM: 38 }], noHeight)).toEqual([first]);
    expect(stated([{ antenna: ANTENNA }], noHeight)).toEqual([first, lacksHeight]);
    // The third is one more than units hang on, unless it stands in for the second.
    expect(stated([{ antenna: ANTENNA, heightM: 38 }, { antenna: ANTENNA }])).toEqual([]);
    expect(stated([{}, { antenna: ANTENNA }])).toEqual(["further-antenna-height: third-antenna"]);
  });
});

test("units that nothing joins are told with the antenna, unless it is the first", () => {
  const lacks = (further: HopEnd["further"], first: Partial<HopEnd>) => {
    const hop = makeHop({
      arrangement: { name: "1+1 hot-standby" },
      ends: [end(KELD, "high", { further, ...first }), end(TARN, "low", { coupler: HYBRID })],
    });
    return of({ hop }).missing.flatMap(({ reason }) => (reason?.code === "units-not-joined" ? [reason] : []));
  };
  const omt = { name: "OMT", kind: "omt" } as const;
  expect(lacks(undefined, { coupler: HYBRID })).toEqual([]);
  expect(lacks(undefined, {})).toEqual([{ code: "units-not-joined", site: "KELD" }]);
  expect(lacks(undefined, { coupler: omt })).toEqual([
    { code: "units-not-joined", site: "KELD", coupler: "OMT" },
  ]);
  expect(lacks([{ antenna: ANTENNA, heightM: 38, coupler: omt }], { coupler: HYBRID })).toEqual([
    { code: "units-not-joined", site: "KELD", coupler: "OMT", property: "second-antenna" },
  ]);
});
