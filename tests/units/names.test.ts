/** One unit a quantity: what a function of the core takes and gives is in metres and hertz, and its name says so. */
import { globSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";

const SHARED = new URL("../../shared/", import.meta.url);
/** A field or an argument by a unit of print; within a function, in its steps and in tables copied from print it may be. */
const PRINTED = /^(?: {2}readonly|export function .*[({,]) ?\w*(?:GHz|MHz|kHz)\??:/gm;

test("no field and no argument is in gigahertz, megahertz or kilohertz", () => {
  const files = globSync("**/*.ts", { cwd: SHARED }).filter((file) => !file.endsWith(".data.ts"));
  expect(files.length).toBeGreaterThan(200);
  const found = files.flatMap((file) =>
    [...readFileSync(new URL(file, SHARED), "utf8").matchAll(PRINTED)].map(([name]) => `${file}: ${name}`),
  );
  expect(found).toEqual([]);
  // The pattern finds what it is for.
  expect("  readonly frequencyGHz: number;".match(PRINTED)).toHaveLength(1);
  expect(
    "export function law(attenuationDb: number, frequencyGHz: number): Law {".match(PRINTED),
  ).toHaveLength(1);
});
