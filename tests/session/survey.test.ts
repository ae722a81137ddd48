/** A survey that a hop names is used, or said to be unusable where it is named. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { DesignModel } from "../../language/model/design-model.js";
import { readSource } from "../../language/model/source-file.js";
import { DesignSession } from "../../server/session/design-session.js";
import { inverse } from "../../shared/geodesy/geodesic.js";

const folder = mkdtempSync(join(tmpdir(), "hopwright-survey-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const LENGTH_M = inverse({
  from: { latitudeDeg: 47.5, longitudeDeg: -30.5 },
  to: { latitudeDeg: 47.55, longitudeDeg: -30.4 },
}).distanceM;
const SITES = "site KELD {\n  at 47.5 -30.5\n}\nsite TARN {\n  at 47.55 -30.4\n}\n";

/** What is found of the ground of a hop whose survey is the file of this name. */
async function found(name: string, csv?: string, more = "by map") {
  if (csv !== undefined) writeFileSync(join(folder, name), csv);
  const model = new DesignModel(folder);
  const hop = `hop KELD-TARN {\n  survey "${name}" from KELD ${more}\n  KELD { }\n  TARN { }\n}\n`;
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

test("so is a folder, a file of any size, and text of another encoding", async () => {
  const unusable = (name: string, why: string) => [
    `error survey-unusable ${AT}: the survey ${name} cannot be used: ${why}`,
  ];
  mkdirSync(join(folder, "rows"));
  expect((await found("rows")).told).toEqual(
    unusable("rows", "it is a folder; name the survey of this path"),
  );
  const large = `distance_m,height_m\n${" ".repeat(16 * 2 ** 20)}\n`;
  expect((await found("large.csv", large)).told).toEqual(
    unusable(
      "large.csv",
      "17 MB are more than the 16 MB that such a file may have; name the survey of this path",
    ),
  );
  writeFileSync(join(folder, "wide.csv"), Buffer.from("\uFEFFdistance_m,height_m\n0,1\n", "utf16le"));
  expect((await found("wide.csv")).told).toEqual(
    unusable("wide.csv", "it is no text in UTF-8; save it as CSV in UTF-8"),
  );
});

test("so is one that holds no heights, or words for numbers", async () => {
  expect((await found("words.csv", "distance_m,height_m\n0,high\n")).told).toEqual([
    `error survey-unusable ${AT}: the survey words.csv cannot be used: line 2: "high" is no number in plain decimals; correct that line`,
  ]);
  expect((await found("bare.csv", "0,200\n9000,210\n")).told[0]).toContain("has no distance column; begin");
});

test("one of another length is told with both lengths, too long as well as too short", async () => {
  expect((await found("long.csv", upTo(14_000), "by field")).told).toEqual([
    expect.stringMatching(
      /^warning survey-length .*ends at 14000 m, 49\.\d % longer than the path of 93\d\d m/,
    ),
  ]);
  const short = await found("short.csv", upTo(6000), "by field");
  expect(short.told).toEqual([
    expect.stringMatching(
      /^warning survey-length .*ends at 6000 m, 35\.\d % shorter than the path of 93\d\d m/,
    ),
  ]);
  expect(short.result.profile!.gaps).toHaveLength(1);
});

test("one that ends within 25 m of the far end is stretched, and told by how much", async () => {
  const off = async (byM: number) => (await found("off.csv", upTo(LENGTH_M + byM), "by field")).told;
  expect(await off(-24)).toEqual([
    expect.stringMatching(
      /^info survey-length .*the path at 93\d\d\.\d m: its distances are stretched by 24.0 m/,
    ),
  ]);
  expect(await off(24)).toEqual([
    expect.stringMatching(/^info survey-length .*are shortened by 24.0 m at the far/),
  ]);
  expect(await off(0.9)).toEqual([]);
  expect(await off(-26)).toEqual([
    expect.stringMatching(
      /^warning survey-length .* 0.3 % shorter .* kept as surveyed, and the last 26 m are not known/,
    ),
  ]);
  expect(await off(26)).toEqual([
    expect.stringMatching(/^warning survey-length .* longer .* what lies beyond the path is left out/),
  ]);
});

test("one that begins behind the site is told with the site, and leaves the ground before open", async () => {
  const { told, result } = await found("late.csv", `distance_m,height_m\n3,200\n4000,210\n${LENGTH_M},205\n`);
  expect(told[0]).toMatch(/^warning survey-length .*begins 3 m from KELD: the ground before is not known/);
  expect(result.unknownGround).toBe("part");
});

test("heights of no land, numbers that are no plain decimals and rows of a field survey without a height are refused with the row", async () => {
  const row = async (text: string, more = "by field") =>
    (await found("row.csv", `distance_m,height_m\n0,200\n${text}\n${LENGTH_M},210\n`, more)).told;
  const refused = (why: string) => [`error survey-unusable ${AT}: the survey row.csv cannot be used: ${why}`];
  const plain = (text: string) =>
    refused(`line 3: "${text}" is no number in plain decimals; correct that line`);
  expect(await row("4000,0x10")).toEqual(plain("0x10"));
  expect(await row("1e3,200")).toEqual(plain("1e3"));
  expect(await row("4000,1e999")).toEqual(plain("1e999"));
  expect(await row("4000,-501")).toEqual(
    refused("line 3 has ground at -501 m; land lies between -500 and 9000 m; correct the survey"),
  );
  expect(await row("4000,9001")).toEqual(
    refused("line 3 has ground at 9001 m; land lies between -500 and 9000 m; correct the survey"),
  );
  expect(await row("4000,-500")).toEqual([]);
  expect(await row("4000,", "by field")).toEqual(
    refused("line 3 has no height; a survey in the field has one in every row; correct the survey"),
  );
});

test("a row without a height in a survey from a map is a void", async () => {
  const { told, result } = await found(
    "void.csv",
    `distance_m,height_m\n0,200\n1000,200\n2000,200\n3000,210\n4000,\n5000,200\n6000,200\n7000,200\n8000,200\n9000,200\n${LENGTH_M},210\n`,
  );
  expect(told).toEqual([
    `warning terrain-gap ${AT}: no heights from 3.00 km to 5.00 km (no row of the survey): whether the path is clear there is not known`,
  ]);
  expect(result.unknownGround).toBe("part");
});

test("a survey that does not state how it was made counts as from a map, which is said once for all", () => {
  const model = new DesignModel(folder);
  writeFileSync(join(folder, "silent.csv"), upTo(LENGTH_M));
  const hops = ["A", "B", "C"].map(
    (name, i) =>
      `hop ${name} {\n  survey "silent.csv"${i === 1 ? " by field" : ""}\n  KELD { }\n  TARN { }\n}\n`,
  );
  model.setFile(readSource(`${folder}/a.hop`, SITES + hops.join("")));
  const session = new DesignSession(model, { today: "2026-01-01" });
  return session.update().then(() => {
    session.updateNetwork();
    const told = session.networkFindings().filter(({ rule }) => rule === "survey-source");
    expect(told).toMatchObject([
      {
        severity: "info",
        at: "hop A / survey",
        message: expect.stringContaining("and counts as made from a map; on A and C"),
      },
    ]);
    expect(session.result("B")!.result.survey).toMatchObject({ source: "field", sourceStated: true });
    expect(session.result("C")!.result.survey).toMatchObject({ source: "map", sourceStated: false });
  });
});

test("one as long as the path is used in silence, and named from the design's folder", async () => {
  const { told, result } = await found("fits.csv", upTo(LENGTH_M), "by field");
  expect(told).toEqual([]);
  expect(result.profile!.sources.map(({ file }) => file)).toEqual(["fits.csv"]);
});
