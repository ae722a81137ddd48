import { rmSync } from "node:fs";
import { join } from "node:path";
import { Ajv } from "ajv";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { DiffOutput } from "../../server/cli/print/diff-output.js";
import type { HistoryOutput } from "../../server/cli/print/history-output.js";
import diffSchema from "../../server/cli/schema/diff.schema.json" with { type: "json" };
import historySchema from "../../server/cli/schema/history.schema.json" with { type: "json" };
import { files, hop, terrain } from "../compare/network.js";
import { TestRepository, TODAY } from "../compare/repository.js";
import { type Ran, run } from "./built.js";

const repository = TestRepository.create();

beforeAll(() => {
  repository.write(Object.fromEntries(Object.entries(files()).map(([path, text]) => [`net/${path}`, text])));
  repository.commit("base");
  repository.git("tag", "old");
  repository.edit("net/hops/south.hop", "DISH60-18", "DISH120-18");
  repository.commit("better");
  repository.git("tag", "better");
  repository.write(
    Object.fromEntries(Object.entries(terrain(45)).map(([path, text]) => [`net/${path}`, text])),
  );
  repository.write({ "net/hops/more.hop": hop("PEAK-TARN", "PEAK", "TARN", 12, { heightM: 45 }) });
  repository.commit("worse");
  repository.git("branch", "topic");
});

afterAll(() => repository.remove());

function diff(...args: string[]): Ran {
  return run(["diff", ...args, "--today", TODAY], { cwd: repository.root });
}

describe("exit status", () => {
  test("0 when nothing got worse, 1 when something did, 2 when a side cannot be read", () => {
    expect(diff("old", "better")).toMatchObject({ status: 0, stderr: "" });
    expect(diff("old", "old")).toMatchObject({ status: 0, stderr: "" });
    expect(diff("better", "HEAD")).toMatchObject({ status: 1, stderr: "" });
    expect(diff("better", "HEAD", "--fail-on", "never").status).toBe(0);
    // Back again: the antennas are smaller, and no finding is new.
    expect(diff("better", "old").status).toBe(1);
    expect(diff("better", "old", "--fail-on", "findings").status).toBe(0);
    for (const args of [
      ["mian"],
      ["old", "nowhere"],
      ["old", "HEAD", "net", "net"],
      ["old", "--dir", "nowhere"],
    ]) {
      const { status, stdout, stderr } = diff(...args);
      expect([status, stdout], args.join(" ")).toEqual([2, ""]);
      expect(stderr).toMatch(/^error: [^\n]+\n$/);
    }
  });
});

describe("sides", () => {
  test("REV, REV REV, A..B, A...B, with and without a folder", () => {
    const whole = diff("old", "HEAD").stdout.replace(/^From .*$/m, "");
    for (const args of [
      ["old", "HEAD", "net"],
      ["old..HEAD"],
      ["old.."],
      ["old", "net"],
      ["old...topic", "--dir", "net"],
    ]) {
      expect(diff(...args).stdout.replace(/^From .*$/m, ""), args.join(" ")).toBe(whole);
    }
  });

  test("a name of both a revision and a folder is asked about", () => {
    repository.git("branch", "net");
    expect(diff("old", "net").stderr).toMatch(
      /^error: net: a revision and a folder have this name; write --dir net/,
    );
    repository.git("branch", "-D", "net");
  });
});

