import fc from "fast-check";
import { expect, test } from "vitest";
import type { Hop } from "../../shared/design/design.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { rainCoefficients } from "../../shared/propagation/p838.js";
import {
  ANTENNA,
  CLIMATE,
  direction,
  end,
  KELD,
  lacksTold,
  levelGround,
  makeHop,
  notesTold,
  QAM128,
  QPSK,
  TARN,
  TRUNK,
} from "./builders.js";

/** About 30 km, so that multipath counts. */
const FAR = { ...TARN, position: { latitudeDeg: 47.7, longitudeDeg: -30.22 } };

/** Large antennas: some 30 dB of margin. */
const antenna = { ...ANTENNA, gain: [{ gainDbi: 46 }] };

function longHop(more: Partial<Hop> = {}, extraLossDb = 0): Hop {
  return makeHop({
    ends: [
      end(KELD, "high", { antenna, antennaHeightM: 60, extraLossDb }),
      end(FAR, "low", { antenna, antennaHeightM: 80 }),
    ],
    ...more,
  });
}

const LONG_M = evaluateHop(longHop(), levelGround(30_000)).distanceM!;
const GROUND = levelGround(LONG_M);

test("multipath by hand, in the deep range", () => {
  const result = evaluateHop(longHop(), GROUND);
  const there = direction(result, "KELD").modes[0]!;
  const f = 18.93;
  const d = LONG_M / 1000;
  // Rec. ITU-R P.530-18 section 2.3.1: logK -4.2, dN75 12, antennas at 260 and 280 m, ground at 200 m.
  const ep = 20 / d;
  const hc = 270 - d ** 2 / 102 - 200;
  const vsr = Math.min(
    (12 / 50) ** 1.8 * Math.exp(-hc / (2.5 * Math.sqrt(d))),
    (12 * d ** 1.5 * f ** 0.5) / 24730,
  );
  const exponent = -0.376 * Math.tanh((hc - 147) / 125) - 0.334 * ep ** 0.39 - 0.00027 * 260 + 17.85 * vsr;
  const p0 = 10 ** -4.2 * d ** 3.51 * (f ** 2 + 13) ** 0.447 * 10 ** exponent;
  expect(there.fadeMarginDb).toBeGreaterThan(25 + 1.2 * Math.log10(p0)); // deep range of section 2.3.2
  const month = p0 * 10 ** (-there.fadeMarginDb / 10);
  expect(there.multipathWorstMonthPercent! / month).toBeCloseTo(1, 6);
  // Section 2.3.4, latitude above 45 degrees.
  const latitude = (47.5 + 47.7) / 2;
  const term = Math.abs(Math.cos((2 * latitude * Math.PI) / 180)) ** 0.7;
  const dG = Math.min(
    10.8,
    10.5 - 5.6 * Math.log10(1.1 - term) - 2.7 * Math.log10(d) + 1.7 * Math.log10(1 + ep),
  );
  expect(there.multipath!.timePercent / (month * 10 ** (-dG / 10))).toBeCloseTo(1, 6);
});

test("rain by hand: the attenuation of the outage found is the margin", () => {
  const result = evaluateHop(longHop(), GROUND);
  const there = direction(result, "KELD").modes[0]!;
  const f = 18.93;
  const d = LONG_M / 1000;
  const { k, alpha } = rainCoefficients({ frequencyHz: f * 1e9, polarizationTiltDeg: 90 });
  // Rec. ITU-R P.530-18 section 2.4.1, 34 mm/h.
  const r = Math.min(
    2.5,
    1 / (0.477 * d ** 0.633 * 34 ** (0.073 * alpha) * f ** 0.123 - 10.579 * (1 - Math.exp(-0.024 * d))),
  );
  const a001 = k * 34 ** alpha * d * r;
  expect(result.rainAttenuation001Db).toBeCloseTo(a001, 9);
  const c0 = 0.12 + 0.4 * Math.log10((f / 10) ** 0.8);
  const c1 = 0.07 ** c0 * 0.12 ** (1 - c0);
  const c2 = 0.855 * c0 + 0.546 * (1 - c0);
  const c3 = 0.139 * c0 + 0.043 * (1 - c0);
  const p = there.rain!.timePercent;
  expect(there.rain!.bound).toBeUndefined();
  expect(a001 * c1 * p ** -(c2 + c3 * Math.log10(p))).toBeCloseTo(there.fadeMarginDb, 6);
});

