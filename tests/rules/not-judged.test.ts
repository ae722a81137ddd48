/** Each way in which something that is asked can stay open, and the same hop with what it lacked. */
import { describe, expect, test } from "vitest";
import type { Radio } from "../../shared/design/catalogue.js";
import type { Hop } from "../../shared/design/design.js";
import type { Finding } from "../../shared/design/finding.js";
import type { Objective } from "../../shared/design/objective.js";
import type { Verdict } from "../../shared/evaluate/account/outage-result.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import type { GroundInput } from "../../shared/evaluate/path/ground.js";
import { criteriaOf } from "../../shared/rules/asked.js";
import { exampleHop } from "../../shared/rules/example-preamble.js";
import { judgeHop } from "../../shared/rules/judge.js";
import {
  ANTENNA,
  CLIMATE,
  end,
  groundOf,
  KELD,
  levelGround,
  makeHop,
  NO_GROUND,
  QAM128,
  QPSK,
  R18,
  TARN,
} from "../evaluate/builders.js";
import { judgeExample } from "./example-design.js";

const TODAY = "2026-06-01";
const LENGTH_M = evaluateHop(makeHop(), levelGround(9000)).distanceM!;
const LEVEL = levelGround(LENGTH_M);

function judge(hop: Hop, ground: GroundInput = LEVEL): Finding[] {
  return judgeHop(hop, evaluateHop(hop, ground), TODAY);
}

/** What is not judged, and for want of what. */
function open(hop: Hop, ground?: GroundInput): string {
  const found = judge(hop, ground).filter(({ rule }) => rule === "not-judged");
  for (const { severity } of found) expect(severity).toBe("error");
  expect(found.length).toBeLessThan(2);
  return found[0]?.message ?? "";
}

const asking = (more: Partial<Objective>): Objective => ({ name: "asked", clearance: [], ...more });
const MARGIN = asking({ fadeMarginDb: 10 });
const CLEAR = asking({ clearance: [{ fresnelFraction: 0.6, kFactor: 1.33 }] });
const AVAILABLE = asking({ availabilityPercent: 99.9 });
const withVoid = (from: number, to: number) =>
  groundOf(
    Array.from({ length: 101 }, (_, i) => (i >= from && i <= to ? null : 200)),
    LENGTH_M,
  );
const ends = (more: object): Hop["ends"] => [end(KELD, "high", more), end(TARN, "low")];

test("of a channel that is not known the modes are not known either, and nobody is asked to state them", () => {
  const lacking = evaluateHop(makeHop({ objective: MARGIN, modes: [] }), LEVEL);
  expect(lacking.missing.some(({ fact }) => fact?.code === "mode")).toBe(true);
  const unknown = makeHop({ objective: MARGIN, modes: [], channel: undefined, channelUnknown: true });
  const { missing } = evaluateHop(unknown, LEVEL);
  expect(missing.filter(({ fact }) => fact?.code === "mode")).toEqual([]);
  // Whatever follows from the modes is open all the same, for want of the channel.
  const [channel] = missing.filter(({ reason }) => reason.code === "channel-unknown");
  expect(channel!.of).toEqual(expect.arrayContaining(["level", "threshold", "capacity", "zone"]));
  expect(open(unknown)).toBe("");
});

