/** Days of the calendar as the text that a design states: year-month-day. */

/** @returns whether there is such a day, of the years 0001 to 9999, as ISO 8601 writes it (`2028-02-29`) */
export function isDay(text: string): boolean {
  const [, year, month, day] = (/^(\d{4})-(\d{2})-(\d{2})$/.exec(text) ?? []).map(Number);
  if (!year || !month || !day || month > 12) return false;
  const isLeap = year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
  const days = month === 2 ? (isLeap ? 29 : 28) : [4, 6, 9, 11].includes(month) ? 30 : 31;
  return day <= days;
}
