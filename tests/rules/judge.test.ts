import { expect, test } from "vitest";
import type { Design, Hop } from "../../shared/design/design.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { HOP_RULES, RULES } from "../../shared/rules/index.js";
import { judgeHop } from "../../shared/rules/judge.js";
import { judgeNetwork } from "../../shared/rules/judge-network.js";
import {
  ANTENNA,
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
  TRUNK,
} from "../evaluate/builders.js";
import { loadVectors, testRows } from "../support/vectors.js";

const TODAY = "2026-06-01";
const LENGTH_M = evaluateHop(makeHop(), levelGround(9000)).distanceM!;

function judge(hop: Hop, hillM = 0) {
  return judgeHop(hop, evaluateHop(hop, levelGround(LENGTH_M, hillM)), TODAY);
}

function ids(findings: readonly { rule: string }[]): string[] {
  return findings.map(({ rule }) => rule);
}

function network(...hops: Hop[]) {
  const design: Design = { terrain: [], sites: new Map(), hops: new Map(hops.map((hop) => [hop.name, hop])) };
  const results = new Map(hops.map((hop) => [hop.name, evaluateHop(hop, levelGround(LENGTH_M))]));
  // The hops of these tests leave median k and selective fading open, which is told of every network of them.
  return judgeNetwork(design, results, TODAY).filter(
    ({ rule }) => !/^(not-counted|default-inputs)$/.test(rule),
  );
}

test("an unconfirmed plan tells how many more hops use it, one in the singular", () => {
  const channel = { plan: "P", bandwidthHz: 55e6, number: 1, standing: "memory" } as const;
  const hops = ["A", "B", "C"].map((name) => makeHop({ name, channel }));
  const told = (...of: Hop[]) =>
    network(...of).find(({ rule }) => rule === "channel-plan-unconfirmed")?.message;
  expect(told(hops[0]!)).toBe("the figures of plan P are from memory, unconfirmed");
  expect(told(hops[0]!, hops[1]!)).toMatch(/; 1 more hop has such a channel$/);
  expect(told(...hops)).toMatch(/; 2 more hops have such channels$/);
});

test("of a raster that licences show, a channel outside those seen is told, on both sides", () => {
  const told = (...numbers: number[]) => {
    const [first, ...others] = numbers.map((number) => ({
      plan: "P",
      bandwidthHz: 55e6,
      number,
      standing: "licensed-links" as const,
      witnessed: [7, 16] as const,
      separationHz: 110e6,
    }));
    return network(makeHop({ channel: first, furtherChannels: others }))
      .filter(({ rule }) => rule === "channel-plan-unconfirmed")
      .map(({ message }) => message);
  };
  const beyond = (number: number) => [
    `the figures of plan P are confirmed by licensed links for channels 7 to 16; that there is a channel ${number} is from memory`,
  ];
  expect(told(6)).toEqual(beyond(6));
  expect(told(7)).toEqual([]);
  expect(told(16)).toEqual([]);
  expect(told(17)).toEqual(beyond(17));
  // A further carrier as well, and the hop once.
  expect(told(16, 17)).toEqual(beyond(17));
  expect(told(5, 17)).toEqual(beyond(5));
});

test("a sound hop has no findings", () => {
  expect(judge(makeHop())).toEqual([]);
});

test("clearance: measured against asked, and a height that will do at either end", () => {
  const [found, ...others] = judge(makeHop(), 34);
  expect(others).toEqual([]);
  const { clearance } = evaluateHop(makeHop(), levelGround(LENGTH_M, 34));
  const needed = clearance[0]!.heightNeededM.map((heightM) => (Math.ceil(heightM! * 10) / 10).toFixed(1));
  expect(found).toMatchObject({
    rule: "clearance",
    severity: "error",
    at: "hop KELD-TARN / KELD / antenna.at",
    message: `clears ${clearance[0]!.fraction.toFixed(2)} F1 at 4.68 km with k 1.33; the objective asks 1 F1; raise KELD to ${needed[0]} m or TARN to ${needed[1]} m`,
  });
  expect(found!.related![0]).toMatchObject({ at: "objective trunk / clearance" });
  // The height as written makes the finding vanish.
  const raised = makeHop({
    ends: [end(KELD, "high", { antennaHeightM: Number(needed[0]) }), end(TARN, "low")],
  });
  expect(judge(raised, 34)).toEqual([]);
});

