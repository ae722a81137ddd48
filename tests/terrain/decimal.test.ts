import fc from "fast-check";
import { expect, test } from "vitest";
import { decimal, plainDecimal } from "../../shared/units/decimal.js";

test("what is read as a decimal is what was written, and nothing else is read", () => {
  fc.assert(
    fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => {
      expect(decimal(String(value))).toBe(value === 0 ? 0 : value);
    }),
  );
  fc.assert(
    fc.property(fc.string(), (text) => {
      if (plainDecimal(text) !== undefined) expect(text).toMatch(/^[+\-−]?[\d.]+$/);
      if (decimal(text) !== undefined) expect(text).toMatch(/^[+-]?[\d.]+([eE][+-]?\d+)?$/);
    }),
  );
});

test("an exponent is one of grids and maps only, and no number is without an end", () => {
  expect(decimal("-3.4e+38")).toBe(-3.4e38);
  expect(plainDecimal("3e1")).toBeUndefined();
  for (const text of ["0x10", "1e999", "Infinity", "NaN", "", " 1", "1,5"]) {
    expect(decimal(text), text).toBeUndefined();
    expect(plainDecimal(text), text).toBeUndefined();
  }
  expect(plainDecimal("9".repeat(400))).toBeUndefined();
});
