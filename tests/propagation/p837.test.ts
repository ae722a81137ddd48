import { describe, expect, test } from "vitest";
import { isRainZone, rainRateExceeded, rainZoneRateMmPerH } from "../../shared/propagation/p837.js";
import {
  RAIN_ZONE_PERCENTAGES,
  RAIN_ZONE_RATES_MM_PER_H,
} from "../../shared/propagation/p837-rain-zones.data.js";
import { loadVectors, testRows } from "../support/vectors.js";

interface Case {
  monthlyRainMm: number[];
  monthlyTemperatureC: number[];
  monthlyRainRateR: number[];
  annualRainProbabilityPercent: number;
  rainRate: [number, number | null][];
}
const { annex1 } = loadVectors<{ annex1: { source: string; cases: Case[] } }>("propagation/p837.json");

function climateOf(row: Case) {
  return row.monthlyRainMm.map((rainMm, i) => ({ rainMm, meanTemperatureC: row.monthlyTemperatureC[i]! }));
}

describe("P.837 Annex 1", () => {
  testRows("rain rates at eight places", annex1.source, annex1.cases, (row, is) => {
    for (const [percent, rate] of row.rainRate) {
      const found = rainRateExceeded(percent, climateOf(row));
      is.close("P0", found.annualRainProbabilityPercent, row.annualRainProbabilityPercent, {
        relative: 1e-12,
      });
      for (const [i, r] of row.monthlyRainRateR.entries()) {
        is.close(`r of month ${i + 1}`, found.months[i]?.rainRateMmPerH, r, { relative: 1e-12 });
      }
      // The published bisection stops at 1e-5 relative in the probability.
      if (rate !== null) is.close(`R at ${percent} %`, found.rainRateMmPerH, rate, { relative: 1e-5 });
    }
  });

  const wet = climateOf(annex1.cases[0]!);

  test("rarer means harder; 0 beyond the share of the year in which it rains", () => {
    const rates = [0.001, 0.01, 0.1, 1].map((percent) => rainRateExceeded(percent, wet).rainRateMmPerH);
    expect([...rates].sort((a, b) => b - a)).toEqual(rates);
    expect(rainRateExceeded(10, wet).rainRateMmPerH).toBe(0);
  });

  test("a year without rain has rate 0, and a deluge is capped at 70 % of the month", () => {
    const dry = wet.map((month) => ({ ...month, rainMm: 0 }));
    expect(rainRateExceeded(0.01, dry)).toMatchObject({ rainRateMmPerH: 0, annualRainProbabilityPercent: 0 });
    const deluge = wet.map((month) => ({ ...month, rainMm: 6000 }));
    const found = rainRateExceeded(0.01, deluge);
    expect(found.annualRainProbabilityPercent).toBeCloseTo(70, 10);
    // Eq (2): r = (100/70) 6000 mm/(24 x 31 h) in January, 24 x 28.25 h in February, 24 x 30 h in April.
    expect(found.months[0]).toEqual({
      rainRateMmPerH: expect.closeTo(11.520737, 6),
      rainProbabilityPercent: 70,
    });
    expect(found.months[1]!.rainRateMmPerH).toBeCloseTo(12.642225, 6);
    expect(found.months[3]!.rainRateMmPerH).toBeCloseTo(11.904762, 6);
    // Half of the 70 % lies above the median of ln R, ln r - 0.7938: R at 35 % of the year is that of the mean month.
    const even = rainRateExceeded(35, deluge).rainRateMmPerH;
    expect(even).toBeGreaterThan(11.520737 * Math.exp(-0.7938));
    expect(even).toBeLessThan(12.642225 * Math.exp(-0.7938));
  });

  test("refuses what is no climate", () => {
    expect(() => rainRateExceeded(0.01, wet.slice(1))).toThrow(RangeError);
    expect(() => rainRateExceeded(0, wet)).toThrow(RangeError);
    expect(() =>
      rainRateExceeded(
        0.01,
        wet.map((m) => ({ ...m, rainMm: -1 })),
      ),
    ).toThrow(RangeError);
  });
});

describe("PN.837-1 rain zones (superseded)", () => {
  test("rates at the tabulated percentages only", () => {
    // Table 1: zones A, E, K, Q at 0.01 %; zone N at 0.001 %.
    expect(["A", "E", "K", "Q"].map((zone) => isRainZone(zone) && rainZoneRateMmPerH(zone, 0.01))).toEqual([
      8, 22, 42, 115,
    ]);
    expect(rainZoneRateMmPerH("N", 0.001)).toBe(180);
    expect(rainZoneRateMmPerH("K", 0.02)).toBeUndefined();
    expect(["I", "O", "a", "toString", ""].filter(isRainZone)).toEqual([]);
  });

  test("every zone has a rate at every percentage, rising as it gets rarer", () => {
    const zones = Object.values(RAIN_ZONE_RATES_MM_PER_H);
    expect(zones).toHaveLength(15);
    for (const rates of zones) {
      expect(rates).toHaveLength(RAIN_ZONE_PERCENTAGES.length);
      expect([...rates].sort((a, b) => a - b)).toEqual([...rates]);
    }
  });
});
