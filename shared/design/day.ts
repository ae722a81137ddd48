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

/** 2026-07-02 is about 2026.5. */
export function decimalYear(text: string): number {
  const year = Number(text.slice(0, 4));
  const first = written(year, 1, 1);
  return year + daysBetween(first, text) / daysBetween(first, written(year + 1, 1, 1));
}

/** So many whole days later, 9999-12-31 at most. @param days not below zero */
export function daysLater(text: string, days: number): string {
  const LAST = "9999-12-31";
  const number = dayNumber(text) + Math.floor(days);
  if (!(number < dayNumber(LAST))) return LAST;
  // The year by its mean length, and one to either side where that is a day off.
  let y = Math.floor(number / 365.2425);
  while (dayNumber(written(y, 3, 1)) > number) y--;
  while (dayNumber(written(y + 1, 3, 1)) <= number) y++;
  const ofYear = number - dayNumber(written(y, 3, 1));
  const month = Math.floor((5 * ofYear + 2) / 153);
  const day = ofYear - Math.floor((153 * month + 2) / 5) + 1;
  return month < 10 ? written(y, month + 3, day) : written(y + 1, month - 9, day);
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