test("both directions: rain of the worse, multipath of both", () => {
  const result = evaluateHop(longHop(), GROUND);
  const [there, back] = [direction(result, "KELD").modes[0]!, direction(result, "TARN").modes[0]!];
  const found = result.availability!;
  expect(found.multipathPercent).toBeCloseTo(there.multipath!.timePercent + back.multipath!.timePercent, 12);
  expect(found.rainPercent).toBe(Math.max(there.rain!.timePercent, back.rain!.timePercent));
  expect(found.availabilityPercent).toBeCloseTo(100 - found.multipathPercent - found.rainPercent, 12);
  // Each direction by itself, in time: 365.25 days of 1440 minutes.
  expect(there.outage!.minutesPerYear).toBeCloseTo(((100 - there.availabilityPercent!) / 100) * 525_960, 6);
  expect(there.outage!.worstMonthPercent).toBeCloseTo(
    there.causes!.reduce((sum, { worstMonthPercent }) => sum + worstMonthPercent!, 0),
    12,
  );
  expect(found.outage.yearPercent).toBeLessThan(there.outage!.yearPercent + back.outage!.yearPercent);
  expect(found.dominant).toBe("multipath");
  const calm = evaluateHop(longHop({ climate: { ...CLIMATE, logK: -6 } }), GROUND).availability!;
  expect(calm.dominant).toBe("rain");
});

test("the mode that carries the capacity is judged", () => {
  const modes = [QPSK, QAM128];
  const judged = (capacityBps?: number) =>
    evaluateHop(longHop({ modes, objective: { ...TRUNK, capacityBps } }), GROUND).availability!.modulation;
  expect(judged(78e6)).toBe("QPSK");
  expect(judged(79e6)).toBe("128QAM");
  expect(judged(undefined)).toBe("QPSK");
});

test("where the range of the law of rain ends, it is continued, and told as an estimate with its bound", () => {
  const dry = (rainRateMmPerH: number) =>
    evaluateHop(longHop({ climate: { ...CLIMATE, rainRateMmPerH } }), GROUND);
  const below = dry(8);
  const found = below.availability!;
  expect(found.rainPercent).toBeGreaterThan(1e-6);
  expect(found.rainPercent).toBeLessThan(0.001);
  expect(found).toMatchObject({ rainAtMostPercent: 0.001, bound: undefined, rainBound: undefined });
  expect(found.atLeastPercent).toBeCloseTo(100 - found.multipathPercent - 0.001, 12);
  expect(found.outage.atMost!.yearPercent).toBeCloseTo(found.multipathPercent + 0.001, 12);
  // The law by hand: at the estimate it gives the margin (Rec. ITU-R P.530-18 section 2.4.1).
  const mode = below.directions
    .map(({ modes }) => modes[0]!)
    .find(({ rain }) => rain!.timePercent === found.rainPercent)!;
  const f = below.directions.find(({ modes }) => modes[0] === mode)!.frequencyHz / 1e9;
  const c0 = 0.12 + 0.4 * Math.log10((f / 10) ** 0.8);
  const c1 = 0.07 ** c0 * 0.12 ** (1 - c0);
  const c2 = 0.855 * c0 + 0.546 * (1 - c0);
  const c3 = 0.139 * c0 + 0.043 * (1 - c0);
  const p = found.rainPercent;
  const a001 = mode.fadeMarginDb / (c1 * p ** -(c2 + c3 * Math.log10(p)));
  expect(a001 / below.rainAttenuation001Db!).toBeCloseTo(1, 1); // the direction of the higher frequency by 6 %
  expect(notesTold(below).join(" ")).toContain(
    "continued in its own form: an estimate; the Recommendation itself says at most 0.001 %",
  );
  const beyond = dry(3);
  expect(beyond.availability!).toMatchObject({ rainPercent: 0, rainAtMostPercent: 0.001 });
  expect(notesTold(beyond).join(" ")).toContain("which continued never takes the margin");
  expect(direction(beyond, "KELD").modes[0]!).toMatchObject({
    rain: { timePercent: 0, atMostPercent: 0.001 },
    availabilityAtLeastPercent: expect.closeTo(
      100 - direction(beyond, "KELD").modes[0]!.multipath!.timePercent - 0.001,
      9,
    ),
  });
  // Worst month: P.841 holds from 0.000016 % of the year; of the bound beside that of the estimate.
  const cause = found.causes.find(({ cause }) => cause === "rain")!;
  expect(cause.worstMonthPercent! / (2.85 * p ** 0.87)).toBeCloseTo(1, 9);
  expect(cause.atMost!.worstMonthPercent! / (2.85 * 0.001 ** 0.87)).toBeCloseTo(1, 9);
  expect(cause.worstMonthPercent!).toBeLessThan(cause.atMost!.worstMonthPercent!);
  const desert = dry(0).availability!;
  expect([desert.rainPercent, desert.bound, desert.rainAtMostPercent]).toEqual([0, undefined, undefined]);
});

