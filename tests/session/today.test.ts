/** Command line and editor hold a design against the same day: that of the place where the machine stands. */
import { afterEach, expect, test, vi } from "vitest";
import { today } from "../../server/today.js";

const zone = process.env.TZ;
afterEach(() => {
  vi.useRealTimers();
  if (zone === undefined) delete process.env.TZ;
  else process.env.TZ = zone;
});

test.each([
  ["Pacific/Kiritimati", "2027-03-01"],
  ["Pacific/Pago_Pago", "2027-02-27"],
])("in the morning of the last of February in Greenwich it is in %s %s", (place, day) => {
  vi.useFakeTimers();
  vi.setSystemTime(new Date("2027-02-28T10:59:00Z"));
  process.env.TZ = place;
  expect(today()).toBe(day);
});
