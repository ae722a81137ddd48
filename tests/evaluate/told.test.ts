/** What a result says beside its figures: each remark and each citation on both sides of what it depends on. */
import { describe, expect, test } from "vitest";
import type { Hop, HopEnd } from "../../shared/design/design.js";
import {
  type Input,
  type InputCode,
  type InputUsed,
  isSameInput,
} from "../../shared/evaluate/account/input.js";
import type { MethodId } from "../../shared/evaluate/account/methods.js";
import type { NoteCode } from "../../shared/evaluate/account/note.js";
import { isAbout } from "../../shared/evaluate/account/note-facts.js";
import type { HopResult } from "../../shared/evaluate/account/result.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import type { GroundInput } from "../../shared/evaluate/path/ground.js";
import { explainHop } from "../../shared/report/explain.js";
import {
  ANTENNA,
  antennasFor,
  CLIMATE,
  direction,
  end,
  KELD,
  levelGround,
  makeHop,
  NO_GROUND,
  QAM128,
  QPSK,
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
const adaptive = (hysteresisDb: number | undefined, modes = [QPSK, QAM128]) =>
  makeHop({ modes, radio: { ...R18, hysteresisDb } });
const crane = (distanceM: number) =>
  makeHop({
    obstacles: [
      { title: "low", heightM: 1, distanceM: 3000 },
      { title: "crane", heightM: 1, distanceM },
    ],
  });
const diverse = (diversityHeightM: number | undefined) =>
  alike({ diversityAntenna: ANTENNA, diversityHeightM }, { arrangement: { name: "1+1 space-diversity" } });
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
  ["higher-mode-after-hysteresis", { hop: adaptive(2) }, { hop: adaptive(0) }],
  ["higher-mode-after-hysteresis", { hop: adaptive(2) }, { hop: adaptive(undefined) }],
  ["higher-mode-after-hysteresis", { hop: adaptive(2) }, { hop: adaptive(2, [QAM128]) }],
  ["obstacles-not-counted", { hop: crane(LENGTH_M) }, { hop: crane(LENGTH_M - 1) }],
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
  // Antennas at 240 m: 3600 m below the rain height the path lies wholly in rain, wet snow or its lack is nothing to tell.
  [
    "wet-snow-counted",
    { hop: inClimate({ ...CLIMATE, rainHeightM: 3839, rainProbabilityPercent: 5 }) },
    { hop: inClimate({ ...CLIMATE, rainHeightM: 3840, rainProbabilityPercent: 5 }) },
  ],
  [
    "rain-alone-counted",
    { hop: inClimate({ ...CLIMATE, rainHeightM: 3839 }) },
    { hop: inClimate({ ...CLIMATE, rainHeightM: 3840 }) },
  ],
  [
    "rain-alone-counted",
    { hop: inClimate({ ...CLIMATE, rainHeightM: 500 }) },
    { hop: inClimate({ ...CLIMATE, rainHeightM: 3840, rainProbabilityPercent: 5 }) },
  ],
  // 200 g/m3 of vapour at 288 K press with rho T/216.7 = 266 hPa: there is no air of less.
  [
    "gases-not-counted",
    { hop: inClimate({ ...CLIMATE, ...AIR, pressureHPa: 200, waterVapourDensityGm3: 200 }) },
    { hop: inClimate({ ...CLIMATE, ...AIR, pressureHPa: 300, waterVapourDensityGm3: 200 }) },
  ],
];

describe.each(NOTES)("the remark %s", (code, withIt, without) => {
  const told = (one: Case) => of(one).notes.filter((note) => note.code === code).length;

  test("is made where it applies, and there only", () => {
    expect(told(withIt)).toBeGreaterThan(0);
    expect(told(without)).toBe(0);
  });
});