test("a climate may insist on the bound of the law of rain", () => {
  const dry = (rainRateMmPerH: number) =>
    evaluateHop(longHop({ climate: { ...CLIMATE, rainRateMmPerH, rareRain: "bound" } }), GROUND);
  const below = dry(8);
  expect(below.availability!).toMatchObject({ rainPercent: 0.001, bound: "at least" });
  expect(below.availability!.atLeastPercent).toBeUndefined();
  expect(notesTold(below).join(" ")).toContain("the full 0.001 % are counted");
  expect(below.availability!.outage.bound).toBe("at most");
  expect(below.directions[0]!.modes[0]!.availabilityBound).toBe("at least");
  const beyond = dry(3);
  expect(beyond.availability!).toMatchObject({ rainPercent: 0.001, rainBound: "at most", bound: "at least" });
  expect(beyond.availability!.causes.at(-1)).toMatchObject({
    cause: "rain",
    bound: "at most",
  });
  // Rain bounded from above is never what dominates; by the estimate it is nothing here.
  const calm = { ...CLIMATE, rainRateMmPerH: 3, logK: -7 };
  const dominant = (climate: Hop["climate"]) => evaluateHop(longHop({ climate }), GROUND).availability!;
  expect(dominant(calm).multipathPercent).toBeLessThan(0.001);
  expect(dominant(calm).dominant).toBe("multipath");
  expect(dominant({ ...calm, rareRain: "bound" }).dominant).toBe("not decided");
  const desert = dry(0).availability!;
  expect([desert.rainPercent, desert.bound]).toEqual([0, undefined]);
  const tropical = dry(150);
  expect(tropical.availability!.rainPercent).toBeGreaterThan(0.1);
});

test("an objective below 0.001 % is decided by the estimate, with the bound only as far as it goes", () => {
  const verdict = (rainRateMmPerH: number, availabilityPercent: number, rareRain?: "bound") =>
    evaluateHop(
      longHop({
        climate: { ...CLIMATE, rainRateMmPerH, logK: -7, rareRain },
        objective: { ...TRUNK, availabilityPercent },
      }),
      GROUND,
    ).availability!;
  expect(verdict(8, 99.99, "bound").verdict).toBe("met");
  // 0.0005 % allowed: multipath keeps it, rain takes 0.001 % at most.
  expect(verdict(8, 99.9995, "bound")).toMatchObject({ verdict: "open", shortfallDb: undefined });
  expect(verdict(3, 99.9995, "bound").verdict).toBe("open");
  expect(verdict(40, 99.9995, "bound")).toMatchObject({ verdict: "missed", shortfallDb: undefined });
  const { availabilityPercent } = verdict(8, 99.9);
  expect(verdict(8, availabilityPercent - 1e-6).verdict).toBe("met");
  expect(verdict(8, availabilityPercent + 1e-6).verdict).toBe("missed");
  expect(verdict(3, 99.9995).verdict).toBe("met"); // continued, the law never takes this margin
  expect(verdict(20, 99.9995)).toMatchObject({ verdict: "missed", shortfallDb: expect.any(Number) });
});