describe("open, and judged with what it lacked", () => {
  const rows: readonly [string, Partial<Hop>, Partial<Hop>, RegExp, GroundInput?, GroundInput?][] = [
    [
      "position",
      { objective: MARGIN, ends: ends({ site: { ...KELD, position: undefined } }) },
      {},
      /^fade margin is not judged: position of KELD not stated$/,
    ],
    ["radio", { objective: MARGIN, radio: undefined, modes: [] }, {}, /radio not stated$/],
    ["mode", { objective: MARGIN, modes: [] }, {}, /mode not stated$/],
    [
      "transmit frequency",
      { objective: MARGIN, ends: ends({ transmitFrequencyHz: undefined }) },
      {},
      /transmit frequency at KELD not stated$/,
    ],
    [
      "polarization",
      { objective: AVAILABLE, polarization: undefined },
      {},
      /^availability is not judged: polarization not stated$/,
    ],
    ["antenna", { objective: MARGIN, ends: ends({ antenna: undefined }) }, {}, /antenna at KELD not stated$/],
    [
      "antenna height",
      { objective: CLEAR, ends: ends({ antennaHeightM: undefined }) },
      {},
      /^clearance is not judged: antenna height at KELD not stated$/,
    ],
    [
      "gain",
      { objective: MARGIN, ends: ends({ antenna: { ...ANTENNA, gain: [], diameterM: undefined } }) },
      {},
      /antenna DISH60-18 at KELD has neither gain nor diameter/,
    ],
    [
      "loss of a coupler",
      { objective: MARGIN, ends: ends({ coupler: { name: "C" } }) },
      { ends: ends({ coupler: { name: "C", mainLossDb: 3.5 } }) },
      /coupler C at KELD has no loss/,
    ],
    [
      "power",
      { objective: MARGIN, modes: [{ ...QAM128, transmitPowerDbm: undefined }] },
      {},
      /mode 128QAM has no transmit power/,
    ],
    [
      "threshold",
      { objective: MARGIN, modes: [{ ...QAM128, thresholdDbm: undefined }] },
      {},
      /mode 128QAM has neither a threshold/,
    ],
    [
      "power of one direction",
      {
        objective: MARGIN,
        modes: [{ ...QAM128, transmitPowerDbm: undefined }],
        ends: ends({ transmitPowerDbm: 20 }),
      },
      {
        modes: [{ ...QAM128, transmitPowerDbm: undefined }],
        ends: [end(KELD, "high", { transmitPowerDbm: 20 }), end(TARN, "low", { transmitPowerDbm: 20 })],
      },
      /^fade margin is not judged: mode 128QAM has no transmit power/,
    ],
    [
      "threshold of the judged mode",
      { objective: MARGIN, modes: [{ ...QPSK, thresholdDbm: undefined }, QAM128] },
      { modes: [QPSK, { ...QAM128, thresholdDbm: undefined }] },
      /mode QPSK has neither a threshold/,
    ],
    [
      "rate",
      { objective: asking({ capacityBps: 300e6 }), modes: [QPSK, { ...QAM128, bitRateBps: undefined }] },
      { modes: [{ ...QPSK, bitRateBps: undefined }, QAM128] },
      /^capacity is not judged: mode 128QAM has no rate/,
    ],
    [
      "rain",
      { objective: AVAILABLE, climate: { logK: -4.2, dN75: 12 } },
      {},
      /the climate gives no rain rate at 0.01 %/,
    ],
    [
      "rain at another percentage",
      { objective: AVAILABLE, climate: { ...CLIMATE, rainTimePercent: 0.1 } },
      {},
      /stated at 0.1 % of the year/,
    ],
    [
      "logK",
      { objective: AVAILABLE, climate: { rainRateMmPerH: 34, multipathMethod: "current" } },
      { climate: { ...CLIMATE, multipathMethod: "current" } },
      /needs logK and dN75/,
    ],
    [
      "a method that refuses",
      { objective: AVAILABLE, climate: { ...CLIMATE, dN75: 2000 } },
      {},
      /^availability is not judged: .*1000 %/,
    ],
    [
      "a law that only bounds",
      {
        objective: asking({ availabilityPercent: 99.9995 }),
        climate: { rainRateMmPerH: 20, logK: -7, dN75: 12, rareRain: "bound" },
      },
      { objective: AVAILABLE },
      /^availability is not judged: the law of rain ends at 0.001 % of the year and cannot tell/,
    ],
    ["terrain", { objective: CLEAR }, {}, /^clearance is not judged: there is no terrain profile/, NO_GROUND],
    [
      "heights in the middle",
      { objective: CLEAR },
      {},
      /there are no heights from 1.87 km to 2.81 km/,
      withVoid(20, 30),
    ],
    ["one height", { objective: CLEAR }, {}, /there are no heights at 2.81 km/, withVoid(30, 30)],
    [
      "all heights",
      { objective: CLEAR },
      {},
      /there are no heights from 0.00 km to 9.36 km/,
      withVoid(0, 100),
    ],
    [
      "ground at a site",
      { objective: MARGIN, ends: ends({ site: { ...KELD, groundM: undefined } }) },
      {},
      /the ground level of KELD is neither stated nor in the terrain/,
      NO_GROUND,
      LEVEL,
    ],
    [
      "a k that means something",
      { objective: asking({ clearance: [{ fresnelFraction: 1, kFactor: 0 }] }) },
      { objective: CLEAR },
      /a clearance of asked is beyond reason/,
    ],
    [
      "an availability that can be",
      { objective: asking({ availabilityPercent: 101 }) },
      { objective: AVAILABLE },
      /^availability is not judged: availability objective asked is beyond reason/,
    ],
    [
      "a margin that can be",
      { objective: asking({ fadeMarginDb: 501 }) },
      { objective: MARGIN },
      /^fade margin is not judged: /,
    ],
    [
      "failures",
      { objective: asking({ availabilityClass: { portion: "access" } }) },
      { repairHours: 4, radio: { ...R18, mtbfHours: 5e5 } },
      /^availability of the link is not judged: repair-time not stated; R18 states no mtbf$/,
    ],
    [
      "failures that lack one thing",
      { objective: asking({ availabilityClass: { portion: "access" } }), radio: { ...R18, mtbfHours: 5e5 } },
      { repairHours: 4, radio: { ...R18, mtbfHours: 5e5 } },
      /^availability of the link is not judged: repair-time not stated$/,
    ],
    [
      "failures that lack the other",
      { objective: asking({ availabilityClass: { portion: "access" } }), repairHours: 4 },
      { repairHours: 4, radio: { ...R18, mtbfHours: 5e5 } },
      /^availability of the link is not judged: R18 states no mtbf$/,
    ],
    [
      "a share of propagation",
      { objective: asking({ availabilityClass: { portion: "access" } }) },
      { objective: asking({ availabilityClass: { portion: "access", propagationPercent: 50 } }) },
      /repair-time/,
    ],
    [
      "a link as long as its hop",
      {
        objective: asking({
          availabilityClass: { portion: "access", linkLengthM: 9000, propagationPercent: 50 },
        }),
      },
      {
        objective: asking({
          availabilityClass: { portion: "access", linkLengthM: 10_000, propagationPercent: 50 },
        }),
      },
      /The hop is longer than its link$/,
    ],
    [
      "an unchecked method",
      {
        objective: asking({ quality: { portion: "access" } }),
        climate: { ...CLIMATE, uncheckedMethods: "leave-out" },
      },
      { climate: CLIMATE },
      /^severely errored seconds is not judged: .*left out/,
    ],
  ];

  test.each(rows)("%s", (_what, lacking, mended, message, ground, known) => {
    expect(open(makeHop(lacking), ground)).toMatch(message);
    const { objective } = lacking;
    expect(
      judge(makeHop({ objective, ...mended }), known).filter(({ severity }) => severity === "error"),
    ).toEqual([]);
  });

  test("one direction that is missed is missed, whatever the other lacks", () => {
    const deep = asking({ fadeMarginDb: 60 });
    const hop = makeHop({ objective: deep, ends: ends({ transmitFrequencyHz: undefined }) });
    expect(judge(hop).map(({ rule, severity }) => `${severity} ${rule}`)).toEqual([
      // The frequency that is missing there keeps nothing open.
      "info hop-incomplete",
      "error fade-margin",
    ]);
  });

  test("known ground that blocks is missed, whatever is void beside it", () => {
    const heights = Array.from({ length: 101 }, (_, i) => (i > 20 && i < 30 ? null : i === 50 ? 300 : 200));
    const found = judge(makeHop({ objective: CLEAR }), groundOf(heights, LENGTH_M));
    expect(found.map(({ rule, severity }) => `${severity} ${rule}`)).toEqual([
      "warning terrain-gap",
      "error clearance",
    ]);
  });
});

