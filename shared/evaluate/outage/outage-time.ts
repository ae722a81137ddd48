import { SECONDS_A_YEAR } from "../../units/year.js";
import type { AtMost, Bound, OutageTime } from "../account/outage-result.js";

const SECONDS_A_MONTH = SECONDS_A_YEAR / 12;

export function outageTime(
  yearPercent: number,
  worstMonthPercent: number | undefined,
  bound?: Bound,
  atMost?: AtMost,
): OutageTime {
  const secondsPerYear = secondsAYear(yearPercent);
  return {
    yearPercent,
    bound,
    atMost,
    secondsPerYear,
    minutesPerYear: secondsPerYear / 60,
    worstMonthPercent,
    worstMonthSeconds:
      worstMonthPercent === undefined ? undefined : (worstMonthPercent / 100) * SECONDS_A_MONTH,
  };
}

export function secondsAYear(percent: number): number {
  return (percent / 100) * SECONDS_A_YEAR;
}
