/**
 * Shares of time that a method only bounds, or that are estimated beyond its range, in signs for tables and in words
 * for sentences.
 */
import { apart, availability, outage, yearly } from "./numbers.js";

type Bound = "at most" | "at least";

export interface Share {
  readonly timePercent: number;
  readonly bound?: Bound;
  /** Set: an estimate, and what the method itself says of it. */
  readonly atMostPercent?: number;
}

export interface Available {
  readonly availabilityPercent: number;
  readonly bound?: Bound;
  /** Set: an estimate, and what the method itself says of it. */
  readonly atLeastPercent?: number;
}

/** Less of a year than this, 3 s, is written as less than it: further digits mean nothing. */
const LEAST_OUTAGE_PERCENT = 0.00001;

/** What `est.` beside a figure means; it stands wherever such a figure does. */
export const ESTIMATE_REMARK =
  "est.: rain takes less than 0.001 % of the year, outside the range of Rec. ITU-R P.530-18 section 2.4.1; its law is continued there. Behind it what the Recommendation itself says.";

/**
 * `99.995 %`, `≥ 99.999 %`, `99.99937 % (est., ≥ 99.9989 %)`
 * @param asked what it stands beside: it never reads the same when it is another, however little
 */
export function availabilityBounded(found: Available, asked?: number): string {
  const { availabilityPercent, bound, atLeastPercent } = found;
  const figure =
    100 - availabilityPercent < LEAST_OUTAGE_PERCENT
      ? `> ${availability(100 - LEAST_OUTAGE_PERCENT)}`
      : `${boundSign(bound)}${against(availability, availabilityPercent, asked)}`;
  return estimated(figure, atLeastPercent && `≥ ${availability(atLeastPercent)}`);
}

/** What an availability leaves: `26 min a year`, `at most 5.3 min a year`. @param asked as above, an availability */
export function yearlyOut({ availabilityPercent, bound, atLeastPercent }: Available, asked?: number): string {
  const timePercent = 100 - availabilityPercent;
  const share = {
    // An availability of all the time is one of nearly all of it.
    timePercent: timePercent > 0 ? timePercent : LEAST_OUTAGE_PERCENT / 2,
    bound: opposite(bound),
    atMostPercent: atLeastPercent === undefined ? undefined : 100 - atLeastPercent,
  };
  return yearlyBounded(share, asked === undefined ? undefined : 100 - asked);
}

/**
 * `0.0034 %`, `≤ 0.001 %`, `< 0.00001 %`, `0.00034 % (est., ≤ 0.001 %)`
 * @param allowed what it stands beside: it never reads the same when it is another, however little
 */
export function outageBounded({ timePercent, bound, atMostPercent }: Share, allowed?: number): string {
  const figure = isTiny(timePercent)
    ? `< ${outage(LEAST_OUTAGE_PERCENT)}`
    : `${boundSign(bound)}${against(outage, timePercent, allowed)}`;
  return estimated(figure, atMostPercent && `≤ ${outage(atMostPercent)}`);
}

/** `26 min a year`, `at most 5.3 min a year`, `less than 3 s a year`, `1.8 min a year (est., at most 5.3 min a year)` */
export function yearlyBounded({ timePercent, bound, atMostPercent }: Share, allowed?: number): string {
  const text = against(yearly, timePercent, allowed);
  const figure = isTiny(timePercent)
    ? "less than 3 s a year"
    : bound === undefined
      ? text
      : `${bound} ${text}`;
  return estimated(figure, atMostPercent && `at most ${yearly(atMostPercent)}`);
}

function against(
  write: (value: number, moreDigits?: number) => string,
  value: number,
  other: number | undefined,
): string {
  return other === undefined ? write(value) : apart(write, value, other)[0];
}

function isTiny(timePercent: number): boolean {
  return timePercent > 0 && timePercent < LEAST_OUTAGE_PERCENT;
}

function estimated(figure: string, bound: string | 0 | undefined): string {
  return bound ? `${figure} (est., ${bound})` : figure;
}

/** What bounds an outage from above bounds the availability from below. */
function opposite(bound: Bound | undefined): Bound | undefined {
  return bound === undefined ? undefined : bound === "at most" ? "at least" : "at most";
}

function boundSign(bound: Bound | undefined): string {
  return bound === undefined ? "" : bound === "at most" ? "≤ " : "≥ ";
}