test("of several judged together, one that is open leaves what is asked open, and one that is missed misses it", () => {
  const objective = asking({
    clearance: [0.6, 1].map((fresnelFraction) => ({ fresnelFraction, kFactor: 1.33 })),
  });
  const hop = makeHop({ objective });
  const result = evaluateHop(hop, LEVEL);
  const verdict = (...each: readonly Verdict[]) =>
    criteriaOf(hop, hop, {
      ...result,
      clearance: each.map((one, i) => ({ ...result.clearance[i]!, verdict: one })),
    }).map((one) => one.verdict);
  expect(verdict("met", "met")).toEqual(["met"]);
  expect(verdict("met", "open")).toEqual(["open"]);
  expect(verdict("met")).toEqual(["open"]);
  expect(verdict("open", "missed")).toEqual(["missed"]);
});

test("a path without a profile is told where nothing that is asked needs one, whatever else is open", () => {
  const rules = (objective: Objective) =>
    judge(makeHop({ objective, modes: [{ ...QAM128, bitRateBps: undefined }] }), NO_GROUND).map(
      ({ rule }) => rule,
    );
  expect(rules(asking({ capacityBps: 300e6 }))).toEqual(["no-terrain", "not-judged"]);
  expect(rules({ ...CLEAR, capacityBps: 300e6 })).toEqual(["not-judged"]);
});

test("all that is missing stands in one finding, and nowhere else", () => {
  const bare: Hop = makeHop({
    radio: undefined,
    modes: [],
    climate: {},
    polarization: undefined,
    ends: [
      { site: { name: "KELD", position: KELD.position } },
      { site: { name: "TARN", position: TARN.position } },
    ],
  });
  const found = judge(bare, NO_GROUND);
  expect(found).toHaveLength(1);
  expect(found[0]).toMatchObject({
    rule: "not-judged",
    at: "hop KELD-TARN",
    notJudged: ["clearance", "capacity", "availability", "fade-margin"],
    message:
      "clearance, capacity, availability and fade margin are not judged: radio, polarization, transmit frequency, antenna and antenna height at KELD and TARN not stated; the ground level of KELD is neither stated nor in the terrain; the ground level of TARN is neither stated nor in the terrain; there is no terrain profile of the path",
    help: "Name a folder of terrain in the network, or a surveyed profile in the hop.",
  });
  expect(found[0]!.related!.map(({ at }) => at)).toContain("hop KELD-TARN / TARN / antenna.at");
  // Without an objective the same is an info.
  expect(judge({ ...bare, objective: undefined }, NO_GROUND).map(({ severity }) => severity)).toEqual([
    "info",
    "info",
  ]);
});

