/** Bias and spread over the network: worked by hand, and a wrong entry of the catalogue shows. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { calibrationOf } from "../../shared/as-built/calibration.js";
import type { Measurement } from "../../shared/design/as-built.js";
import { calibrationPage, calibrationWords } from "../../shared/report/pages/calibration-page.js";
import { measuredHop, measuredStandby } from "../../shared/rules/as-built/example-reading.js";
import { evaluated } from "./support.js";

const plain = evaluated(measuredHop());
const [towardsTarn, towardsKeld] = plain.result.directions.map(({ receivedLevelDbm }) => receivedLevelDbm);

/** The example hop under a name and with a radio of its own, with readings so far from what is promised. */
function hopWith(name: string, radio: string, ...offDb: readonly number[]) {
  const measured = offDb.map(
    (off, at): Measurement => ({
      levelDbm: (at === 0 ? towardsTarn! : towardsKeld!) + off,
      site: at === 0 ? "TARN" : "KELD",
      on: "2026-05-02",
    }),
  );
  const hop = { ...plain.hop, name, radio: { ...plain.hop.radio!, name: radio }, measured };
  // Readings are remembered by result.
  return { hop, result: { ...plain.result, hop: name } };
}

test("nothing measured is no calibration", () => {
  expect(calibrationOf([plain])).toBeUndefined();
});

test("mean and standard deviation are those worked by hand", () => {
  // -1, 0, 1, 2: mean 0.5, squares 2.25 + 0.25 + 0.25 + 2.25 = 5, spread sqrt(5/3) = 1.2910.
  const { groups } = calibrationOf([hopWith("A", "R", -1, 0), hopWith("B", "R", 1, 2)])!;
  expect(groups.map(({ by, name, count }) => [by, name, count])).toEqual([
    ["all", "", 4],
    ["band", "18 GHz", 4],
    ["radio", "R", 4],
    ["branch", "main", 4],
  ]);
  expect(groups[0]!.meanDb).toBeCloseTo(0.5, 9);
  expect(groups[0]!.spreadDb).toBeCloseTo(1.291, 4);
  expect(groups[0]!.stands).toBe("few");
});

test("one reading has no spread, and few are told as few", () => {
  const calibration = calibrationOf([hopWith("A", "R", -1)])!;
  expect(calibration.groups[0]).toEqual({
    by: "all",
    name: "",
    count: 1,
    meanDb: expect.closeTo(-1, 9),
    stands: "few",
  });
  expect(calibrationWords(calibration)).toBe("1 reading, which are few, bias -1.0 dB");
});

test("all hops of one radio 4 dB low show in its row, and the other radio stays as promised", () => {
  const wrong = ["A", "B", "C"].map((name, i) => hopWith(name, "R-WRONG", -4 + i * 0.2, -4.1));
  const right = ["D", "E", "F"].map((name, i) => hopWith(name, "R-RIGHT", 0.3 - i * 0.2, -0.2));
  const { groups } = calibrationOf([...wrong, ...right])!;
  const of = (name: string) => groups.find((one) => one.name === name)!;
  expect(of("R-WRONG").stands).toBe("off");
  expect(of("R-WRONG").meanDb).toBeCloseTo(-3.95, 9);
  expect(of("R-RIGHT").stands).toBe("as promised");
});

test("branches stand apart", () => {
  const { hop, result } = evaluated(
    measuredStandby("-44.6 dBm at TARN on 2026-05-02", "-50.1 dBm at TARN branch standby on 2026-05-02"),
  );
  const { groups } = calibrationOf([{ hop, result }])!;
  expect(groups.flatMap(({ by, name }) => (by === "branch" ? [name] : []))).toEqual(["main", "standby"]);
});

test("faults of a hop say nothing of the catalogue, and are counted", () => {
  const { groups, leftOut } = calibrationOf([hopWith("A", "R", -20, -20), hopWith("B", "R", -0.5, -0.4)])!;
  expect(groups[0]!.count).toBe(2);
  expect(leftOut).toEqual({ faults: 2, unusable: 0 });
});

describe("whatever was measured", () => {
  test("all figures are finite, spreads are none below nought, each group counts its readings", () => {
    const off = fc.array(fc.double({ min: -30, max: 30, noNaN: true }), { maxLength: 2 });
    fc.assert(
      fc.property(fc.array(off, { maxLength: 12 }), (all) => {
        const calibration = calibrationOf(all.map((one, i) => hopWith(`H${i}`, i % 2 ? "R1" : "R2", ...one)));
        const count = all.reduce((sum, one) => sum + one.length, 0);
        expect(calibration === undefined).toBe(count === 0);
        if (calibration === undefined) return;
        const { groups, readings, leftOut } = calibration;
        expect(readings.length + leftOut.faults + leftOut.unusable).toBe(count);
        for (const { meanDb, spreadDb, count: own } of groups) {
          expect(Number.isFinite(meanDb)).toBe(true);
          expect(spreadDb === undefined).toBe(own === 1);
          if (spreadDb !== undefined) expect(spreadDb).toBeGreaterThanOrEqual(0);
        }
        for (const by of ["band", "radio", "branch"] as const)
          expect(groups.filter((one) => one.by === by).reduce((sum, one) => sum + one.count, 0)).toBe(
            readings.length,
          );
        const page = calibrationPage({
          name: "calibration",
          calibration,
          pageOfHop: () => undefined,
          colophon: "",
        });
        expect(JSON.stringify(page)).not.toMatch(/NaN|Infinity|undefined/);
      }),
    );
  });
});