describe("markdown", () => {
  test("tells the gravest first, decisions with consequences in one table, and nothing of what is the same", () => {
    const { stdout } = diff("old", "HEAD");
    expect(stdout).toMatch(
      /^# Changes of Change\n\nFrom old \(\w+\) to HEAD \(\w+\): 1 hop worse, 1 added, 1 edited, 1 changed without an edit; 1 new finding, 1 remark gone\.\n/,
    );
    expect(stdout).toContain(
      "| FELL: antenna | `antenna DISH60-18 at 40 m` | `antenna DISH120-18 at 40 m` |",
    );
    expect(stdout).toMatch(/\| Fade margin at \w+ \| [\d.]+ dB \| [\d.]+ dB \| \+11\.0 dB better \|/);
    expect(stdout).toMatch(/^## KELD-MOSS: margin -\S+ dB, .*1 new error$/m);
    expect(stdout).toContain(
      "Nobody edited it; it changed because of: terrain (highest ground 209.7 m → 243.7 m; mean ground 200.6 m → 202.8 m).",
    );
    expect(stdout.indexOf("## KELD-MOSS")).toBeLessThan(stdout.indexOf("## FELL-TARN"));
    expect(stdout).toContain("| order | 2 | antenna DISH120-18 | FELL +1, TARN +1 |");
    expect(stdout).not.toContain("KELD-TARN");
  });

  test("says so when there is no change", () => {
    expect(diff("HEAD").stdout).toContain("No decision, no figure and no finding differs.");
  });
});

test("html is one page with both profiles of the hops whose clearance changed", () => {
  const { stdout } = diff("old", "HEAD", "--format", "html");
  expect(stdout.match(/<!doctype html>/g)).toHaveLength(1);
  expect(stdout).not.toContain("<script");
  expect(stdout).not.toContain("/tmp/");
  const drawn = [...stdout.matchAll(/<figure[^>]*>.*?<\/figure>/gs)].map(([figure]) => figure);
  expect(drawn.length).toBe(1);
  expect(drawn[0]).toContain("Profile before and after the change");
  expect(drawn[0]!.match(/class="was"/g)!.length).toBeGreaterThanOrEqual(3);
});

test("json fits its schema, which can say no", () => {
  const validate = new Ajv({ strict: false }).compile(diffSchema);
  const { stdout } = diff("old", "HEAD", "--format", "json");
  const output = JSON.parse(stdout) as DiffOutput;
  expect(validate(output), JSON.stringify(validate.errors)).toBe(true);
  expect(validate({ ...output, worse: "yes" })).toBe(false);
  expect(output).toMatchObject({ schema: "hopwright-diff/2", worse: true, was: { name: "old" } });
  expect(output.is!.commit).toBe(repository.git("rev-parse", "HEAD"));
  const [design] = output.designs;
  expect(design!.folder).toBe("net");
  expect(design!.counts).toMatchObject({ added: 1, edited: 1, affected: 1, removed: 0 });
  const place = design!.hops.flatMap(({ findings }) => findings).find(({ rule }) => rule === "clearance")!
    .place!;
  expect(place.file).toBe("net/hops/north.hop");
  expect(diff("HEAD", "--format", "json").stdout).toContain('"worse": false');
});

test("history, as text and as JSON by its schema", () => {
  const history = (...more: string[]) =>
    run(["history", "FELL-TARN", "net", "--today", TODAY, ...more], { cwd: repository.root });
  const { status, stdout } = history();
  expect(status).toBe(0);
  const [heads, ...lines] = stdout.trimEnd().split("\n");
  expect(heads).toMatch(/^date {8}commit {5}errors {3,}clearance {4}margin {2}mode +availability {2}title$/);
  expect(lines[0]).toMatch(
    /^2026-01-01 {2}\w{7} {9}\d {2}\d\.\d\d F1 of 1 F1 {3}\d\d\.\d dB {2}\d+QAM +99\.\d+ % \(est\., ≥ 99\.\d+ %\) {2}better$/,
  );
  expect(lines.slice(1, 3)).toEqual([
    "    FELL: antenna DISH60-18 at 40 m -> DISH120-18 at 40 m",
    "    TARN: antenna DISH60-18 at 40 m -> DISH120-18 at 40 m",
  ]);
  expect(lines[3]).toMatch(/ \d\d\.\d+ % \(est\., ≥ \d\d\.\d+ %\) {2}base$/);
  // What `est.` means stands below, once.
  expect(lines.slice(4).join(" ")).toContain("est.: rain takes less than 0.001 % of the year");
  const validate = new Ajv({ strict: false }).compile(historySchema);
  const output = JSON.parse(history("--format", "json").stdout) as HistoryOutput;
  expect(validate(output), JSON.stringify(validate.errors)).toBe(true);
  const [now, before] = output.entries;
  for (const { availabilityAtLeastPercent, availabilityPercent } of [now!, before!])
    expect(availabilityAtLeastPercent).toBeLessThan(availabilityPercent!);
  expect(now!.fadeMarginDb! - before!.fadeMarginDb!).toBeCloseTo(11, 6);
  const wrong = run(["history", "TARN-FELL", "net"], { cwd: repository.root });
  expect(wrong).toEqual({
    status: 2,
    stdout: "",
    stderr: "error: TARN-FELL: no commit up to HEAD has a hop of this name; did you mean FELL-TARN?\n",
  });
});

test("history tells a commit that blocks the path, and one whose text is wrong, from those that are well", () => {
  const copy = TestRepository.create();
  copy.write(files());
  copy.commit("good");
  copy.edit("hops/south.hop", "at 40 m", "at 1 m");
  copy.commit("lowered");
  copy.edit("hops/south.hop", "at 1 m", "at 40 m");
  copy.edit("hops/south.hop", "DISH60-18", "NO-SUCH");
  copy.commit("misspelt");
  const history = (...more: string[]) =>
    run(["history", "FELL-TARN", "--today", TODAY, ...more], { cwd: copy.root }).stdout;
  const { entries } = JSON.parse(history("--format", "json")) as HistoryOutput;
  const lines = history().split("\n");
  copy.remove();
  expect(entries.map(({ title }) => title)).toEqual(["misspelt", "lowered", "good"]);
  const [misspelt, lowered, good] = entries;
  expect(good).toMatchObject({ errors: 0, clearance: { requiredFraction: 1, verdict: "met" } });
  expect(lowered).toMatchObject({ clearance: { verdict: "missed" } });
  expect(lowered!.errors).toBeGreaterThan(0);
  // The margin is that of the level in clear air and says nothing of it.
  expect(misspelt!.errors).toBeGreaterThan(0);
  const line = (title: string) => lines.find((one) => one.endsWith(`  ${title}`))!;
  for (const { title, errors, clearance } of entries) {
    const [, count, found] = /^\S+ +\w{7} +(\d+) +(-?[\d.]+ F1 of 1 F1|–) /.exec(line(title!))!;
    expect(count).toBe(String(errors));
    if (clearance) expect(found).toBe(`${clearance.fraction.toFixed(2)} F1 of 1 F1`);
  }
});

test("a folder that is gone from the work tree is compared as taken away", () => {
  const copy = TestRepository.create();
  copy.write(files());
  copy.commit("base");
  for (const path of ["network.hop", "sites.hop", "catalogue.hop", "hops"])
    rmSync(join(copy.root, path), { recursive: true });
  const { stdout, status } = run(["diff", "HEAD"], { cwd: copy.root });
  copy.remove();
  expect(status).toBe(0);
  expect(stdout).toContain("KELD-TARN: removed");
});
