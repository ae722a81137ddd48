/**
 * Rain rate statistics. Rec. ITU-R P.837-7 (06/2017) Annex 1, and the superseded rain zones of PN.837-1 (1994).
 *
 * Edition P.837-8 (09/2025) exists and is not covered. Order of preference: local long-term statistics with
 * 1 min integration, the map of the Recommendation, Annex 1 from monthly data, the rain zone. A result should say
 * which was used.
 */

import { erfc } from "../math/erfc.js";
import type { MethodReference } from "./method.js";
import { RAIN_ZONE_PERCENTAGES, RAIN_ZONE_RATES_MM_PER_H } from "./p837-rain-zones.data.js";
import { requireFinite, requireNotNegative, requirePositive } from "./required.js";

export const METHOD: MethodReference = {
  recommendation: "ITU-R P.837-7",
  section: "Annex 1",
  title: "Rain rate from monthly rain and temperature",
  status: "verified",
  note: "Agrees with the ITU-R Study Group 3 examples within 1e-5. P.837-8 (09/2025) exists and is not covered.",
  usedByNoFigure: true,
  checked: {
    by: "40 ITU-R Study Group 3 values",
    vectors: ["p837"],
    tolerance: "1e-5",
  },
};

export const METHOD_RAIN_ZONES: MethodReference = {
  recommendation: "ITU-R PN.837-1",
  section: "Table 1",
  title: "Rain climatic zones (superseded)",
  status: "from memory",
  note: "Superseded by maps. Also equal to one public source file; a fallback when neither map nor local rain rate is given.",
  checked: {
    by: "one public source file",
    tolerance: "digits printed",
  },
};

/** One calendar month of the average year. */
export interface MonthlyClimate {
  readonly rainMm: number;
  readonly meanTemperatureC: number;
}

/** Rain rate and the steps of Annex 1. */
export interface RainRateResult {
  /** Rate exceeded for the asked percentage of the year, mm/h, 1 min integration; 0 when it rains less often. */
  readonly rainRateMmPerH: number;
  /** P0: percentage of the average year in which it rains. */
  readonly annualRainProbabilityPercent: number;
  /** r and P0 of each month. */
  readonly months: readonly { readonly rainRateMmPerH: number; readonly rainProbabilityPercent: number }[];
}

const DAYS = [31, 28.25, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
const DAYS_A_YEAR = 365.25;

/**
 * Rain rate exceeded for a percentage p of the average year, from monthly rain and temperature.
 *
 * For the months i = 1..12 with N_i days, rain MT_i (mm) and mean temperature t_i (degrees C):
 *
 *     r_i = 0.5874 exp(0.0883 t_i) for t_i >= 0, else 0.5874                             mm/h    (1)
 *     P0_i = 100 MT_i/(24 N_i r_i);  above 70: P0_i = 70, r_i = (100/70) MT_i/(24 N_i)      %    (2)
 *     P0 = sum N_i P0_i/365.25                                                              %    (3)
 *
 * R = 0 where p > P0; else the R for which
 *
 *     sum N_i P_i(R)/365.25 = p,   P_i(R) = P0_i Q[(ln R + 0.7938 - ln r_i)/1.26],   Q(x) = erfc(x/sqrt 2)/2
 *
 * @param percentOfYear p, > 0
 * @param climate January to December
 * @throws RangeError for a percentage that is not positive, other than 12 months, or negative rain
 * @see Rec. ITU-R P.837-7 Annex 1 eq (1) to (3); 40 ITU-R Study Group 3 values checked to 1e-5
 * @nofigure
 */
export function rainRateExceeded(percentOfYear: number, climate: readonly MonthlyClimate[]): RainRateResult {
  requirePositive("percentOfYear", percentOfYear);
  if (climate.length !== 12) throw new RangeError(`12 months are needed, not ${climate.length}`);
  const months = climate.map(rainMonth);
  const annual = yearly(months.map((month) => month.rainProbabilityPercent));
  const rainRateMmPerH = percentOfYear > annual ? 0 : solveRate(percentOfYear, months);
  return { rainRateMmPerH, annualRainProbabilityPercent: annual, months };
}

/** r and P0 of one month. */
function rainMonth({ rainMm: MT, meanTemperatureC: t }: MonthlyClimate, month: number) {
  requireNotNegative("rainMm", MT);
  requireFinite("meanTemperatureC", t);
  const hours = 24 * DAYS[month]!;
  const r = t >= 0 ? 0.5874 * Math.exp(0.0883 * t) : 0.5874; // eq (1)
  const P0 = (100 * MT) / (hours * r); // eq (2)
  return P0 > 70
    ? { rainRateMmPerH: ((100 / 70) * MT) / hours, rainProbabilityPercent: 70 }
    : { rainRateMmPerH: r, rainProbabilityPercent: P0 };
}

/** Mean over the year of monthly percentages, eq (3). */
function yearly(percent: readonly number[]): number {
  return percent.reduce((sum, p, month) => sum + DAYS[month]! * p, 0) / DAYS_A_YEAR;
}

/** Rate at which the yearly exceedance is `percentOfYear`: it falls with the rate, so halve an interval of ln R. */
function solveRate(percentOfYear: number, months: RainRateResult["months"]): number {
  const exceeded = (lnR: number) =>
    yearly(
      months.map(({ rainRateMmPerH, rainProbabilityPercent }) =>
        rainProbabilityPercent === 0
          ? 0
          : rainProbabilityPercent * normalTail((lnR + 0.7938 - Math.log(rainRateMmPerH)) / 1.26),
      ),
    );
  // exp(-30) to exp(12) mm/h holds any rate on Earth; 60 halvings leave a relative error below 1e-16.
  let low = -30;
  let high = 12;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (exceeded(middle) > percentOfYear) low = middle;
    else high = middle;
  }
  return Math.exp((low + high) / 2);
}

/** Q, the upper tail of the standard normal distribution. */
function normalTail(x: number): number {
  return erfc(x / Math.SQRT2) / 2;
}

/** A rain climatic zone of the superseded tables. */
export type RainZone = keyof typeof RAIN_ZONE_RATES_MM_PER_H;

/**
 * Rain rate of a rain climatic zone, mm/h, 1 min integration. SUPERSEDED method, a fallback only.
 * @param percentOfYear one of 1, 0.3, 0.1, 0.03, 0.01, 0.003, 0.001
 * @returns undefined for any other percentage: no rule is given to interpolate
 * @see Rec. ITU-R PN.837-1 (1994) Table 1, superseded; from memory, not checked against the Recommendation
 */
export function rainZoneRateMmPerH(zone: RainZone, percentOfYear: number): number | undefined {
  const column = RAIN_ZONE_PERCENTAGES.indexOf(percentOfYear);
  return column < 0 ? undefined : RAIN_ZONE_RATES_MM_PER_H[zone][column];
}

/** Whether a text names a rain zone (capital letters A to Q without I and O). */
export function isRainZone(text: string): text is RainZone {
  return Object.hasOwn(RAIN_ZONE_RATES_MM_PER_H, text);
}
