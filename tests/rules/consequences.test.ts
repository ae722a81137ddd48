import { describe, expect, test } from "vitest";
import type { Radio } from "../../shared/design/catalogue.js";
import type { Hop } from "../../shared/design/design.js";
import type { CauseOutage } from "../../shared/evaluate/account/outage-result.js";
import type { HopResult } from "../../shared/evaluate/account/result.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { takesMost } from "../../shared/evaluate/outage/takes-most.js";
import { availabilitySection } from "../../shared/report/pages/availability.js";
import { judgeHop } from "../../shared/rules/judge.js";
import { judgeNetwork } from "../../shared/rules/judge-network.js";
import {
  CLIMATE,
  end,
  KELD,
  levelGround,
  makeHop,
  NO_GROUND,
  QPSK,
  R18,
  TARN,
  TRUNK,
} from "../evaluate/builders.js";

const TODAY = "2026-06-01";
const LENGTH_M = evaluateHop(makeHop(), levelGround(9000)).distanceM!;
const judge = (hop: Hop, ground = levelGround(LENGTH_M)) => judgeHop(hop, evaluateHop(hop, ground), TODAY);
const inNetwork = (hop: Hop, ground = levelGround(LENGTH_M)) =>
  judgeNetwork(
    { terrain: [], sites: new Map(), hops: new Map([[hop.name, hop]]) },
    new Map([[hop.name, evaluateHop(hop, ground)]]),
    TODAY,
  );

describe("no profile", () => {
  // The sites state their ground, so that levels are known.
  const CURRENT = { ...CLIMATE, multipathMethod: "current" } as const;

  test("logK and dN75 give way to the quick method, and the result says why", () => {
    const hop = makeHop();
    const { availability, notes } = evaluateHop(hop, NO_GROUND);
    const quick = evaluateHop(makeHop({ climate: { rainRateMmPerH: 34 } }), NO_GROUND);
    expect(availability).toMatchObject({ planningOnly: true });
    expect(availability!.multipathPercent).toBe(quick.availability!.multipathPercent);
    expect(notes).toContainEqual({ code: "quick-method-stands-in", lacks: "mean-terrain" });
    expect(inNetwork(hop, NO_GROUND).find(({ rule }) => rule === "multipath-assumed")!.message).toMatch(
      /: without a profile logK and dN75 cannot be used, and the climate gives no dN1$/,
    );
  });

  test("of a method chosen by name the availability is missing, and is said to be", () => {
    const hop = makeHop({ climate: CURRENT });
    expect(evaluateHop(hop, NO_GROUND).availability).toBeUndefined();
    const told = (climate: Hop["climate"]) =>
      judge(makeHop({ climate }), NO_GROUND).map(({ rule, message }) => `${rule}: ${message}`);
    expect(told(CURRENT)).toEqual([
      "not-judged: clearance, availability and fade margin are not judged: there is no terrain profile of the path; the mean terrain height is not known without a profile",
    ]);
    // Without rain it is not the profile that is lacking.
    expect(told({ dN1: -300 })).toEqual([
      "not-judged: clearance, availability and fade margin are not judged: there is no terrain profile of the path; the climate gives no rain rate at 0.01 % of the year",
    ]);
    expect(told(CLIMATE)).toEqual([
      "not-judged: clearance, availability and fade margin are not judged: there is no terrain profile of the path",
    ]);
    expect(inNetwork(hop, NO_GROUND).map(({ rule }) => rule)).not.toContain("climate-missing");
  });
});

test("what the climate lacks is told once for all hops of which nothing is asked, and at each of the others", () => {
  const climate = { logK: -4.2, dN75: 12 };
  const told = (hop: Hop) =>
    [...judge(hop), ...inNetwork(hop)].map(
      ({ rule, severity, message }) => `${severity} ${rule}: ${message}`,
    );
  const lacks = "the climate gives no rain rate at 0.01 % of the year";
  expect(told(makeHop({ climate }))).toEqual([`error not-judged: availability is not judged: ${lacks}`]);
  expect(told(makeHop({ climate, objective: undefined }))).toContain(
    `info climate-missing: rain outage: ${lacks}`,
  );
  const marginOnly = { ...TRUNK, availabilityPercent: undefined };
  expect(told(makeHop({ climate, objective: marginOnly }))).toEqual([
    `info climate-missing: rain outage: ${lacks}`,
  ]);
});