test("clearance: a height above the structure says so, and the end that can hold it goes before", () => {
  const low = { ...KELD, structure: { kind: "mast", heightM: 41 } };
  const { message, at } = judge(makeHop({ ends: [end(low, "high"), end(TARN, "low")] }), 34)[0]!;
  expect(message).toMatch(/raise TARN to 4\d\.\d m or KELD to 4\d\.\d m \(above the 41 m mast\)$/);
  expect(at).toBe("hop KELD-TARN / TARN / antenna.at");
});

test("an antenna hangs no lower than half its diameter", () => {
  const at = (antennaHeightM: number) =>
    judge(makeHop({ ends: [end(KELD, "high", { antennaHeightM }), end(TARN, "low")] })).find(
      ({ rule }) => rule === "antenna-below-ground",
    )?.message;
  expect(at(0.3)).toBeUndefined();
  expect(at(0.2)).toBe(
    "the centre of DISH60-18 hangs 0.2 m above ground, less than its radius of 0.3 m, at KELD",
  );
});

test("a hop of which nothing is asked does not look as if it had passed", () => {
  const [found, ...others] = judge(makeHop({ objective: undefined }));
  expect(others).toEqual([]);
  expect(found).toMatchObject({
    rule: "objective-missing",
    severity: "info",
    message: "there is no objective: clearance, fade margin, availability, capacity are computed, not judged",
  });
  expect(ids(judge(makeHop({ objective: { name: "idle", clearance: [] } })))).toEqual(["objective-missing"]);
  // Before anything can be computed, what is missing is told elsewhere.
  const bare = makeHop({
    objective: undefined,
    ends: [end({ name: "KELD" }, "high"), end(TARN, "low")],
  });
  expect(ids(judge(bare))).toEqual(["hop-incomplete"]);
});

test("clearance: a blocked ray is told in metres, an obstacle by its name", () => {
  const hop = makeHop({ obstacles: [{ title: "crane", heightM: 60, distanceM: 3000 }] });
  expect(judge(hop)[0]!.message).toMatch(
    /^the ray is blocked by \d+\.\d m over "crane" at 3\.00 km with k 1\.33;/,
  );
});

test("one cause is told once: an obstruction keeps diffraction, margin and availability quiet", () => {
  expect(ids(judge(makeHop(), 80))).toEqual(["clearance"]);
  // Without a clearance asked for, the diffraction loss is the cause.
  const noClearance = makeHop({ objective: { ...TRUNK, clearance: [] } });
  expect(ids(judge(noClearance, 80))[0]).toBe("diffraction-loss");
});

test("an accepted cause no longer hides its consequences", () => {
  const hop = makeHop({ accepts: [{ rule: "clearance", reason: "felled next spring" }] });
  const findings = judge(hop, 80);
  expect(findings[0]).toMatchObject({
    rule: "clearance",
    severity: "info",
    accepted: { reason: "felled next spring" },
  });
  expect(ids(findings)).toContain("diffraction-loss");
});

test("a length beyond any hop is an error, told with the slip of the pen that explains it", () => {
  const between = (longitudeDeg: number, latitudeDeg = 54.4534, fromDeg = -1.5) =>
    judge(
      makeHop({
        ends: [
          end({ ...KELD, position: { latitudeDeg: 54.4534, longitudeDeg: fromDeg } }, "high"),
          end({ ...TARN, position: { latitudeDeg, longitudeDeg } }, "low"),
        ],
      }),
    ).find(({ rule }) => rule === "path-length");
  // 208 km with E for W; 13 km without it. A degree is 64.9 km here.
  expect(between(1.7)).toMatchObject({
    severity: "error",
    message: "KELD and TARN are 207.5 km apart",
    help: "With the other sign of the longitude (E for W, or W for E) at KELD or TARN it would be 13.0 km.",
  });
  expect(between(-1.53, -54.4534)?.help).toMatch(/^With the other sign of the latitude .* 1\.9\d km\.$/);
  expect(between(54.4534, -1.53)?.help).toMatch(/^With latitude and longitude exchanged at TARN it would be/);
  // As long, and no slip makes it shorter: 200 km are 3.085 degrees.
  expect(between(-4.6)).toMatchObject({ severity: "error", help: undefined });
  expect(between(-4.56)).toBeUndefined();
});

