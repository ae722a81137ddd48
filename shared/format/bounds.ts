/** Shares of time that a method only bounds, in signs for tables and in words for sentences. */
import { availability, outage, yearly } from "./numbers.js";

export type Bound = "at most" | "at least";

interface Share {
  readonly timePercent: number;
  readonly bound?: Bound;
}

/** No prediction of propagation knows more nines: here the law of rain ends (Rec. ITU-R P.530-18 section 2.4.1). */
const MOST_AVAILABLE_PERCENT = 99.999;

/** Less of a year than this, 3 s, is written as less than it: further digits mean nothing. */
const LEAST_OUTAGE_PERCENT = 0.00001;

/** `99.995 %`, `≥ 99.999 %` */
export function availabilityBounded(percent: number, bound?: Bound): string {
  return percent > MOST_AVAILABLE_PERCENT
    ? `≥ ${availability(MOST_AVAILABLE_PERCENT)}`
    : `${boundSign(bound)}${availability(percent)}`;
}

/** What an availability leaves: `26 min a year`, `at most 5.3 min a year`. */
export function yearlyOut(availabilityPercent: number, bound?: Bound): string {
  return availabilityPercent > MOST_AVAILABLE_PERCENT
    ? `at most ${yearly(100 - MOST_AVAILABLE_PERCENT)}`
    : yearlyBounded({ timePercent: 100 - availabilityPercent, bound: opposite(bound) });
}

/** `0.0034 %`, `≤ 0.001 %`, `< 0.00001 %` */
export function outageBounded({ timePercent, bound }: Share): string {
  return timePercent > 0 && timePercent < LEAST_OUTAGE_PERCENT
    ? `< ${outage(LEAST_OUTAGE_PERCENT)}`
    : `${boundSign(bound)}${outage(timePercent)}`;
}

/** `26 min a year`, `at most 5.3 min a year`, `less than 3 s a year` */
export function yearlyBounded({ timePercent, bound }: Share): string {
  if (timePercent > 0 && timePercent < LEAST_OUTAGE_PERCENT) return "less than 3 s a year";
  return bound === undefined ? yearly(timePercent) : `${bound} ${yearly(timePercent)}`;
}

/** What bounds an outage from above bounds the availability from below. */
export function opposite(bound: Bound | undefined): Bound | undefined {
  return bound === undefined ? undefined : bound === "at most" ? "at least" : "at most";
}

export function boundSign(bound: Bound | undefined): string {
  return bound === undefined ? "" : bound === "at most" ? "≤ " : "≥ ";
}
