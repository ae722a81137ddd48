/** Names, titles and paths with characters that steer a terminal: no command prints one raw, in any format. */
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import { files } from "../compare/network.js";
import { TestRepository, TODAY } from "../compare/repository.js";
import { run, scratch } from "./built.js";

const LONG = 120_000;
const ODD = "\u009b31m\u202e\u0085\u2028<b>\u2066 &copy; ::error::";
const FOLDER = "n\u001b[31m\u009b\u202e<b>";
const TERMINALS = /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u2028\u2029\u202a-\u202e\u2066-\u2069]/u;

let repository: TestRepository;

beforeAll(() => {
  repository = TestRepository.create();
  for (const [path, text] of Object.entries(files()))
    repository.write({
      [`${FOLDER}/${path}`]: text
        .replaceAll(/^(site|hop) ([\w-]+) \{/gm, (_, kind, name) => `${kind} ${name} "${ODD}" {`)
        .replace('"Change"', `"Change ${ODD}"`),
    });
  repository.write({ [`${FOLDER}/x\u001b\u009b.hop`]: `site ${ODD} {\n}\n${ODD}\n` });
  writeFileSync(join(repository.root, FOLDER, "bad\u009b.hop"), Buffer.from([0xff]));
  repository.commit(`title ${ODD}`);
  repository.git("branch", "b\u202e");
  repository.edit(`${FOLDER}/hops/south.hop`, "DISH60-18", "DISH120-18");
});

const ASKED: readonly (readonly string[])[] = [
  ...["text", "json", "sarif", "junit", "github"].map((format) => ["check", FOLDER, "--format", format]),
  ...["text", "svg", "csv"].map((format) => ["profile", "KELD-TARN", FOLDER, "--format", format]),
  ...["text", "json"].map((format) => ["explain", "--hop", "KELD-TARN", FOLDER, "--format", format]),
  ...["markdown", "html", "json"].flatMap((format) => [
    ["diff", "HEAD", "--dir", FOLDER, "--format", format],
    ["diff", "b\u202e", "--dir", FOLDER, "--format", format],
  ]),
  ...["text", "json"].map((format) => ["history", "KELD-TARN", FOLDER, "--format", format]),
  ["format", "--check", FOLDER],
  [`che${ODD}`],
  ["check", `--x${ODD}`],
  ["check", "--format", ODD],
  ["check", ODD],
  ["explain", ODD],
  ["history", ODD, FOLDER],
];

describe("no steering character in what is printed by", () => {
  test.each(ASKED.map((args) => [JSON.stringify(args.join(" ")), args] as const))(
    "%s",
    (_name, args) => {
      const { stdout, stderr } = run(args, { cwd: repository.root });
      for (const text of [stdout, stderr]) {
        const found = TERMINALS.exec(text);
        expect(found && text.slice(Math.max(0, found.index - 60), found.index + 20)).toBeNull();
        expect(text).not.toMatch(/fault of hopwright/);
      }
      expect(stdout + stderr).not.toBe("");
    },
    LONG,
  );

  test(
    "the pages of a report",
    () => {
      const out = scratch("report-of-odd");
      run(["report", FOLDER, "--out", out, "--today", TODAY], { cwd: repository.root });
      const pages = readdirSync(out, { recursive: true, encoding: "utf8" }).filter((name) =>
        /\.(html|md|svg)$/.test(name),
      );
      expect(pages.length).toBeGreaterThan(3);
      for (const page of pages) {
        const text = readFileSync(join(out, page), "utf8");
        expect(TERMINALS.exec(text), page).toBeNull();
        if (page.endsWith(".html")) expect(text).toContain("Content-Security-Policy");
      }
    },
    LONG,
  );
});

test("JSON reads back as the names are", () => {
  const { stdout } = run(["check", FOLDER, "--format", "json"], { cwd: repository.root });
  expect(JSON.parse(stdout).root).toContain(FOLDER);
});

test(
  "history tells what it could not read",
  () => {
    const told = (format: string) =>
      run(["history", "KELD-TARN", FOLDER, "--format", format, "--today", TODAY], { cwd: repository.root });
    const { stderr } = told("text");
    expect(stderr).toMatch(/^warning: .*bad·\.hop in the work tree: this is not UTF-8 text/m);
    expect(stderr).toMatch(
      /^warning: the work tree has text that cannot be read in .*; it is judged as far as it goes/m,
    );
    const { notes } = JSON.parse(told("json").stdout) as { notes: string[] };
    expect(notes.length).toBeGreaterThan(1);
    expect(new Set(notes).size).toBe(notes.length);
  },
  LONG,
);

test("a record of pages that is no record's size is refused", () => {
  const out = scratch("large-record");
  mkdirSync(dirname(join(out, "x")), { recursive: true });
  writeFileSync(join(out, ".hopwright-report"), Buffer.alloc(65 * 2 ** 20, 10));
  const { status, stderr } = run(["report", FOLDER, "--out", out], { cwd: repository.root });
  expect(status).toBe(2);
  expect(stderr).toMatch(/^error: .*\.hopwright-report: cannot be read: 65 MB are more than the 64 MB/m);
  rmSync(out, { recursive: true });
});