test("acceptances: still valid on the last day, expired after it, unused, unknown", () => {
  const high = { ends: [end(KELD, "high", { antennaHeightM: 70 }), end(TARN, "low")] } as const;
  const with_ = (rule: string, until?: string) => judge(makeHop({ ...high, accepts: [{ rule, until }] }));
  expect(with_("antenna-above-structure", TODAY)).toMatchObject([
    { severity: "info", accepted: { until: TODAY } },
  ]);
  expect(with_("antenna-above-structure", "2026-05-31")).toMatchObject([
    { rule: "antenna-above-structure", severity: "error" },
    { rule: "acceptance-expired", at: "hop KELD-TARN / accept" },
  ]);
  expect(ids(with_("overload"))).toEqual(["antenna-above-structure", "acceptance-unused"]);
  expect(ids(with_("no-such-rule"))).toEqual(["antenna-above-structure", "acceptance-unknown"]);
  expect(ids(with_("acceptance-unused"))).toEqual(["antenna-above-structure", "acceptance-unknown"]);
  expect(with_("clearence")[1]?.message).toBe(
    "there is no rule clearence to accept; did you mean clearance?",
  );
});

test("an acceptance of a rule of the network is judged with the network", () => {
  const accepts = [{ rule: "site-high-and-low", reason: "filters are fitted" }];
  const second = makeHop({
    name: "KELD-MOSS",
    ends: [end(KELD, "low", { antennaHeightM: 45 }), end({ ...TARN, name: "MOSS" }, "high")],
    accepts,
  });
  const findings = network(makeHop(), second);
  expect(findings).toMatchObject([
    { rule: "site-high-and-low", severity: "info", at: "hop KELD-MOSS / KELD / transmits" },
  ]);
  expect(ids(judge(second))).toEqual([]);
  expect(ids(network({ ...second }))).toEqual(["acceptance-unused"]);
});

test("the worse message of an availability tells figures that differ, the cause and what it lacks", () => {
  const hop = makeHop({
    ends: [end(KELD, "high", { extraLossDb: 6 }), end(TARN, "low")],
    objective: { ...TRUNK, fadeMarginDb: undefined },
  });
  const [found, ...others] = judge(hop);
  expect(others).toEqual([]);
  expect(found).toMatchObject({ rule: "availability", severity: "error", at: "hop KELD-TARN" });
  const [figure, asked] = [.../([\d.]+) %/g[Symbol.matchAll](found!.message)].map((match) => match[1]);
  expect(asked).toBe("99.99");
  expect(Number(figure)).toBeLessThan(99.99);
  expect(found!.help).toMatch(/^\d+\.\d dB more margin in both directions would meet it\./);
});

test("a fade margin and an availability that are both missed are both told", () => {
  const hop = makeHop({ ends: [end(KELD, "high", { extraLossDb: 12 }), end(TARN, "low")] });
  expect(ids(judge(hop))).toEqual(["availability", "fade-margin"]);
  const deep = makeHop({ objective: { ...TRUNK, fadeMarginDb: 45 } });
  expect(judge(deep)).toMatchObject([
    { rule: "fade-margin", message: expect.stringContaining("the objective asks 45.0 dB") },
  ]);
});

test("a fade margin is enough when it is as large as asked, to the hundredth", () => {
  const hop = makeHop({ objective: { ...TRUNK, availabilityPercent: undefined } });
  const margins = evaluateHop(hop, levelGround(LENGTH_M)).directions.map(
    ({ modes }) => modes[0]!.fadeMarginDb,
  );
  const asking = (fadeMarginDb: number) => judge({ ...hop, objective: { ...hop.objective!, fadeMarginDb } });
  expect(asking(Math.min(...margins) - 0.01)).toEqual([]);
  expect(ids(asking(Math.min(...margins) + 0.01))).toEqual(["fade-margin"]);
});

test("ground may differ from the terrain by 15 m", () => {
  const at = (groundM: number) =>
    ids(network(makeHop({ ends: [end({ ...KELD, groundM }, "high"), end(TARN, "low")] })));
  expect(at(214)).toEqual([]);
  expect(at(186)).toEqual([]);
  expect(at(216)).toEqual(["ground-differs-from-terrain"]);
});

