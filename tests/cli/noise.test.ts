/** No figure that a command prints ends in the rounding of a double; see tests/language/noise.test.ts. */
import { cpSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { TestRepository, TODAY } from "../compare/repository.js";
import { noiseIn } from "../support/noise.js";
import { reworded, SAMPLE_TEXTS } from "../support/reworded.js";
import { run, SAMPLES, scratch } from "./built.js";

const repository = TestRepository.create();
afterAll(() => repository.remove());

/** The samples with figures of their own, on the ground as it is. */
function write(seed: number): void {
  repository.write(
    Object.fromEntries([...SAMPLE_TEXTS].map(([path, text]) => [path, reworded(text, seed + path.length)])),
  );
  repository.commit(`figures of ${seed}`);
}

test("in any output of any command", () => {
  cpSync(join(SAMPLES, "terrain"), join(repository.root, "terrain"), { recursive: true });
  write(1);
  write(1000);
  const commands = [
    ...["text", "json", "sarif", "junit", "github"].map((format) => ["check", ".", "--format", format]),
    ["check", ".", "--format", "json", "--resolved"],
    ...["text", "csv", "svg"].map((format) => ["profile", "ALDER-HAZEL", "learning", "--format", format]),
    ["explain", "--hop", "ALDER-HAZEL", "learning"],
    ["explain", "--hop", "HIGHFOLD-OSTREL", "eskerfold"],
    ["explain", "F.383"],
    ...["markdown", "html", "json"].map((format) => ["diff", "HEAD~1", "HEAD", "--format", format]),
    ...["text", "json"].map((format) => ["history", "ALDER-HAZEL", "learning", "--format", format]),
  ];
  for (const [command, ...rest] of commands) {
    const today = rest[0]?.startsWith("F.") ? [] : ["--today", TODAY];
    const { status, stdout, stderr } = run([command!, ...rest, ...today], { cwd: repository.root });
    expect(status, `${command} ${rest.join(" ")}: ${stderr}`).toBeLessThan(2);
    expect(stdout.length, `${command} ${rest.join(" ")}`).toBeGreaterThan(200);
    expect(noiseIn(stdout), `${command} ${rest.join(" ")}`).toEqual([]);
  }
  const out = scratch("report");
  expect(run(["report", ".", "--out", out, "--today", TODAY], { cwd: repository.root }).status).toBeLessThan(
    2,
  );
  const pages = readdirSync(out, { recursive: true, encoding: "utf8" }).filter((path) => /\.\w+$/.test(path));
  expect(pages.length).toBeGreaterThan(50);
  for (const page of pages) expect(noiseIn(readFileSync(join(out, page), "utf8")), page).toEqual([]);
  expect(run(["format", "."], { cwd: repository.root }).status).toBe(0);
  for (const path of SAMPLE_TEXTS.keys()) expect(noiseIn(repository.read(path)), path).toEqual([]);
}, 300_000);