/** Figures that a hop rests on, each with where it came from: what is stated, and what stands in where nothing is. */
const INPUTS: readonly (readonly [InputCode, hop: Hop, told: Partial<InputUsed>])[] = [
  ["log-k", makeHop(), { logK: -4.2, origin: "network climate" }],
  ["log-k", makeHop({ ownClimate: ["logK"] }), { logK: -4.2, origin: "hop climate" }],
  ["dn75", makeHop(), { dN75: 12, origin: "network climate" }],
  ["mean-terrain", makeHop(), { heightM: 200, origin: "terrain" }],
  ["rain-rate", makeHop(), { rateMmPerH: 34, origin: "network climate" }],
  ["median-k", makeHop(), { kFactor: 4 / 3, origin: "default" }],
  ["median-k", inClimate({ ...CLIMATE, kFactor: 1.5 }), { kFactor: 1.5, origin: "network climate" }],
  ["antenna-discrimination", xpic({}), { discriminationDb: 30, origin: "catalogue" }],
  ["canceller-gain", xpic({}), { gainDb: 20, origin: "default" }],
  ["canceller-gain", xpic({ xpicGainDb: 17 }), { gainDb: 17, origin: "catalogue" }],
  ["mtbf", failing(1e5, 24), { mtbfHours: 1e5, origin: "catalogue" }],
  ["repair-time", failing(1e5, 24), { repairHours: 24, origin: "design" }],
];

test.each(INPUTS)("%s is told once among what went in, with its origin", (code, hop, told) => {
  const found = of({ hop }).inputs.filter((input) => input.code === code);
  expect(found).toEqual([expect.objectContaining(told)]);
});

test("a guide that is counted and not chosen is told among what went in, with the loss that the level has", () => {
  const result = of({
    hop: makeHop({ ends: [end(KELD, "high", { mounting: "separate" }), end(TARN, "low")] }),
  });
  const guide = direction(result, "KELD").levels.find(({ passes }) => passes.code === "guide-to-choose")!;
  expect(result.inputs.filter(({ code }) => code === "guide-loss")).toEqual([
    expect.objectContaining({
      site: "KELD",
      lossDb: -guide.changeDb,
      lengthM: 1,
      origin: "default",
      standing: "estimated",
    }),
  ]);
});

test("a figure that two things have is told once for each site, antenna, mode and frequency of theirs", () => {
  const told = { code: "antenna-gain", antenna: "A", gainDbi: 38 } as const;
  const of: Record<string, string | number> = {
    site: "KELD",
    antenna: "A",
    modulation: "QPSK",
    ofPointsAtHz: 18e9,
  };
  const one = { ...told, ...of } as Input;
  expect(isSameInput(one, { ...one, gainDbi: 39 } as Input)).toBe(true);
  expect(isSameInput(one, { ...one, code: "guide-loss" } as Input)).toBe(false);
  for (const fact of Object.keys(of)) {
    expect(isSameInput(one, { ...one, [fact]: "other" } as Input), fact).toBe(false);
    expect(isSameInput(one, { ...one, [fact]: undefined } as Input), fact).toBe(false);
  }
  const other = { ...ANTENNA, name: "OTHER" };
  const hop = makeHop({ ends: [end(KELD, "high"), end(TARN, "low", { antenna: other })] });
  const names = evaluateHop(hop, GROUND).inputs.flatMap((input) =>
    input.code === "antenna-gain" ? input.antenna : [],
  );
  expect(names.toSorted()).toEqual(["DISH60-18", "OTHER"]);
});

