/** One mistake made very often is told a hundred times and counted. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { DesignModel } from "../../language/model/design-model.js";
import { readSource } from "../../language/model/source-file.js";
import { judgeFolder } from "../../server/findings/judged-folder.js";
import type { PlacedFinding } from "../../server/findings/placed.js";
import { MOST_ALIKE, withoutRepeats } from "../../server/findings/repeated.js";
import { countsOf } from "../../server/findings/summary.js";

const finding = (message: string, at: number): PlacedFinding => ({
  rule: "unknown-name",
  key: `unknown-name ${at}`,
  severity: "error",
  message,
  related: [],
});

test("up to a hundred nothing is left out, and of more the rest is counted, in the order of all", () => {
  const many = (count: number) =>
    Array.from({ length: count }, (_, i) => finding("there is no radio R19", i));
  expect(withoutRepeats(many(MOST_ALIKE))).toEqual(many(MOST_ALIKE));
  const other = finding("there is no radio R20", -1);
  const told = withoutRepeats([...many(5000), other]);
  expect(told).toHaveLength(MOST_ALIKE + 1);
  expect(told[MOST_ALIKE - 1]).toMatchObject({
    message: `there is no radio R19; ${5000 - MOST_ALIKE} more like it`,
    alike: 5000 - MOST_ALIKE,
  });
  expect(told.at(-1)).toEqual(other);
});

const folder = mkdtempSync(join(tmpdir(), "hopwright-alike-"));
afterAll(() => rmSync(folder, { recursive: true }));

test("the counts are those of all", async () => {
  const sites = Array.from(
    { length: 2000 },
    (_, i) => `site S${i} {\n  at 47.5 -30.5\n  structre mast 30 m\n}\n`,
  );
  writeFileSync(join(folder, "a.hop"), `network "A" {\n}\n${sites.join("")}`);
  const [design] = (await judgeFolder(folder, { today: "2026-11-01" })).designs;
  expect(countsOf(design!).errors).toBe(2000);
  expect(design!.findings.filter(({ rule }) => rule === "unknown-word")).toHaveLength(MOST_ALIKE);
});

test("a chain of thousands that inherit is followed so far and told", () => {
  const model = new DesignModel("/design");
  const entries = Array.from(
    { length: 5000 },
    (_, i) => `antenna A${i}${i > 0 ? ` like A${i - 1}` : ""} {\n${i === 0 ? "  diameter 0.6 m\n" : ""}}\n`,
  );
  model.setFile(readSource("/design/a.hop", entries.join("")));
  const told = model.problemsOf("/design/a.hop").filter(({ rule }) => rule === "inheritance-deep");
  expect(told).toHaveLength(5000 - 33);
  expect(model.lookup.antenna("A32")?.diameterM).toBe(0.6);
  expect(model.lookup.antenna("A33")?.diameterM).toBeUndefined();
});
