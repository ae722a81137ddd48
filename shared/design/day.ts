/** Days of the calendar as the text that a design states: year-month-day. */

/** @returns whether there is such a day, of the years 0001 to 9999, as ISO 8601 writes it (`2028-02-29`) */
export function isDay(text: string): boolean {
  const [, year, month, day] = (/^(\d{4})-(\d{2})-(\d{2})$/.exec(text) ?? []).map(Number);
  return !!year && !!month && !!day && month <= 12 && day <= daysIn(year, month);
}

/** The day after one of the calendar; 9999-12-31 has none and stays. */
export function dayAfter(text: string): string {
  const [year, month, day] = text.split("-").map(Number) as [number, number, number];
  if (day < daysIn(year, month)) return written(year, month, day + 1);
  if (month < 12) return written(year, month + 1, 1);
  return year < 9999 ? written(year + 1, 1, 1) : text;
}

/** From one day to another, below zero where that comes before; both as ISO dates that there are. */
export function daysBetween(from: string, to: string): number {
  return dayNumber(to) - dayNumber(from);
}

/** Of the Gregorian calendar, counted from a day of its own; the year begins in March, so that a leap day ends it. */
function dayNumber(text: string): number {
  const [year, month, day] = text.split("-").map(Number) as [number, number, number];
  const y = month > 2 ? year : year - 1;
  const leapDays = Math.floor(y / 4) - Math.floor(y / 100) + Math.floor(y / 400);
  return 365 * y + leapDays + Math.floor((153 * ((month + 9) % 12) + 2) / 5) + day;
}

function daysIn(year: number, month: number): number {
  const isLeap = year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
  if (month === 2) return isLeap ? 29 : 28;
  return [4, 6, 9, 11].includes(month) ? 30 : 31;
}

function written(year: number, month: number, day: number): string {
  const two = (value: number) => String(value).padStart(2, "0");
  return `${String(year).padStart(4, "0")}-${two(month)}-${two(day)}`;
}