describe("a rain rate of a map", () => {
  const from = {
    code: "map",
    file: "R001.TXT",
    date: "2026-01-05",
    recommendation: "ITU-R P.837-7",
  } as const;
  const reading = { fact: "rainRateMmPerH", value: 27, origin: "map", from } as const;
  const judged = (climate: Hop["climate"]) =>
    of({ hop: inClimate(climate), ground: { ...GROUND, climate: [reading] } });

  // Maps are of 0.01 %; a share of time belongs to the rate that is stated with it, here one that nobody can believe.
  test("is that of 0.01 %, whatever share of time the design states beside a rate of its own that is none", () => {
    const { inputs, missing } = judged({ ...CLIMATE, rainRateMmPerH: 2001, rainTimePercent: 0.1 });
    expect(inputs.find(({ code }) => code === "rain-rate")).toMatchObject({ rateMmPerH: 27, origin: "map" });
    expect(missing.filter(({ of: [step] }) => step === "rain")).toEqual([]);
  });

  test("gives way to a stated one, which is of no use at another share of time", () => {
    expect(judged(CLIMATE).inputs.find(({ code }) => code === "rain-rate")).toMatchObject({
      rateMmPerH: 34,
      origin: "network climate",
    });
    const { inputs, missing } = judged({ ...CLIMATE, rainTimePercent: 0.1 });
    expect(inputs.map(({ code }) => code)).not.toContain("rain-rate");
    expect(missing).toContainEqual(
      expect.objectContaining({ reason: { code: "rain-rate-elsewhere", timePercent: 0.1 } }),
    );
  });
});

test("a remark stands with the figures that it is about in an explanation, and beside no other", () => {
  const hop = makeHop({
    ends: [end(KELD, "high", { antenna: { ...ANTENNA, gain: [] } }), end(TARN, "low")],
    climate: { ...CLIMATE, rainHeightM: 500 },
  });
  const explained = explainHop(hop, of({ hop }));
  const figuresWith = (code: NoteCode) =>
    explained.filter(({ notes }) => notes.some((one) => one.code === code)).map(({ figure }) => figure);
  expect(figuresWith("gain-estimated")).toEqual([
    expect.stringMatching(/^received level KELD to TARN/),
    expect.stringMatching(/^received level TARN to KELD/),
  ]);
  for (const figure of figuresWith("rain-alone-counted")) expect(figure).toMatch(/rain/);
  expect(figuresWith("rain-alone-counted").length).toBeGreaterThan(0);
  expect(figuresWith("selective-fading-not-counted").join()).toMatch(/availability/);
});

const METHODS_CITED: readonly (readonly [MethodId, one: Case, next: Case])[] = [
  ["equipment", { hop: failing(1e5, 24) }, { hop: failing(1e5, undefined) }],
  ["diversity-outage", { hop: diverse(30) }, { hop: diverse(undefined) }],
  ["diversity-outage", { hop: diverse(30) }, { hop: diverse(40) }],
  ["enhancement", { hop: makeHop() }, { hop: makeHop({ radio: { ...R18, overloadDbm: undefined } }) }],
  ["enhancement", { hop: makeHop() }, { hop: makeHop({ radio: { ...R18, overloadDbm: -70 } }) }],
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

test("failures that are not counted are told as that alone, and those that nobody states not at all", () => {
  const about = (hop: Hop) =>
    of({ hop }).notes.flatMap((one) => (isAbout(one, "equipment") ? [one.code] : []));
  expect(about(failing(1e5, undefined))).toEqual(["equipment-not-counted"]);
  expect(about(failing(undefined, 24))).toEqual(["equipment-not-counted"]);
  expect(about(failing(undefined, undefined))).toEqual([]);
  expect(about(failing(1e5, 24))).toEqual([]);
});

test("a coupler that is stated and cannot be used is not told as none, another fact or end that cannot be is no excuse", () => {
  const lacksWith = (unusable: Hop["unusable"]) => {
    const ends = [end(KELD, "high"), end(TARN, "low", { coupler: HYBRID })] as const;
    const hop = makeHop({ arrangement: { name: "1+1 hot-standby" }, ends, unusable });
    return of({ hop }).missing.filter(({ reason }) => reason?.code === "units-not-joined").length;
  };
  expect(lacksWith(undefined)).toBe(1);
  expect(lacksWith([{ fact: "coupler", site: "KELD" }])).toBe(0);
  expect(lacksWith([{ fact: "coupler", site: "TARN" }])).toBe(1);
  expect(lacksWith([{ fact: "feeder", site: "KELD" }])).toBe(1);
});