test("ground more than 100 m off, or in feet, is an error whatever is agreed on", () => {
  const statements = [{ rule: "ground-differs-from-terrain", severity: "info", required: false }] as const;
  const severity = (groundM: number) => {
    const hop = makeHop({ ends: [end({ ...KELD, groundM }, "high"), end(TARN, "low")] });
    const policy = { statements };
    const design: Design = { terrain: [], sites: new Map(), hops: new Map([[hop.name, hop]]), policy };
    const results = new Map([[hop.name, evaluateHop(hop, levelGround(LENGTH_M))]]);
    return judgeNetwork(design, results, TODAY).flatMap((one) =>
      one.rule === "ground-differs-from-terrain" ? one.severity : [],
    );
  };
  expect(severity(299)).toEqual(["info"]);
  expect(severity(301)).toEqual(["error"]);
  expect(severity(99)).toEqual(["error"]);
  // The terrain has 200 m: 656 ft are 199.9 m, 700 ft 213.4 m, 710 ft 216.4 m and 200 m are 656 ft.
  expect(severity(656)).toEqual(["error"]);
});

test("an unfinished hop is told once and quietly", () => {
  const hop = makeHop({
    ends: [end(KELD, "high", { antennaHeightM: undefined }), end(TARN, "low", { antenna: undefined })],
  });
  const findings = judge({ ...hop, objective: undefined });
  expect(findings).toMatchObject([{ rule: "hop-incomplete", severity: "info", at: "hop KELD-TARN" }]);
  expect(judge(hop)).toMatchObject([{ rule: "not-judged", severity: "error", at: "hop KELD-TARN" }]);
  expect(findings[0]!.related!.map(({ at }) => at)).toEqual([
    "hop KELD-TARN / KELD / antenna.at",
    "hop KELD-TARN / TARN / antenna",
  ]);
  const empty = makeHop({ radio: undefined, modes: [], climate: {}, objective: undefined });
  expect(ids(judgeHop(empty, evaluateHop(empty, NO_GROUND), TODAY))).toEqual([
    "hop-incomplete",
    "no-terrain",
  ]);
});

test("an acceptance without a reason excuses nothing, one with the quick fix's words is told", () => {
  const ends = [end(KELD, "high", { antennaHeightM: 70 }), end(TARN, "low")] as const;
  const found = (reason: string) =>
    judge(makeHop({ ends, accepts: [{ rule: "antenna-above-structure", reason }] })).map(
      ({ rule, severity, accepted }) => `${rule} ${severity}${accepted ? " accepted" : ""}`,
    );
  expect(found("mast is being raised")).toEqual(["antenna-above-structure info accepted"]);
  expect(found(" ")).toEqual(["antenna-above-structure error", "acceptance-reason error"]);
  expect(found("reason to be written")).toEqual([
    "antenna-above-structure info accepted",
    "acceptance-reason warning",
  ]);
});

test("without any height on the path clearance is not judged, and its acceptance is left alone", () => {
  const accepts = [{ rule: "clearance", reason: "felled next spring" }];
  const found = (heights: readonly (number | null)[], hop = makeHop({ accepts })) =>
    judgeHop(hop, evaluateHop(hop, groundOf(heights, LENGTH_M)), TODAY);
  const unknown = Array.from({ length: 11 }, () => null);
  expect(found(unknown).map(({ rule, message }) => `${rule}: ${message}`)).toEqual([
    "not-judged: clearance, availability and fade margin are not judged: there are no heights from 0.00 km to 9.36 km (void in the raster)",
  ]);
  const blank = makeHop({ accepts: [{ rule: "clearance", reason: "" }] });
  expect(ids(found(unknown, blank))).toContain("acceptance-reason");
  // Over known ground that clears, the acceptance is stale.
  expect(ids(found(Array.from({ length: 11 }, () => 200)))).toEqual(["acceptance-unused"]);
});

test("gaps of the profile name stretch, cause and tile", () => {
  const heights = Array.from({ length: 101 }, (_, i) => (i > 20 && i < 30 ? null : 200));
  const told = (hop: Hop) => judgeHop(hop, evaluateHop(hop, groundOf(heights, LENGTH_M)), TODAY);
  expect(told(makeHop())).toMatchObject([
    {
      rule: "not-judged",
      severity: "error",
      message:
        "clearance, availability and fade margin are not judged: there are no heights from 1.97 km to 2.71 km (void in the raster)",
      help: "Add a raster that covers N47W031 (47.513, -30.475).",
    },
  ]);
  const found = told(makeHop({ objective: undefined })).find(({ rule }) => rule === "terrain-gap");
  expect(found).toMatchObject({
    severity: "warning",
    message:
      "no heights from 1.97 km to 2.71 km (void in the raster): whether the path is clear there is not known",
    help: "Add a raster that covers N47W031 (47.513, -30.475).",
  });
});

