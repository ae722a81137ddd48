import { expect, test } from "vitest";
import { availabilityBounded, outageBounded, yearlyBounded, yearlyOut } from "../../shared/format/bounds.js";

test("no availability is printed with more nines than the law of rain knows", () => {
  expect(availabilityBounded(100)).toBe("≥ 99.999 %");
  expect(availabilityBounded(99.9999997)).toBe("≥ 99.999 %");
  expect(availabilityBounded(99.999, "at least")).toBe("≥ 99.999 %");
  expect(availabilityBounded(99.9981)).toBe("99.9981 %");
  expect(availabilityBounded(98.7, "at most")).toBe("≤ 98.7 %");
});

test("what is out is bounded the other way round, in words", () => {
  expect(yearlyOut(100)).toBe("at most 5.3 min a year");
  expect(yearlyOut(99.999, "at least")).toBe("at most 5.3 min a year");
  expect(yearlyOut(99, "at most")).toBe("at least 88 h a year");
  expect(yearlyOut(99.995)).toBe("26 min a year");
});

test("shares of time keep their bound and no meaningless digits", () => {
  expect(outageBounded({ timePercent: 0.001, bound: "at most" })).toBe("≤ 0.001 %");
  expect(outageBounded({ timePercent: 0.00000015 })).toBe("< 0.00001 %");
  expect(outageBounded({ timePercent: 0 })).toBe("0 %");
  expect(yearlyBounded({ timePercent: 0.00000015 })).toBe("less than 3 s a year");
  expect(yearlyBounded({ timePercent: 0.001, bound: "at most" })).toBe("at most 5.3 min a year");
});
