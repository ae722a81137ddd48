/** A survey that a hop names is used, or said to be unusable where it is named. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { DesignModel } from "../../language/model/design-model.js";
import { readSource } from "../../language/model/source-file.js";
import { DesignSession } from "../../server/session/design-session.js";

const folder = mkdtempSync(join(tmpdir(), "hopwright-survey-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** 9.34 km by the geodesic. */
const SITES = "site KELD {\n  at 47.5 -30.5\n}\nsite TARN {\n  at 47.55 -30.4\n}\n";

/** What is found of the ground of a hop whose survey is the file of this name. */
async function found(name: string, csv?: string) {
  if (csv !== undefined) writeFileSync(join(folder, name), csv);
  const model = new DesignModel(folder);
  const hop = `hop KELD-TARN {\n  survey "${name}" from KELD\n  KELD { }\n  TARN { }\n}\n`;
  model.setFile(readSource(`${folder}/a.hop`, SITES + hop));
  const session = new DesignSession(model, { today: "2026-01-01" });
  await session.update();
  const { result, findings } = session.result("KELD-TARN")!;
  expect(JSON.stringify(result)).not.toContain(folder);
  const told = findings
    .filter(({ rule }) => /^(survey|no-terrain|terrain-gap)/.test(rule))
    .map(({ rule, severity, at, message }) => `${severity} ${rule} ${at}: ${message}`);
  return { told, related: findings.find(({ rule }) => rule === "survey-unusable")?.related, result };
}

const AT = "hop KELD-TARN / survey";
const upTo = (metres: number) => `distance_m,height_m\n0,200\n4000,210\n${metres},205\n`;

test("one that is not there is an error at its statement, with cause and remedy", async () => {
  const { told, related } = await found("nope.csv");
  expect(told).toEqual([
    `error survey-unusable ${AT}: the survey nope.csv cannot be used: there is no such file or folder; correct the name`,
  ]);
  expect(related).toMatchObject([{ file: `${folder}/nope.csv` }]);
});

test("so is one that holds no heights, or words for numbers", async () => {
  expect((await found("words.csv", "distance_m,height_m\n0,high\n")).told).toEqual([
    `error survey-unusable ${AT}: the survey words.csv cannot be used: line 2: "high" is no number; correct that line`,
  ]);
  expect((await found("bare.csv", "0,200\n9000,210\n")).told[0]).toContain("has no distance column; begin");
});

test("one of another length is told with both lengths, too long as well as too short", async () => {
  expect((await found("long.csv", upTo(14_000))).told).toEqual([
    expect.stringMatching(
      /^warning survey-length .*ends at 14000 m, 49\.\d % longer than the path of 93\d\d m/,
    ),
  ]);
  const short = await found("short.csv", upTo(6000));
  expect(short.told).toEqual([
    expect.stringMatching(
      /^warning survey-length .*ends at 6000 m, 35\.\d % shorter than the path of 93\d\d m/,
    ),
  ]);
  expect(short.result.profile!.gaps).toHaveLength(1);
});

test("one as long as the path is used in silence, and named from the design's folder", async () => {
  const { told, result } = await found("fits.csv", upTo(9340));
  expect(told).toEqual([]);
  expect(result.profile!.sources.map(({ file }) => file)).toEqual(["fits.csv"]);
});
