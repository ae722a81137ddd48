import { expect, test } from "vitest";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { farFieldDistanceM, keepOut } from "../../shared/report/exposure.js";
import { levelGround, makeHop, QAM128, QPSK } from "../evaluate/builders.js";
import vectors from "../vectors/report/keep-out.json" with { type: "json" };

test.each(vectors.rows)("$eirpW W against $limitWm2 W/m2: $farFieldOnlyDistanceM m", (row) => {
  const found = farFieldDistanceM(10 * Math.log10(row.eirpW) + 30, row.limitWm2);
  expect(Math.abs(found - row.farFieldOnlyDistanceM)).toBeLessThanOrEqual(0.00006);
});

test("1 W with 40 dBi against 10 W/m2 is 8.92 m", () => {
  expect(farFieldDistanceM(70, 10).toFixed(2)).toBe("8.92");
});

test("counts the strongest mode and every carrier that is on the air", () => {
  const hop = makeHop({ modes: [QPSK, QAM128], arrangement: { name: "2+0 xpic" } });
  const lengthM = evaluateHop(hop, levelGround(9000)).distanceM!;
  const [there] = evaluateHop(hop, levelGround(lengthM)).directions;
  // 24 dBm of QPSK and 38.5 dBi, twice: the gain point stands at 18.7 GHz, near enough for one value.
  expect(keepOut(hop, there!)!.eirpDbm).toBeCloseTo(24 + 38.5 + 10 * Math.log10(2), 6);
  expect(keepOut(hop, { ...there!, greatestEirpDbm: 1e6 })).toBeUndefined();
});
