/** Days: the calendar of the machine, which the core may not ask, says the same of each. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { isDay } from "../../shared/design/day.js";

test("each day that the calendar has is one, and no other text of its shape", () => {
  const two = (value: number) => String(value).padStart(2, "0");
  const parts = fc.tuple(fc.integer({ min: 1, max: 9999 }), fc.nat(13), fc.nat(32));
  fc.assert(
    fc.property(parts, ([year, month, day]) => {
      const text = `${String(year).padStart(4, "0")}-${two(month)}-${two(day)}`;
      const date = new Date(`${text}T00:00:00Z`);
      expect(isDay(text)).toBe(!Number.isNaN(date.getTime()) && date.toISOString().startsWith(text));
    }),
    { numRuns: 5000 },
  );
});

test.each([
  "1900-02-29",
  "2100-02-29",
  "0000-01-01",
  "",
  "2027-3-01",
  "2027-03-01 ",
  "+002027-03-01",
  "today",
])("%j is none", (text) => expect(isDay(text)).toBe(false));

test.each(["2000-02-29", "2028-02-29", "9999-12-31"])("%s is one", (text) => expect(isDay(text)).toBe(true));
