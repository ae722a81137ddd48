import { expect, test } from "vitest";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { farFieldDistanceM, keepOut } from "../../shared/report/exposure.js";
import { end, KELD, levelGround, makeHop, QAM128, QPSK, TARN } from "../evaluate/builders.js";
import vectors from "../vectors/report/keep-out.json" with { type: "json" };

test.each(vectors.rows)("$eirpW W against $limitWm2 W/m2: $farFieldOnlyDistanceM m", (row) => {
  const found = farFieldDistanceM(10 * Math.log10(row.eirpW) + 30, row.limitWm2);
  expect(Math.abs(found - row.farFieldOnlyDistanceM)).toBeLessThanOrEqual(0.00006);
});

// By hand: the far-field law R = sqrt(EIRP/(4 pi S)) with 10 kW.
test("1 W with 40 dBi against 10 W/m2 is 8.92 m", () => {
  expect(farFieldDistanceM(70, 10).toFixed(2)).toBe("8.92");
});

test("counts the strongest mode and every carrier that is on the air", () => {
  const hop = makeHop({ modes: [QPSK, QAM128], arrangement: { name: "2+0 xpic" } });
  const lengthM = evaluateHop(hop, levelGround(9000)).distanceM!;
  const result = evaluateHop(hop, levelGround(lengthM));
  // 24 dBm of QPSK and 38.5 dBi, twice: the gain point stands at 18.7 GHz, near enough for one value.
  expect(keepOut({ result, site: "KELD" })!.eirpDbm).toBeCloseTo(24 + 38.5 + 10 * Math.log10(2), 6);
  const beyond = result.carriers.map((carrier) => ({
    ...carrier,
    ends: [{ ...carrier.ends[0], licensedEirpDbm: 1e6 }, carrier.ends[1]] as const,
  }));
  expect(keepOut({ result: { ...result, carriers: beyond }, site: "KELD" })).toBeUndefined();
});

test("adds each carrier over the arm that it has at that end", () => {
  const coupler = { name: "H18-U", kind: "hybrid", mainLossDb: 1.6, standbyLossDb: 6.4 } as const;
  const ends = [end(KELD, "high", { coupler }), end(TARN, "low", { coupler })] as const;
  const hop = makeHop({ ends, arrangement: { name: "2+0 single-polarization" } });
  const result = evaluateHop(hop, levelGround(evaluateHop(hop, levelGround(9000)).distanceM!));
  // 20 dBm and 38.5 dBi, less 1.6 dB for one and 6.4 dB for the other: added as powers.
  const sumDbm = 10 * Math.log10(10 ** (56.9 / 10) + 10 ** (52.1 / 10));
  for (const site of ["KELD", "TARN"]) expect(keepOut({ result, site })!.eirpDbm).toBeCloseTo(sumDbm, 6);
});
