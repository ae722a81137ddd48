import { expect, test } from "vitest";
import { availabilityBounded, outageBounded, yearlyBounded, yearlyOut } from "../../shared/format/bounds.js";

test("an availability keeps its bound, and an estimate the bound of the Recommendation beside it", () => {
  const written = (availabilityPercent: number, more: object = {}) =>
    availabilityBounded({ availabilityPercent, ...more });
  expect(written(99.999, { bound: "at least" })).toBe("≥ 99.999 %");
  expect(written(99.9981)).toBe("99.9981 %");
  expect(written(98.7, { bound: "at most" })).toBe("≤ 98.7 %");
  expect(written(99.99937, { atLeastPercent: 99.9989 })).toBe("99.99937 % (est., ≥ 99.9989 %)");
});

test("no availability is printed with more nines than an objective can ask", () => {
  expect(availabilityBounded({ availabilityPercent: 99.99998 })).toBe("99.99998 %");
  expect(availabilityBounded({ availabilityPercent: 100 })).toBe("> 99.99999 %");
  expect(availabilityBounded({ availabilityPercent: 99.9999997 })).toBe("> 99.99999 %");
  expect(availabilityBounded({ availabilityPercent: 100, atLeastPercent: 99.999 })).toBe(
    "> 99.99999 % (est., ≥ 99.999 %)",
  );
});

test("what is out is bounded the other way round, in words", () => {
  const out = (availabilityPercent: number, more: object = {}) => yearlyOut({ availabilityPercent, ...more });
  expect(out(100)).toBe("less than 3 s a year");
  expect(out(99.999, { bound: "at least" })).toBe("at most 5.3 min a year");
  expect(out(99, { bound: "at most" })).toBe("at least 88 h a year");
  expect(out(99.995)).toBe("26 min a year");
  expect(out(99.9995, { atLeastPercent: 99.999 })).toBe("2.6 min a year (est., at most 5.3 min a year)");
});

test("shares of time keep their bound and no meaningless digits", () => {
  expect(outageBounded({ timePercent: 0.001, bound: "at most" })).toBe("≤ 0.001 %");
  expect(outageBounded({ timePercent: 0.00034, atMostPercent: 0.001 })).toBe("0.00034 % (est., ≤ 0.001 %)");
  expect(outageBounded({ timePercent: 0, atMostPercent: 0.001 })).toBe("0 % (est., ≤ 0.001 %)");
  expect(outageBounded({ timePercent: 0.00000015 })).toBe("< 0.00001 %");
  expect(outageBounded({ timePercent: 0 })).toBe("0 %");
  expect(yearlyBounded({ timePercent: 0.00000015 })).toBe("less than 3 s a year");
  expect(yearlyBounded({ timePercent: 0.001, bound: "at most" })).toBe("at most 5.3 min a year");
});
