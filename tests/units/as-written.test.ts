/** What is written comes out as written, against exact arithmetic on integers of any length. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parseAngle } from "../../shared/geodesy/coordinates.js";
import { over, plus, times } from "../../shared/units/as-written.js";
import { findUnit } from "../../shared/units/units.js";

/** A figure of a text: an integer, and where its point lies. */
const written = fc.record({
  digits: fc.bigInt({ min: -9_999_999n, max: 9_999_999n }),
  decimals: fc.integer({ min: 0, max: 7 }),
});
type Written = { readonly digits: bigint; readonly decimals: number };

/** The double nearest to it; adding 0 turns -0 into 0. */
const numberOf = ({ digits, decimals }: Written) => Number(`${digits}e-${decimals}`) + 0;

describe("arithmetic on decimals", () => {
  test("a product and a sum are the doubles nearest to the exact ones", () => {
    fc.assert(
      fc.property(written, written, (a, b) => {
        const product = { digits: a.digits * b.digits, decimals: a.decimals + b.decimals };
        expect(times(numberOf(a), numberOf(b)) + 0).toBe(numberOf(product));
        const decimals = Math.max(a.decimals, b.decimals);
        const at = (one: Written) => one.digits * 10n ** BigInt(decimals - one.decimals);
        expect(plus(numberOf(a), numberOf(b)) + 0).toBe(numberOf({ digits: at(a) + at(b), decimals }));
        // The way back: of a product by one of its parts.
        const small = (one: Written) => ({ ...one, digits: one.digits % 10_000n });
        if (small(b).digits === 0n) return;
        const whole = { digits: a.digits * small(b).digits, decimals: a.decimals + b.decimals };
        expect(over(numberOf(whole), numberOf(small(b))) + 0).toBe(numberOf(a));
      }),
      { numRuns: 5000 },
    );
  });

  test("of more digits than a double holds they are the ordinary ones", () => {
    // 8 and 8 digits make 15 or 16, 9 and 9 make 17 or 18.
    expect(times(0.12345679, 0.12345679)).toBe(Number("0.0152415789971041"));
    expect(times(0.123456789, 0.987654321)).toBe(0.123456789 * 0.987654321);
    expect(plus(1e15, 0.3)).toBe(1e15 + 0.3);
    expect(times(1e-300, 1e300)).toBe(1);
    expect(over(0.3, 123.456789012345)).toBe(0.3 / 123.456789012345);
    for (const odd of [Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(times(odd, 0.3048)).toBe(odd * 0.3048);
      expect(over(odd, 3.6)).toBe(odd / 3.6);
      expect(plus(odd, 2.15)).toBe(odd + 2.15);
    }
  });
});

describe("a quantity in its base unit", () => {
  // Prefixes of the SI; foot and mile of 1959, 0.3048 m and 1609.344 m exactly.
  test.each([
    [55, "MHz", 55e6],
    [13.75, "MHz", 13_750_000],
    [29.65, "MHz", 29_650_000],
    [18.4321, "GHz", 18_432_100_000],
    [57, "cm", 0.57],
    [30, "cm", 0.3],
    [1.1, "mm", 0.0011],
    [30, "ft", 9.144],
    [32.81, "ft", 10.000488],
    [5.7, "km", 5700],
    [1.005, "mi", 1617.39072],
    [-29.9, "dBW", 0.1],
    [10.3, "dBd", 12.45],
    [20.1, "degC", 293.25],
    [0.7, "dB/100m", 0.007],
    [1013.25, "mbar", 1013.25],
    [101_325, "Pa", 1013.25],
    [90, "min", 1.5],
    [36, "km/h", 10],
    [0.29, "kW", 290],
  ])("%d %s", (value, symbol, base) => {
    expect(findUnit(symbol)!.unit.toBase(value)).toBe(base);
  });

  test("is the decimal itself for every unit that is a decimal part of another", () => {
    const EXPONENTS = { km: 3, cm: -2, mm: -3, kHz: 3, MHz: 6, GHz: 9, kPa: 1, Pa: -2, kW: 3, t: 3, kN: 3 };
    fc.assert(
      fc.property(written, ({ digits, decimals }) => {
        for (const [symbol, exponent] of Object.entries(EXPONENTS)) {
          const base = findUnit(symbol)!.unit.toBase(numberOf({ digits, decimals }));
          expect(base + 0, symbol).toBe(Number(`${digits}e${exponent - decimals}`) + 0);
        }
      }),
    );
  });
});

test("degrees, minutes and seconds that make a short decimal are read as it", () => {
  const degrees = (text: string) => {
    const read = parseAngle(text);
    return read.ok ? read.degrees : read.reason;
  };
  // 41/60 + 15/3600 = 0.6875
  expect(degrees(`47°41'15"N`)).toBe(47.6875);
  expect(degrees(`30°28'06"W`)).toBe(Number("-30.468333333333334"));
  expect(degrees("8°24.6'E")).toBe(8.41);
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 89 }), fc.integer({ min: 0, max: 9999 }), (whole, part) => {
      // Ten-thousandths of a degree in seconds: 0.36" each.
      const hundredths = part * 36;
      const minutes = Math.floor(hundredths / 6000);
      const seconds = ((hundredths % 6000) / 100).toFixed(2);
      expect(degrees(`${whole}°${minutes}'${seconds}"N`)).toBe(Number(`${whole * 10_000 + part}e-4`));
    }),
  );
});
