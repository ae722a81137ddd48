/** The bench as a judge: what it calls slower, and what it records. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, beforeAll, expect, test } from "vitest";
import { type BenchFigure, judged, judgedTable, readRecorded, record, yardstick } from "./judge.js";

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "hopwright-bench-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const ms = (name: string, value: number, bound?: number): BenchFigure => ({
  name,
  value,
  unit: "ms",
  ...(bound !== undefined && { bound }),
});

test("a fifth more than was recorded is slower, less is not", () => {
  const recorded = { yardstickMs: 100, figures: { check: 1000, small: 1 } };
  const slower = (value: number) => judged([ms("check", value)], 100, recorded)[0]!.isSlower;
  expect([slower(900), slower(1190), slower(1210)]).toEqual([false, false, true]);
  // Nobody feels a millisecond, and what was never recorded is no slower.
  expect(judged([ms("small", 2), ms("new", 9e9)], 100, recorded).some(({ isSlower }) => isSlower)).toBe(
    false,
  );
});

test("a slower machine is no slower product: all times longer alike change nothing", () => {
  fc.assert(
    fc.property(
      fc.array(fc.double({ min: 5, max: 1e5, noNaN: true }), { minLength: 1, maxLength: 6 }),
      fc.double({ min: 0.2, max: 5, noNaN: true }),
      (values, times) => {
        const recorded = {
          yardstickMs: 80,
          figures: Object.fromEntries(values.map((value, index) => [`f${index}`, value])),
        };
        const now = values.map((value, index) => ms(`f${index}`, value * times));
        for (const { change, isSlower } of judged(now, 80 * times, recorded)) {
          expect(change).toBeCloseTo(1, 9);
          expect(isSlower).toBe(false);
        }
      },
    ),
  );
});

test("memory is compared as it is", () => {
  const recorded = { yardstickMs: 100, figures: { "check memory": 1000 } };
  const [one] = judged([{ name: "check memory", value: 1300, unit: "MB" }], 300, recorded);
  expect(one).toMatchObject({ change: 1.3, isSlower: true });
});

test("what is recorded is read back, and parts that did not run stay as the machine of now would have them", () => {
  const path = join(folder, "recorded.json");
  expect(readRecorded(path)).toBeUndefined();
  record(path, [ms("a", 100), ms("b", 50), { name: "c memory", value: 900, unit: "MB" }], 10);
  record(path, [ms("b", 80)], 20);
  expect(readRecorded(path)).toEqual({ yardstickMs: 20, figures: { a: 200, b: 80, "c memory": 900 } });
});

test("a missed bound is told beside the figure", () => {
  const table = judgedTable(judged([ms("check", 6000, 5000), ms("edit", 4.25, 10)], 100, undefined));
  expect(table).toContain("| check | 6000 ms | 5000 ms, missed | 60.000 | not recorded |");
  expect(table).toContain("| edit | 4.3 ms | 10.0 ms | 0.043 | not recorded |");
});

test("the fixed piece of work takes some time, and is work", () => {
  expect(yardstick()).toBeGreaterThan(1);
});
