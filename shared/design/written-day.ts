/** Days as people write them, in figures: which day, or which two, somebody may have meant. */
import { isDay } from "./day.js";

export const YEAR_FIRST = /^(\d{4})([-./])(\d{1,2})\2(\d{1,2})$/;
export const YEAR_LAST = /^(\d{1,2})([-./])(\d{1,2})\2(\d{4})$/;

/**
 * @returns days of the calendar as ISO dates; several where day and month may stand in either order
 * @example daysMeant("1.3.2027") // ["2027-03-01"]
 * @example daysMeant("01/03/2027") // ["2027-03-01", "2027-01-03"]
 */
export function daysMeant(text: string): readonly string[] {
  const first = YEAR_FIRST.exec(text);
  if (first) return [iso(first[1]!, first[3]!, first[4]!)].filter(isDay);
  const last = YEAR_LAST.exec(text);
  if (!last) return [];
  const [, one, sign, other, year] = last as unknown as [string, string, string, string, string];
  // Between points the day comes first; between strokes and dashes either does.
  const days = sign === "." ? [iso(year, other, one)] : [iso(year, other, one), iso(year, one, other)];
  return [...new Set(days)].filter(isDay);
}

function iso(year: string, month: string, day: string): string {
  return `${year}-${month.padStart(2, "0")}-${day.padStart(2, "0")}`;
}