describe("what takes most", () => {
  const most = (result: HopResult) =>
    availabilitySection(makeHop(), result)
      .flatMap(({ blocks }) => blocks)
      .flatMap((block) => (block.type === "facts" ? block.facts : []))
      .find(({ label }) => label === "Takes most");
  // Strong rain margins: the law of rain ends before the margin does.
  const withRain = (rainRateMmPerH: number, logK: number, rareRain?: "bound") =>
    evaluateHop(
      makeHop({
        modes: [QPSK],
        objective: { ...TRUNK, capacityBps: 1e6 },
        climate: { ...CLIMATE, rainRateMmPerH, logK, rareRain },
      }),
      levelGround(LENGTH_M),
    );

  test("is not decided where rain is only bounded and the bound is larger", () => {
    const result = withRain(30, -4.2, "bound");
    const { availability } = result;
    expect(availability).toMatchObject({ rainBound: "at most", dominant: "not decided" });
    expect(availability!.multipathPercent).toBeGreaterThan(0);
    expect(most(result)).toMatchObject({
      value: "not decided: multipath or rain",
      note: expect.stringContaining("0.001 %"),
    });
  });

  test("is multipath where it takes more than the bound", () => {
    const result = withRain(30, -2, "bound");
    expect(result.availability).toMatchObject({ rainBound: "at most", dominant: "multipath" });
    expect(most(result)).toMatchObject({ value: "multipath", note: "flat fading" });
  });

  test("is decided by the estimate where rain is one", () => {
    const rainy = withRain(30, -7);
    expect(rainy.availability).toMatchObject({ dominant: "rain", rainAtMostPercent: 0.001 });
    expect(most(rainy)).toMatchObject({ value: "rain" });
    const dry = withRain(4, -4.2);
    expect(dry.availability).toMatchObject({ dominant: "multipath", rainPercent: 0 });
    expect(most(dry)).toMatchObject({ value: "multipath" });
  });

  test("is the larger of the two figures beside it, not the largest single cause", () => {
    // Flat and selective fading together take more than rain, each of them less.
    const parts: CauseOutage[] = [
      { cause: "rain", yearPercent: 0.005 },
      { cause: "selective fading", yearPercent: 0.004 },
      { cause: "flat fading", yearPercent: 0.003 },
    ];
    const found = {
      ...withRain(30, -4.2).availability!,
      multipathPercent: 0.007,
      rainPercent: 0.005,
      rainAtMostPercent: undefined,
      dominant: "multipath",
      causes: parts,
    } as const;
    expect(takesMost(found)).toMatchObject({
      of: "multipath",
      parts: 2,
      part: { cause: "selective fading" },
    });
    expect(takesMost({ ...found, dominant: "rain" })).toEqual({ of: "rain", part: undefined, parts: 1 });
  });
});

test("a blocked path tells what it leaves of the availability", () => {
  const hill = levelGround(LENGTH_M, 40);
  const [found, ...others] = judge(makeHop(), hill);
  const { availability, diffractionLossDb } = evaluateHop(makeHop(), hill);
  expect(availability).toMatchObject({ verdict: "missed" });
  expect(availability!.availabilityPercent).toBeGreaterThan(90);
  expect(others).toEqual([]);
  expect(found).toMatchObject({ rule: "clearance" });
  expect(found!.help).toMatch(
    /^As the path is, \d+\.\d dB of diffraction loss leave 9\d\.\d+ % available with 128QAM; the objective asks 99\.99 %\.$/,
  );
  expect(found!.help).toContain(diffractionLossDb!.toFixed(1));
  // Too high for any margin, and a criterion missed without any loss.
  expect(judge(makeHop(), levelGround(LENGTH_M, 80))[0]!.help).toMatch(/leave 128QAM no margin\.$/);
  expect(judge(makeHop(), levelGround(LENGTH_M, 36))[0]!.help).toBe(
    "As the path is, 2.9 dB of diffraction loss stand in the level.",
  );
  const high = { ...TRUNK, clearance: [{ fresnelFraction: 3, kFactor: 1.33 }] };
  expect(judge(makeHop({ objective: high }), levelGround(LENGTH_M, 25))[0]).toMatchObject({
    rule: "clearance",
    help: undefined,
  });
});

test("both ends in one half is the cause; that no sub-band holds the pair follows", () => {
  const subBands = [
    { name: "A", low: { fromHz: 17.7e9, toHz: 18.2e9 }, high: { fromHz: 18.71e9, toHz: 19.21e9 } },
  ];
  const radio = { ...R18, unit: { subBands } } as unknown as Radio;
  const rules = (transmits: "high" | "low") =>
    judge(makeHop({ radio, ends: [end(KELD, "low"), end(TARN, transmits)] })).map(({ rule }) => rule);
  expect(rules("high")).toEqual([]);
  expect(rules("low")).toEqual(["both-ends-same-half"]);
});

test("a repair time without an mtbf, or the other way round, says what is not computed", () => {
  const told = (repairHours: number | undefined, mtbfHours: number | undefined) =>
    inNetwork(makeHop({ repairHours, radio: { ...R18, mtbfHours } }))
      .filter(({ message }) => message.startsWith("equipment"))
      .map(({ rule, message }) => `${rule}: ${message}`);
  expect(told(6, undefined)).toEqual([
    "not-counted: equipment availability is not counted: R18 states no mtbf",
  ]);
  expect(told(undefined, 5e5)).toEqual([
    "not-counted: equipment availability is not counted: the hop states no repair-time",
  ]);
  expect(told(undefined, undefined)).toEqual([]);
  expect(told(6, 5e5)).toEqual([]);
});