test("an objective from the defaults counts as named", () => {
  const without = exampleHop({ tarn: "antenna DISH60-18\n    transmits low" }).replace(
    "  objective trunk\n",
    "",
  );
  const rules = (text: string) =>
    judgeExample(text).findings.map(({ rule, severity }) => `${severity} ${rule}`);
  expect(rules(without)).toEqual(["info hop-incomplete"]);
  expect(rules(`defaults hop {\n  objective trunk\n}\n\n${without}`)).toEqual(["error not-judged"]);
});

describe("a hop without two ends", () => {
  const text = (more = "", objective = "objective trunk") =>
    `hop KELD-TARN {\n  ${objective}\n  KELD { }\n  ${more}\n}`;
  // At the other site no hop ends yet.
  const found = (of: string) => judgeExample(of).findings.filter(({ rule }) => rule !== "site-unused");
  const told = (of: string) =>
    found(of).map(({ rule, severity, accepted }) => `${accepted ? "accepted" : severity} ${rule}`);

  test("of which something is asked is not judged, and can be accepted", () => {
    expect(found(text())).toMatchObject([
      {
        rule: "not-judged",
        severity: "error",
        message:
          "clearance, capacity, availability and fade margin are not judged: KELD-TARN has one end yet, KELD",
      },
    ]);
    const accepting = text('accept not-judged because "the other site is not found yet"');
    expect(told(accepting)).toEqual(["accepted not-judged"]);
    expect(told(`required capacity\n${accepting}`)).toEqual(["error not-judged", "error required-accepted"]);
    expect(told(text('accept clearance because "x"'))).toEqual(["error not-judged"]);
  });

  test("of which nothing is asked is a remark of the text", () => {
    expect(told(text("", ""))).toEqual([]);
    expect(told(`objective idle {\n}\n${text("", "objective idle")}`)).toEqual([]);
  });
});

describe("a cause quiets what is no graver than itself", () => {
  const radio: Radio = { ...R18, tuning: { fromHz: 10e9, toHz: 11e9 } };
  const deep = makeHop({ radio, objective: asking({ fadeMarginDb: 60 }) });
  const policy = (severity: "error" | "warning" | "info") => ({
    statements: [{ rule: "frequency-outside-tuning", severity, required: false }],
  });
  const rules = (hop: Hop) =>
    judge(hop).map(({ rule, severity, accepted }) => `${accepted ? "accepted" : severity} ${rule}`);

  test("an error quiets an error, a lesser or accepted one does not", () => {
    expect(rules(deep)).not.toContain("error fade-margin");
    expect(rules({ ...deep, policy: policy("error") })).not.toContain("error fade-margin");
    for (const severity of ["warning", "info"] as const)
      expect(rules({ ...deep, policy: policy(severity) })).toContain("error fade-margin");
    const accepts = [{ rule: "frequency-outside-tuning", reason: "a prototype" }];
    expect(rules({ ...deep, accepts })).toContain("error fade-margin");
  });

  test("a level that is accepted below its threshold leaves the availability to be seen", () => {
    const lossy = makeHop({ objective: AVAILABLE, ends: ends({ extraLossDb: 60 }) });
    expect(rules(lossy)).toEqual(["error level-below-threshold"]);
    const accepts = [{ rule: "level-below-threshold", reason: "a test bed" }];
    expect(rules({ ...lossy, accepts })).toEqual(["accepted level-below-threshold", "error availability"]);
    expect(judge({ ...lossy, accepts })[1]!.message).toBe(
      "available 0 % with 128QAM (8766 h a year out), the objective asks 99.9 % (526 min a year); the received level leaves no margin",
    );
  });
});

test("an acceptance of what is open is left alone", () => {
  const accepts = [{ rule: "clearance", reason: "felled next spring" }];
  const rules = (ground: GroundInput) =>
    judge(makeHop({ objective: CLEAR, accepts }), ground).map(({ rule }) => rule);
  expect(rules(withVoid(20, 30))).toEqual(["not-judged"]);
  expect(rules(LEVEL)).toEqual(["acceptance-unused"]);
});