test("a gap is named by the tile it lies in, where longitudes jump too", () => {
  const heights = Array.from({ length: 101 }, (_, i) => (i > 45 && i < 55 ? null : 200));
  const ends = [
    end({ ...KELD, position: { latitudeDeg: -17.5, longitudeDeg: 179.95 } }, "high"),
    end({ ...TARN, position: { latitudeDeg: -17.5, longitudeDeg: -179.93 } }, "low"),
  ] as const;
  const hop = makeHop({ ends });
  const { distanceM } = evaluateHop(hop, NO_GROUND);
  const found = judgeHop(hop, evaluateHop(hop, groundOf(heights, distanceM!)), TODAY);
  expect(found.find(({ rule }) => rule === "not-judged")!.help).toBe(
    "Add a raster that covers S18W180 (-17.500, -179.990).",
  );
});

test("a bridged gap is told as info, with the statement that lets it be", () => {
  const heights = Array.from({ length: 101 }, (_, i) => (i > 20 && i < 30 ? null : 200));
  const found = (bridgeGapsM: number) => {
    const hop = makeHop({ bridgeGapsM });
    return judgeHop(hop, evaluateHop(hop, groundOf(heights, LENGTH_M)), TODAY);
  };
  expect(found(1000)).toMatchObject([
    {
      rule: "terrain-gap",
      severity: "info",
      message:
        "no heights from 1.87 km to 2.81 km, bridged by a straight line as `bridge-gaps` of the network states",
      related: [{ at: "bridge-gaps" }],
    },
  ]);
  expect(found(900)).toMatchObject([{ rule: "not-judged", severity: "error" }]);
});

const SPLIT = loadVectors<{
  source: string;
  check: { main_dB: number; coupled_dB: number; possible: boolean }[];
}>("evaluate/split.json");

testRows("couplers that conserve power, and those that do not", SPLIT.source, SPLIT.check, (row, is) => {
  const coupler = {
    name: "C",
    kind: "hybrid",
    mainLossDb: row.main_dB,
    standbyLossDb: row.coupled_dB,
  } as const;
  const hop = makeHop({
    arrangement: { name: "1+1 hot-standby" },
    ends: [end(KELD, "high", { coupler }), end(TARN, "low", { coupler })],
  });
  is.same("possible", !ids(network(hop)).includes("coupler-impossible"), row.possible);
});

test("no arm of a coupler gains, whatever the other one loses", () => {
  const told = (coupler: { mainLossDb: number; standbyLossDb?: number }) => {
    const made = { name: "C", kind: "hybrid", ...coupler } as const;
    const hop = makeHop({
      arrangement: { name: "1+1 hot-standby" },
      ends: [end(KELD, "high", { coupler: made }), end(TARN, "low", { coupler: made })],
    });
    return network(hop).flatMap(({ rule, message }) => (rule === "coupler-impossible" ? message : []));
  };
  const gains = ["C would amplify: a loss below 0 dB"];
  expect(told({ mainLossDb: -0.1 })).toEqual(gains);
  expect(told({ mainLossDb: -0.1, standbyLossDb: 40 })).toEqual(gains);
  expect(told({ mainLossDb: 40, standbyLossDb: -0.1 })).toEqual(gains);
  // 0.1 dB leave 2.3 % for the other arm: 16.4 dB.
  expect(told({ mainLossDb: 0.1, standbyLossDb: 40 })).toEqual([]);
});

test("a catalogue entry is told once, however many hops use it", () => {
  const radio = { ...R18, modes: [{ ...QAM128, thresholdDbm: -90 }] };
  const hops = ["A", "B", "C"].map((name) => makeHop({ name, radio, modes: radio.modes }));
  expect(ids(network(...hops)).filter((id) => id === "threshold-implausible")).toHaveLength(1);
});

test("a threshold is impossible below Shannon's limit and suspicious far above it", () => {
  // 55 MHz, 6.5 dB: noise -90.1 dBm; 310 Mbit/s in 55 MHz needs 16.9 dB (2^5.636 - 1 = 48.8): limit -73.2 dBm.
  const at = (thresholdDbm: number) => {
    const radio = { ...R18, modes: [{ ...QAM128, thresholdDbm }] };
    return network(makeHop({ radio, modes: radio.modes })).map(({ severity }) => severity);
  };
  expect(at(-73.3)).toEqual(["error"]);
  expect(at(-73.1)).toEqual([]);
  expect(at(-50)).toEqual(["warning"]);
});

