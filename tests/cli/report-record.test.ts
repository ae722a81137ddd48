/** A report takes away what an earlier one wrote, and nothing else, whatever its folder and its record hold. */
import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import {
  appendFileSync,
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { run } from "./built.js";

const HOP = (name: string) => `hop ${name} {\n  A { }\n  B { }\n}\n`;

let base: string;
let design: string;
let out: string;
beforeEach(() => {
  base = mkdtempSync(join(tmpdir(), "hopwright-report-"));
  design = join(base, "design");
  out = join(base, "out");
  mkdirSync(design);
  writeDesign("ONE", "TWO");
});
afterEach(() => rmSync(base, { recursive: true }));

function writeDesign(...hops: string[]): void {
  const sites = "site A {\n  at 47.55 -30.45\n}\nsite B {\n  at 47.6 -30.4\n}\n";
  writeFileSync(join(design, "a.hop"), `network "A" {\n}\n${sites}${hops.map(HOP).join("")}`);
}

const report = (...more: string[]) => run(["report", design, "--out", out, "--only", "html", ...more]);
const pages = () => readdirSync(out, { recursive: true, encoding: "utf8" }).sort();
const sha = (text: string) => createHash("sha256").update(text).digest("hex");

test("pages of a hop that is gone go with it, and what others put beside them stays", () => {
  expect(report().status).toBe(0);
  writeFileSync(join(out, "hops/notes.html"), "mine");
  writeFileSync(join(out, "README.md"), "mine");
  writeDesign("ONE");
  expect(report().status).toBe(0);
  expect(pages()).toEqual([
    ".hopwright-report",
    "README.md",
    "hops",
    "hops/ONE.html",
    "hops/notes.html",
    "index.html",
    "parts.html",
    "sites",
    "sites/A.html",
    "sites/B.html",
  ]);
  rmSync(join(out, "hops/notes.html"));
  writeDesign();
  report();
  expect(pages()).toEqual([".hopwright-report", "README.md", "index.html"]);
});

test("the page of one hop leaves those of the others", () => {
  report();
  expect(report("--hop", "ONE").status).toBe(0);
  expect(pages()).toContain("hops/TWO.html");
  writeDesign("ONE");
  report();
  expect(pages()).not.toContain("hops/TWO.html");
});

test("a page that somebody has changed is told and stays", () => {
  report();
  appendFileSync(join(out, "hops/TWO.html"), "<!-- a remark -->");
  writeDesign("ONE");
  expect(report().stderr).toContain("hops/TWO.html was changed by hand");
  expect(existsSync(join(out, "hops/TWO.html"))).toBe(true);
});

test("a file of somebody else where a page should stand is not replaced", () => {
  mkdirSync(out);
  writeFileSync(join(out, "index.html"), "mine");
  const { status, stderr } = report();
  expect(status).toBe(2);
  expect(stderr).toContain("index.html: is no page of an earlier report");
  expect(readFileSync(join(out, "index.html"), "utf8")).toBe("mine");
});

test("a record of a stranger's takes away nothing outside, nothing by a link, and nothing that it does not know", () => {
  mkdirSync(join(out, "hops"), { recursive: true });
  writeFileSync(join(base, "outside.html"), "outside");
  writeFileSync(join(out, "kept.html"), "kept");
  symlinkSync(base, join(out, "away"));
  const lines = [
    [sha("outside"), "../outside.html"],
    [sha("outside"), join(base, "outside.html")],
    [sha("outside"), "away/outside.html"],
    [sha("something else"), "kept.html"],
    [sha(""), "hops"],
  ];
  writeFileSync(join(out, ".hopwright-report"), lines.map(([hash, path]) => `${hash}  ${path}\n`).join(""));
  expect(report().status).toBe(0);
  expect(readFileSync(join(base, "outside.html"), "utf8")).toBe("outside");
  expect(readFileSync(join(out, "kept.html"), "utf8")).toBe("kept");
});

test("links in the folder lead no page out of it", () => {
  mkdirSync(out);
  mkdirSync(join(base, "elsewhere"));
  symlinkSync(join(base, "elsewhere"), join(out, "hops"));
  expect(report()).toMatchObject({ status: 2 });
  expect(readdirSync(join(base, "elsewhere"))).toEqual([]);
  rmSync(out, { recursive: true });
  mkdirSync(out);
  symlinkSync(join(base, "elsewhere/record"), join(out, ".hopwright-report"));
  expect(report().stderr).toContain("is no record of an earlier report");
  expect(readdirSync(join(base, "elsewhere"))).toEqual([]);
});

test("the folder of the design itself is refused, by whatever name", () => {
  symlinkSync(design, join(base, "same"));
  for (const own of [design, join(design, "."), join(base, "same")]) {
    const { status, stderr } = run(["report", design, "--out", own]);
    expect(status).toBe(2);
    expect(stderr).toContain("this is the folder of the design itself");
  }
  expect(readdirSync(design)).toEqual(["a.hop"]);
});

test("where no folder can be, one line says so and nothing is written; where one can, the pages are there", () => {
  writeFileSync(join(base, "file"), "mine");
  symlinkSync(join(base, "nowhere"), join(base, "dangling"));
  symlinkSync("loop", join(base, "loop"));
  execFileSync("mkfifo", [join(base, "pipe")]);
  mkdirSync(join(base, "repository/.git/objects"), { recursive: true });
  mkdirSync(join(base, "above"));
  cpSync(design, join(base, "above/hops"), { recursive: true });
  mkdirSync(join(base, "foreign/index.html"), { recursive: true });
  const before = readdirSync(base, { recursive: true }).sort();
  for (const [to, reason, of = design] of [
    ["file", /a file stands where a folder is needed/],
    ["file/below", /a file stands where a folder is needed/],
    ["dangling", /a file stands where a folder is needed/],
    ["loop", /its links lead in a circle/],
    ["pipe", /a file stands where a folder is needed/],
    ["x".repeat(300), /its name is too long/],
    ["", /--out: name a folder/],
    [" ", /--out: name a folder/],
    ["repository/.git", /a folder of git's own/],
    ["repository/.git/objects", /a folder of git's own/],
    ["above", /above\/hops: this is the folder of the design itself/, "above/hops"],
    ["foreign", /foreign\/index\.html: is no page of an earlier report/],
    // Nobody can make a folder here, and Node's own way of making one does not end in the first.
    ["/proc/hopwright/out", /cannot be written/],
    ["/sys/hopwright", /cannot be written/],
  ] as const) {
    const { status, stderr } = run(["report", of, "--out", to], { cwd: base });
    expect([to, status, stderr]).toEqual([to, 2, expect.stringMatching(/^error: [^\n]+\n$/)]);
    expect(stderr).toMatch(reason);
  }
  const left = readdirSync(base, { recursive: true }).sort();
  expect(
    left.filter((path) => !/\.hopwright-report$|^above\/(index|parts|sites)/.test(String(path))),
  ).toEqual(before);
  // The top of a repository, a home, a link to a folder.
  symlinkSync(join(base, "repository"), join(base, "link"));
  writeFileSync(join(base, "repository/README.md"), "mine");
  for (const to of ["repository", "link", "home/me/pages"]) {
    const { status } = run(["report", design, "--out", to], {
      cwd: base,
      env: { HOME: join(base, "home/me") },
    });
    expect([to, status, existsSync(join(base, to, "index.html"))]).toEqual([to, 0, true]);
  }
  expect(readFileSync(join(base, "repository/README.md"), "utf8")).toBe("mine");
}, 120_000);
