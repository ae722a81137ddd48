/** `channels --open` as its user runs it: what it prints, what it writes, and that it is the same each time. */
import { cpSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { Ajv } from "ajv";
import { expect, test } from "vitest";
import schema from "../../server/cli/schema/open-channels.schema.json" with { type: "json" };
import { run, SAMPLES, scratch } from "./built.js";

const TODAY = ["--today", "2026-06-01"];

/** Eskerfold without the numbers of its channels, its polarizations and some halves. */
function openDesign(name: string, edit = (text: string) => text): string {
  const folder = scratch(name);
  cpSync(SAMPLES, folder, { recursive: true });
  const design = join(folder, "eskerfold");
  for (const file of readdirSync(join(design, "hops"))) {
    const path = join(design, "hops", file);
    const text = readFileSync(path, "utf8")
      .replaceAll(/^( *channel .* MHz) \/ \d+$/gm, "$1")
      .replaceAll(/^ *polarization \w+\n/gm, "");
    writeFileSync(path, edit(text));
  }
  return design;
}

const texts = (design: string) =>
  readdirSync(join(design, "hops")).map((file) => readFileSync(join(design, "hops", file), "utf8"));

test("it proposes for all, says how good that is, and writes nothing unasked", () => {
  const design = openDesign("asked");
  const before = texts(design);
  const { stdout, stderr, status } = run(["channels", "--open", design, ...TODAY]);
  expect(status).toBe(0);
  expect(stdout).toMatch(/^Eskerfold: proposed for \d+ of \d+ hops that lack number, polarization or half\n/);
  expect(stdout).toMatch(
    /CRAWFELL-SIFTLAW +F\.497-12750-13250 \/ 56 MHz \/ \d+ +\(?(vertical|horizontal)\)? +\(SIFTLAW high, CRAWFELL low\) +\d+\.\d dB/,
  );
  expect(stdout).toMatch(/\nNo receiver passes what the network allows/);
  expect(stdout).toMatch(/\nNo choice that keeps all receivers within takes less than [\d.]+ MHz/);
  expect(stderr).toBe("nothing is written yet: say --write\n");
  expect(texts(design)).toEqual(before);
  expect(run(["channels", "--open", design, ...TODAY]).stdout).toBe(stdout);
});

test("JSON is as its schema says", () => {
  const design = openDesign("json");
  const { stdout } = run(["channels", "--open", design, "--format", "json", ...TODAY]);
  const output = JSON.parse(stdout);
  const validate = new Ajv({ strict: false }).compile(schema);
  expect([validate(output), validate.errors]).toEqual([true, null]);
  expect(output.designs[0]).toMatchObject({ title: "Eskerfold", notProposed: [], receiversBeyond: [] });
  expect(output.designs[0].bound.receiversBeyond).toBe(0);
});

test("written, nothing is open any more, and nothing else is changed", () => {
  const design = openDesign("written", (text) => text.replace(/^ *transmits (high|low)\n/m, ""));
  const before = texts(design).join("");
  const { stderr, status } = run(["channels", "--open", "--write", design, ...TODAY]);
  expect([status, stderr]).toEqual([0, "written: 2 files; next: hopwright check\n"]);
  const kept = (text: string) =>
    text
      .replaceAll(/^ *(polarization|transmits) \w+\n/gm, "")
      .replaceAll(/^( *channel .* MHz) \/ \d+$/gm, "$1");
  expect(kept(texts(design).join(""))).toBe(kept(before));
  expect(run(["format", "--check", design]).status).toBe(0);
  const after = run(["channels", "--open", design, ...TODAY]);
  expect(after.stdout).toBe("Eskerfold: no hop lacks number, polarization or half\n");
});

test("what stands against it ends with status 1, wrong use with 2", () => {
  const design = openDesign("left", (text) => text.replace(/^ *channel .*\n/m, ""));
  const { stdout, status } = run(["channels", "--open", design, ...TODAY]);
  expect(status).toBe(1);
  expect(stdout).toMatch(
    /\nNot proposed\n {2}\S+: no plan and width are stated; write channel PLAN \/ WIDTH/,
  );
  for (const [args, told] of [
    [["channels"], "name the hop, or say --open"],
    [["channels", "A-B", "--write"], "--write goes with --open"],
    [["channels", "--open", "A", "B"], "takes the folder alone"],
  ] as const) {
    const wrong = run(args);
    expect(wrong.status).toBe(2);
    expect(wrong.stderr).toContain(told);
  }
});
