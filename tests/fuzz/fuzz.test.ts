/**
 * A short run of each fuzzer from a fixed seed. A failure prints its seed; `npm run fuzz -- --replay NAME:SEED` runs it
 * again and makes it small. The long run is `npm run fuzz`.
 */
import { afterAll, expect, test } from "vitest";
import { runCase, smallestCase } from "./fuzzer.js";
import { FUZZERS } from "./fuzzers.js";

const SEED = 20_260_601;
const CASES: Readonly<Record<string, number>> = { designs: 60, edits: 40, commits: 6, terrain: 80 };

afterAll(() => {
  for (const fuzzer of FUZZERS.values()) fuzzer.end?.();
});

test("every fuzzer but the canary has a short run", () => {
  expect([...FUZZERS.keys()].toSorted()).toEqual([...Object.keys(CASES), "canary"].toSorted());
});

test.each(Object.keys(CASES))("%s", async (name) => {
  const fuzzer = FUZZERS.get(name)!;
  let counted = 0;
  for (let index = 0; index < CASES[name]!; index++) {
    const outcome = await runCase(fuzzer, SEED + index);
    expect(outcome.wrong, `--replay ${name}:${outcome.seed}`).toEqual([]);
    counted += outcome.counts;
  }
  expect(counted).toBeGreaterThanOrEqual(CASES[name]!);
});

test("the canary fails, and is made as small as it can be", async () => {
  const canary = FUZZERS.get("canary")!;
  const outcome = await runCase(canary, SEED);
  expect(outcome.wrong).toEqual(["the bird is there"]);
  const { smallest } = await smallestCase(canary, outcome);
  expect(smallest).toMatch(/^\d+$/);
  // The same seed is the same case.
  expect((await smallestCase(canary, await runCase(canary, SEED))).smallest).toBe(smallest);
});