test("the rates of equal carriers add up", () => {
  const judged = (arrangement: string) =>
    evaluateHop(
      longHop({
        modes: [QPSK, QAM128],
        arrangement: { name: arrangement },
        objective: { ...TRUNK, capacityBps: 150e6 },
      }),
      GROUND,
    ).availability!.modulation;
  expect(judged("1+0")).toBe("128QAM");
  expect(judged("2+0 xpic")).toBe("QPSK"); // twice 78 Mbit/s
  expect(judged("1+1 hot-standby")).toBe("128QAM");
});

test("the margin said to be lacking is the one that meets the objective", () => {
  const short = longHop({ objective: { ...TRUNK, availabilityPercent: 99.98 } }, 12);
  const { shortfallDb, availabilityPercent } = evaluateHop(short, GROUND).availability!;
  expect(availabilityPercent).toBeLessThan(99.98);
  const lossDb = (less: number) => longHop({ objective: short.objective }, 12 - less);
  expect(evaluateHop(lossDb(shortfallDb!), GROUND).availability!.availabilityPercent).toBeGreaterThanOrEqual(
    99.98,
  );
  expect(evaluateHop(lossDb(shortfallDb! - 0.05), GROUND).availability!.availabilityPercent).toBeLessThan(
    99.98,
  );
});

const lossDb = fc.double({ min: 0, max: 60, noNaN: true });
const rates = fc.double({ min: 1, max: 60, noNaN: true });
const wet = fc.constantFrom({}, { rainHeightM: 900, rainProbabilityPercent: 4 });
const carried = fc.constantFrom("1+0", "2+0 xpic", "1+1 space-diversity");
const rares = fc.constantFrom("estimate" as const, "bound" as const);

test("more loss never makes a hop more available, below 0.001 % of rain and across it", () => {
  fc.assert(
    fc.property(lossDb, lossDb, rates, wet, carried, rares, (a, b, rainRateMmPerH, snow, name, rareRain) => {
      const climate = { ...CLIMATE, logK: -6, rainRateMmPerH, ...snow, rareRain };
      const at = (loss: number) =>
        evaluateHop(longHop({ climate, arrangement: { name } }, loss), GROUND).availability!;
      const [more, less] = [at(Math.max(a, b)), at(Math.min(a, b))];
      expect(more.availabilityPercent).toBeLessThanOrEqual(less.availabilityPercent + 1e-11);
      expect(more.outage.worstMonthPercent ?? 100).toBeGreaterThanOrEqual(
        (less.outage.worstMonthPercent ?? 0) - 1e-11,
      );
    }),
    { numRuns: 300 },
  );
});

test("no estimate of an outage exceeds its bound, and only an estimate has one", () => {
  fc.assert(
    fc.property(lossDb, rates, wet, carried, rares, (loss, rainRateMmPerH, snow, name, rareRain) => {
      const climate = { ...CLIMATE, rainRateMmPerH, ...snow, rareRain };
      const arrangement = { name };
      const { availability, directions } = evaluateHop(longHop({ climate, arrangement }, loss), GROUND);
      const found = availability!;
      const estimated = found.rainAtMostPercent !== undefined;
      expect(estimated).toBe(found.atLeastPercent !== undefined);
      expect(estimated).toBe(found.outage.atMost !== undefined);
      if (estimated) {
        expect(rareRain).toBe("estimate");
        expect(found.bound).toBeUndefined();
        expect(found.rainPercent).toBeLessThanOrEqual(0.001);
        expect(found.availabilityPercent).toBeGreaterThanOrEqual(found.atLeastPercent!);
        expect(found.outage.worstMonthPercent!).toBeLessThanOrEqual(found.outage.atMost!.worstMonthPercent!);
      }
      for (const { modes } of directions)
        for (const { rain, availabilityPercent, availabilityAtLeastPercent } of modes) {
          expect(rain?.atMostPercent !== undefined).toBe(availabilityAtLeastPercent !== undefined);
          expect(rain?.timePercent ?? 0).toBeLessThanOrEqual(rain?.atMostPercent ?? 100);
          expect(availabilityPercent!).toBeGreaterThanOrEqual(availabilityAtLeastPercent ?? 0);
        }
    }),
    { numRuns: 300 },
  );
});

