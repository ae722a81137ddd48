import { describe, expect, test } from "vitest";
import { erfc, erfcComplex } from "../../shared/math/erfc.js";
import { testRows } from "../support/vectors.js";

/** Values of Python 3.11's math.erfc (C library). */
const VALUES: readonly (readonly [x: number, erfc: number])[] = [
  [0, 1.0],
  [0.01, 0.9887165844441503],
  [0.1, 0.8875370839817152],
  [0.5, 0.4795001221869535],
  [1, 0.15729920705028513],
  [1.5, 0.033894853524689274],
  [1.9, 0.0072095707647425325],
  [1.99, 0.004888586800383003],
  [2, 0.004677734981047265],
  [2.01, 0.004475150644751763],
  [2.5, 0.0004069520174449589],
  [3, 2.2090496998585438e-5],
  [4, 1.541725790028002e-8],
  [5, 1.5374597944280351e-12],
  [7, 4.183825607779414e-23],
  [10, 2.088487583762545e-45],
  [20, 5.3958656116079005e-176],
  [26, 5.663192408856143e-296],
  [-0.3, 1.3286267594591274],
  [-2.5, 1.999593047982555],
];

describe("complementary error function", () => {
  testRows("real arguments", "Python 3 math.erfc (C library)", VALUES, ([x, expected], is) => {
    is.close("erfc", erfc(x), expected, { relative: 1e-12 });
  });

  test("symmetric, and refused outside its sector", () => {
    expect(erfc(-0.7) + erfc(0.7)).toBeCloseTo(2, 14);
    expect(() => erfcComplex(1, 2)).toThrow(RangeError);
    expect(() => erfc(Number.NaN)).toThrow(RangeError);
  });

  test("the two methods meet where one takes over from the other", () => {
    for (const angle of [0, -Math.PI / 8, -Math.PI / 4]) {
      const [re, im] = [Math.cos(angle), Math.sin(angle)];
      const inner = erfcComplex(1.9999999999 * re, 1.9999999999 * im);
      const outer = erfcComplex(2.0000000001 * re, 2.0000000001 * im);
      expect(Math.abs(inner.re - outer.re)).toBeLessThan(1e-9);
      expect(Math.abs(inner.im - outer.im)).toBeLessThan(1e-9);
    }
  });
});
