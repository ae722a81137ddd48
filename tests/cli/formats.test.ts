/** Each format of each command prints what its readers take; one that is not there is refused with those that are. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { SaxesParser } from "saxes";
import { afterAll, beforeAll, expect, test } from "vitest";
import { FORMATS, type FormatCommand } from "../../server/cli/formats.js";
import { files, hop } from "../compare/network.js";
import { TestRepository, TODAY } from "../compare/repository.js";
import { run, scratch } from "./built.js";

const repository = TestRepository.create();

beforeAll(() => {
  repository.write(files());
  repository.commit("base");
  repository.write({ "hops/more.hop": hop("PEAK-TARN", "PEAK", "TARN", 12, { heightM: 45 }) });
  repository.commit("more");
});

afterAll(() => repository.remove());

/** What is asked of each command; the format comes behind it. */
const ASKED: Readonly<Record<FormatCommand, readonly string[]>> = {
  check: ["check"],
  list: ["list", "hops"],
  report: ["report", "--out"],
  sheets: ["sheets", "--out"],
  diff: ["diff", "HEAD~1", "HEAD", "--fail-on", "never"],
  history: ["history", "PEAK-TARN"],
  profile: ["profile", "PEAK-TARN"],
  explain: ["explain", "--hop", "PEAK-TARN"],
  channels: ["channels", "PEAK-TARN"],
  demands: ["demands"],
};

const LINE = /^[^\n]+\n$/m;
/** What a format of the name must be, whichever command prints it. A name without a row here fails. */
const VALID: Readonly<Record<string, (text: string) => void>> = {
  text: (text) => expect(text).toMatch(LINE),
  lines: (text) => expect(text).toMatch(/^([^\n]+ (accepted|error|warning|info) [a-z-]+: [^\n]+\n)+$/),
  json: (text) => expect(JSON.parse(text)).toMatchObject({ schema: expect.stringMatching(/^hopwright-/) }),
  sarif: (text) => expect(JSON.parse(text)).toMatchObject({ version: "2.1.0" }),
  junit: xml,
  github: (text) => expect(text).toMatch(/^(::(error|warning|notice) [^\n]+\n)+$/),
  csv: (text) => expect(new Set(text.trimEnd().split("\n").map(cells)).size).toBe(1),
  xlsx: (text) => expect(text.slice(0, 2)).toBe("PK"),
  geojson: (text) => expect(JSON.parse(text)).toMatchObject({ type: "FeatureCollection" }),
  kml: xml,
  svg: xml,
  html: (text) => expect(text).toMatch(/^<!doctype html>\n<html lang="en">[\s\S]*<\/html>\n$/),
  markdown: (text) => expect(text).toMatch(/^# /),
  pdf: (text) => expect(text).toMatch(/^%PDF-1\.7\n[\s\S]*%%EOF\s*$/),
};

function xml(text: string): void {
  const parser = new SaxesParser();
  parser.on("error", (error) => {
    throw error;
  });
  parser.write(text).close();
}

function cells(row: string): number {
  return row.replace(/"(?:[^"]|"")*"/g, "").split(",").length;
}

const rows = Object.entries(FORMATS).flatMap(([command, formats]) =>
  formats.map(({ name, what }) => ({ command: command as FormatCommand, name, what })),
);

test.each(rows)("$command prints $name", ({ command, name }) => {
  const out = scratch(`${command}-${name}`);
  const writes = command === "report" || command === "sheets";
  const option = command === "report" ? "--only" : "--format";
  const args = [...ASKED[command], ...(writes ? [out] : []), option, name];
  const { stdout, stderr, status } = run([...args, "--today", TODAY], { cwd: repository.root });
  expect([stderr.split("\n").filter((line) => line.startsWith("error")), status === 2]).toEqual([[], false]);
  const texts = writes
    ? readdirSync(out, { recursive: true, encoding: "utf8" })
        .filter((file) => file.endsWith(name === "markdown" ? ".md" : `.${name}`))
        .map((file) => readFileSync(join(out, file), name === "pdf" ? "latin1" : "utf8"))
    : [stdout];
  expect(texts.length).toBeGreaterThan(0);
  for (const text of texts) VALID[name]!(text);
});

test.each(Object.keys(FORMATS) as FormatCommand[])(
  "%s tells each format, and refuses others with the list",
  (command) => {
    const help = run([command, "--help"]).stdout;
    const names = FORMATS[command].map(({ name }) => name);
    for (const { name, what } of FORMATS[command])
      expect(help).toMatch(new RegExp(`^  ${name} +${escaped(what)}$`, "m"));
    const writes = command === "report" || command === "sheets";
    const option = command === "report" ? "--only" : "--format";
    const args = [...ASKED[command], ...(writes ? ["x"] : []), option];
    const { status, stdout, stderr } = run([...args, "docx"], { cwd: repository.root });
    expect([status, stdout]).toEqual([2, ""]);
    expect(stderr).toContain("docx: ");
    expect(stderr).toContain(names.join(", "));
  },
);

test("without a format the first is taken", () => {
  const plain = run(["profile", "PEAK-TARN"], { cwd: repository.root }).stdout;
  expect(plain).toBe(run(["profile", "PEAK-TARN", "--format", "text"], { cwd: repository.root }).stdout);
});

test("pages name no format that is not there", () => {
  const asked = /hopwright (check|list|diff|history|profile|explain)\b[^`\n]*?--format ([a-z]+)/g;
  const texts = ["README.md", "language/reference/ci.md", "language/reference/git.md"].map((path) =>
    readFileSync(join(import.meta.dirname, "../..", path), "utf8"),
  );
  const found = texts.flatMap((text) => [...text.matchAll(asked)]);
  expect(found.length).toBeGreaterThan(5);
  for (const [, command, name] of found)
    expect(FORMATS[command as FormatCommand].map((format) => format.name)).toContain(name);
});

function escaped(text: string): string {
  return text.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
}