test("each missing figure of the climate is told once and takes its cause with it", () => {
  const without = (climate: Hop["climate"]) => evaluateHop(longHop({ climate }), GROUND);
  const nothing = without({});
  expect(nothing.availability).toBeUndefined();
  expect(direction(nothing, "KELD").modes[0]!.fadeMarginDb).toBeGreaterThan(0);
  expect(lacksTold(nothing)).toBe("Rain outage: the climate gives no rain rate at 0.01 % of the year.");
  expect(lacksTold(without({ ...CLIMATE, rainTimePercent: 0.1 }))).toContain("needs it at 0.01 %");
  // PN.837-1 table 1, zone K: 42 mm/h.
  const zone = without({ logK: -4.2, dN75: 12, rainZone: "K" });
  expect(zone.inputs).toContainEqual(
    expect.objectContaining({ code: "rain-rate", rateMmPerH: 42, standing: "superseded" }),
  );
  expect(notesTold(zone).join(" ")).toContain("superseded");
  expect(without({ rainRateMmPerH: 34, dN1: -250 }).methods).toContain("multipath-preceding");
});

test("without any figure of the place multipath is an estimate for early planning, and says so", () => {
  const of = (climate: Hop["climate"]) => evaluateHop(longHop({ climate }), GROUND);
  const assumed = of({ rainRateMmPerH: 34 });
  expect(assumed.availability!.planningOnly).toBe(true);
  expect(assumed.missing).toEqual([]);
  expect(assumed.inputs).toContainEqual(
    expect.objectContaining({ code: "dn1", dN1: -300, origin: "default", standing: "assumed" }),
  );
  expect(notesTold(assumed).join(" ")).toContain("the quick method stands in");
  // It is the quick method with that gradient, no more and no less.
  const stated = of({ rainRateMmPerH: 34, dN1: -300 });
  expect(stated.availability!.multipathPercent).toBe(assumed.availability!.multipathPercent);
  expect(stated.availability!.planningOnly).toBeUndefined();
  // One that is asked for by name and lacks its inputs does not fall back.
  expect(of({ rainRateMmPerH: 34, multipathMethod: "current" }).availability).toBeUndefined();
});

test("up to 5 km there is no multipath", () => {
  const near = { ...TARN, position: { latitudeDeg: 47.52, longitudeDeg: -30.48 } };
  const hop = makeHop({ ends: [end(KELD, "high"), end(near, "low")], climate: { rainRateMmPerH: 34 } });
  const result = evaluateHop(hop, levelGround(2700));
  expect(result.availability!.multipathPercent).toBe(0);
  expect(notesTold(result)).toContain("Up to 5 km multipath is not reckoned with.");
});

test("a factor beyond 1000 % is refused, not printed", () => {
  const result = evaluateHop(longHop({ climate: { ...CLIMATE, dN75: 300 } }), levelGround(LONG_M, 0));
  expect(lacksTold(result)).toContain("Multipath outage:");
  expect(result.availability).toBeUndefined();
});

test("without margin the mode is not available at all", () => {
  const result = evaluateHop(longHop({}, 80), GROUND);
  expect(result.availability).toMatchObject({ availabilityPercent: 0, dominant: "none" });
  expect(direction(result, "KELD").modes[0]).toMatchObject({ availabilityPercent: 0 });
});
