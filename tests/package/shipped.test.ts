/** What the package carries, and what it says of the work of others in it. */
import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { deflateRawSync } from "node:zlib";
import { afterAll, expect, test } from "vitest";
import { noticesOf, packagesIn } from "../../extension/package/notices.js";

const ROOT = join(import.meta.dirname, "../..");
const MINUTES = 60_000;
const made: string[] = [];
afterAll(() => {
  for (const folder of made) rmSync(folder, { recursive: true });
});

const listed = execFileSync(
  process.execPath,
  [join(ROOT, "node_modules/@vscode/vsce/vsce"), "ls", "--no-dependencies"],
  { cwd: ROOT, encoding: "utf8", timeout: 5 * MINUTES },
)
  .trim()
  .split("\n");

// A finding links to its rule's page and the README to the reference.
test("the package carries the reference and nothing of the sources", () => {
  expect(listed).toContain("language/reference/rules/clearance.md");
  expect(listed).toContain("language/reference/channel-plans.md");
  expect(listed.filter((path) => /\.ts$|^tests\//.test(path))).toEqual([]);
});

test("one bundle is command line and server, with the notices beside it", () => {
  expect(listed.filter((path) => path.startsWith("dist/")).sort()).toEqual([
    "dist/extension.cjs",
    "dist/fonts/DejaVuSans-Bold.ttf",
    "dist/fonts/DejaVuSans.ttf",
    "dist/hopwright.cjs",
    "dist/notices.txt",
    "dist/pdf.cjs",
    "dist/terrain-thread.cjs",
  ]);
});

// What an editor should have to fetch; 1 MB of it is the writer of PDFs and two cuts of a font.
test("packed it stays under 5 MB", () => {
  const bytes = listed.reduce((sum, path) => sum + deflateRawSync(readFileSync(join(ROOT, path))).length, 0);
  expect(bytes).toBeLessThan(5e6);
});

test("the notices name every library that the project depends on, with its terms", () => {
  const notices = readFileSync(join(ROOT, "dist/notices.txt"), "utf8");
  const { dependencies } = JSON.parse(readFileSync(join(ROOT, "package.json"), "utf8"));
  for (const [name, version] of Object.entries(dependencies))
    expect(notices).toContain(`\n${name} ${version} (`);
  expect(notices).toContain("Permission is hereby granted, free of charge");
  expect(notices).toContain("Copyright 2015-2021 Esri");
  // What the writer of PDFs has in it of others, and the terms of the font whole, that of each who drew it.
  expect(notices).toContain("SVG-to-PDFKit contributors");
  for (const holder of ["Bitstream, Inc.", "Tavmjong Bah"]) expect(notices).toContain(holder);
  expect(notices).toContain("no\ncopy of one or more of the Font Software typefaces may be sold by itself");
});

const metafileOf = (...paths: string[]) => ({
  inputs: {},
  outputs: {
    "x.cjs": { inputs: Object.fromEntries(paths.map((path) => [path, { bytesInOutput: 1 }])) },
  },
});

test("a library that is in a bundle twice fails the build", () => {
  const once = metafileOf("node_modules/one/index.js", "node_modules/@a/b/index.js", "server/main.ts");
  expect(packagesIn(once as never)).toEqual(["node_modules/@a/b", "node_modules/one"]);
  const twice = metafileOf("node_modules/one/index.js", "node_modules/two/node_modules/one/index.js");
  expect(() => packagesIn(twice as never)).toThrow(/twice: node_modules\/one, node_modules\/two/);
});

test("a library without terms, or with terms of another kind, fails the build", () => {
  const folder = mkdtempSync(join(tmpdir(), "hopwright-notices-"));
  made.push(folder);
  const library = (name: string, license: string, text?: string) => {
    const path = join(folder, "node_modules", name);
    mkdirSync(path, { recursive: true });
    writeFileSync(join(path, "package.json"), JSON.stringify({ version: "1.0.0", license }));
    if (text !== undefined) writeFileSync(join(path, "LICENSE"), text);
    return path;
  };
  expect(noticesOf([library("free", "MIT", "The terms of free.")])).toContain("The terms of free.");
  expect(() => noticesOf([library("bare", "MIT")])).toThrow(/no text of its licence/);
  expect(() => noticesOf([library("closed", "UNLICENSED", "No.")])).toThrow(/licence UNLICENSED/);
});