test("power of a low mode with the threshold of a high one", () => {
  const hop = makeHop({
    modes: [QPSK, QAM128],
    ends: [end(KELD, "high", { transmitPowerDbm: 24 }), end(TARN, "low")],
  });
  expect(judge(hop)[0]).toMatchObject({ rule: "power-above-mode", at: "hop KELD-TARN / KELD / power" });
});

test("far field: 2 D^2 / lambda by hand", () => {
  // 3 m at 18.93 GHz: 18 / 0.015837 = 1136.6 m.
  const near = { ...TARN, position: { latitudeDeg: 47.509, longitudeDeg: -30.5 } };
  const big = { ...ANTENNA, diameterM: 3 };
  const hop = makeHop({ ends: [end(KELD, "high", { antenna: big }), end(near, "low")] });
  const found = judgeHop(hop, evaluateHop(hop, NO_GROUND), TODAY).find(({ rule }) => rule === "far-field");
  expect(found!.message).toContain("begins at 1136.6 m");
});

test("rules are told in the order of cause and consequence", () => {
  const order = HOP_RULES.map(({ id }) => id);
  for (const rule of HOP_RULES) {
    for (const cause of rule.quietAfter ?? [])
      expect(order.indexOf(cause), `${cause} before ${rule.id}`).toBeLessThan(order.indexOf(rule.id));
  }
  expect(RULES.size).toBe(new Set(RULES.keys()).size);
});

test("rounding never makes a miss read like a match", () => {
  const hop = makeHop({ ends: [end(KELD, "high", { extraLossDb: 6 }), end(TARN, "low")] });
  const result = evaluateHop(hop, levelGround(LENGTH_M));
  const availabilityPercent = result.availability!.availabilityPercent + 1e-6;
  const found = judgeHop(
    { ...hop, objective: { ...TRUNK, availabilityPercent, fadeMarginDb: undefined } },
    {
      ...result,
      availability: { ...result.availability!, objectivePercent: availabilityPercent, verdict: "missed" },
    },
    TODAY,
  );
  const [percent, minutes] = [/([\d.]+) %.*asks ([\d.]+) %/, /\(([\d.]+) min.*\(([\d.]+) min/].map((of) =>
    of.exec(found[0]!.message),
  );
  expect(percent![1]).not.toBe(percent![2]);
  expect(minutes![1]).not.toBe(minutes![2]);
  const margin = result.directions[0]!.modes[0]!.fadeMarginDb;
  const short = judge({
    ...hop,
    objective: { ...TRUNK, availabilityPercent: undefined, fadeMarginDb: margin + 0.01 },
  });
  const [, measured, asked] = /fade margin ([\d.]+) dB.*asks ([\d.]+) dB/.exec(short[0]!.message)!;
  expect(measured).not.toBe(asked);
  expect(short[0]!.help).not.toContain("0.0 dB");
});

test("what the law of rain cannot tell is open", () => {
  const objective = { ...TRUNK, availabilityPercent: 99.9995 };
  const climate = { rainRateMmPerH: 20, logK: -7, dN75: 12, rareRain: "bound" } as const;
  const [found, ...others] = judge(makeHop({ objective, climate }));
  expect(others).toEqual([]);
  expect(found).toMatchObject({
    rule: "not-judged",
    severity: "error",
    message:
      "availability is not judged: the law of rain ends at 0.001 % of the year and cannot tell: available between 99.999 % and 99.9999974 % with 128QAM, the objective asks 99.9995 %",
  });
  // Asked for no bound, the law continued tells: 20 mm/h keep it, 26 mm/h do not.
  expect(judge(makeHop({ objective, climate: { ...climate, rareRain: undefined } }))).toEqual([]);
  const [missed] = judge(
    makeHop({ objective, climate: { ...climate, rainRateMmPerH: 26, rareRain: undefined } }),
  );
  expect(missed!.message).toMatch(
    /; rain is an estimate .* outside the range of its law, which says at most 5\.3 min a year$/,
  );
});

test("an acceptance of what an obstruction tells in its place is left alone", () => {
  // 80 m of hill: the level is lost to diffraction, and clearance tells it for margin, level and availability.
  for (const rule of ["fade-margin", "availability", "level-below-threshold"]) {
    const told = ids(judge(makeHop({ accepts: [{ rule, reason: "rented for a year" }] }), 80));
    expect(told, rule).toContain("clearance");
    expect(told, rule).not.toContain(rule);
    expect(told, rule).not.toContain("acceptance-unused");
  }
});
