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
  const { k, alpha } = rainCoefficients({ frequencyGHz: f, polarizationTiltDeg: 90 });
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

test("where the law of rain ends, a bound is counted and told", () => {
  // At 18.93 GHz over 30 km the law gives 0.001 % at about twice the attenuation of 0.01 %, and no more than
  // 10^(C2^2/(4 C3)) C1 times it at any percentage (section 2.4.1).
  const dry = (rainRateMmPerH: number) =>
    evaluateHop(longHop({ climate: { ...CLIMATE, rainRateMmPerH } }), GROUND);
  const below = dry(8);
  expect(below.availability!).toMatchObject({ rainPercent: 0.001, bound: "at least" });
  expect(below.notes.join(" ")).toContain("the full 0.001 % are counted");
  expect(below.availability!.outage.bound).toBe("at most");
  expect(below.directions[0]!.modes[0]!.availabilityBound).toBe("at least");
  const beyond = dry(3);
  expect(beyond.availability!).toMatchObject({ rainPercent: 0.001, rainBound: "at most", bound: "at least" });
  expect(beyond.availability!.causes.at(-1)).toMatchObject({
    cause: "rain",
    bound: "at most",
    beyondLaw: true,
  });
  expect(beyond.notes.join(" ")).toContain("as if rain took nothing");
  // Rain bounded from above is never what dominates, though multipath takes less than the bound here.
  const calm = { ...CLIMATE, rainRateMmPerH: 3, logK: -7 };
  const both = evaluateHop(longHop({ climate: calm }), GROUND).availability!;
  expect(both.multipathPercent).toBeLessThan(0.001);
  expect(both.dominant).toBe("multipath");
  const desert = dry(0).availability!;
  expect([desert.rainPercent, desert.bound]).toEqual([0, undefined]);
  const tropical = dry(150);
  expect(tropical.availability!.rainPercent).toBeGreaterThan(0.1);
});

test("an objective beyond the law of rain is decided only as far as the law goes", () => {
  const verdict = (rainRateMmPerH: number, availabilityPercent: number) =>
    evaluateHop(
      longHop({
        climate: { ...CLIMATE, rainRateMmPerH, logK: -7 },
        objective: { ...TRUNK, availabilityPercent },
      }),
      GROUND,
    ).availability!;
  expect(verdict(8, 99.99).verdict).toBe("met");
  // 0.0005 % allowed: multipath keeps it, rain takes 0.001 % at most.
  expect(verdict(8, 99.9995)).toMatchObject({ verdict: "open", shortfallDb: undefined });
  expect(verdict(3, 99.9995).verdict).toBe("met"); // continued, the law never takes this margin
  expect(verdict(40, 99.9995).verdict).toBe("missed");
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

test("more loss never makes a hop more available", () => {
  const lossDb = fc.double({ min: 0, max: 60, noNaN: true });
  fc.assert(
    fc.property(lossDb, lossDb, (a, b) => {
      const at = (loss: number) => evaluateHop(longHop({}, loss), GROUND).availability!.availabilityPercent;
      expect(at(Math.max(a, b))).toBeLessThanOrEqual(at(Math.min(a, b)));
    }),
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
    expect.objectContaining({ name: "rain rate at 0.01 %", value: "42 mm/h" }),
  );
  expect(zone.notes.join(" ")).toContain("superseded");
  expect(without({ rainRateMmPerH: 34, dN1: -250 }).methods.map(({ source }) => source)).toContain(
    "Rec. ITU-R P.530-17 section 2.3.1",
  );
});

test("without any figure of the place multipath is an estimate for early planning, and says so", () => {
  const of = (climate: Hop["climate"]) => evaluateHop(longHop({ climate }), GROUND);
  const assumed = of({ rainRateMmPerH: 34 });
  expect(assumed.availability!.planningOnly).toBe(true);
  expect(assumed.missing).toEqual([]);
  expect(assumed.inputs).toContainEqual(
    expect.objectContaining({ name: "dN1", value: "-300 N/km", origin: "default" }),
  );
  expect(assumed.notes.join(" ")).toContain("the quick method stands in");
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
  expect(result.notes).toContain("Up to 5 km multipath is not reckoned with.");
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
