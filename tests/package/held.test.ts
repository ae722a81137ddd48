/**
 * What the folders may not know is held by their own settings: each forbidden thing stands here in a file of a
 * copy of those settings, and lint, arrows or types must refuse it. A file beside it, without, is let through.
 */
import { spawnSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, realpathSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, relative } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));
const FOLDERS = ["shared", "language", "server", "extension"];
const copy = realpathSync(mkdtempSync(join(tmpdir(), "hopwright-held-")));
afterAll(() => rmSync(copy, { recursive: true }));

/** What it is, the file that has it, and the rule that says no. */
type Case = readonly [what: string, text: string, refusedBy: string];

/** In the core and in the language alike. */
const PURE: readonly Case[] = [
  ["the clock", "export const a = Date.now();", "noRestrictedGlobals"],
  ["the day", "export const a = new Date();", "noRestrictedGlobals"],
  ["a clock under another name", "const Clock = Date;\nexport const a = new Clock();", "noRestrictedGlobals"],
  ["a clock that measures", "export const a = performance.now();", "noRestrictedGlobals"],
  ["a clock that formats", "export const a = new Intl.DateTimeFormat().format();", "noRestrictedGlobals"],
  ["what holds all of them", "export const a = globalThis;", "noRestrictedGlobals"],
  ["chance", "export const a = Math.random();", "noJsRestrictedProperties"],
  ["chance taken apart", "export const { random } = Math;", "noJsRestrictedProperties"],
  ["chance of keys", "export const a = crypto.randomUUID();", "noRestrictedGlobals"],
  ["the process", "export const a = process.env;", "noRestrictedGlobals"],
  ["bytes of Node", 'export const a = Buffer.from("");', "noRestrictedGlobals"],
  ["timers", "export const a = setTimeout(() => {}, 1);", "TS2304"],
  ["types of Node", "export type A = NodeJS.Timeout;", "TS2503"],
  ["Node's types by a comment", '/// <reference types="node" />\nexport {};', "noTripleSlashReference"],
  ["a module of Node", 'export * as a from "node:fs";', "core-and-language-run-in-a-browser"],
  ["a module of Node, for lint", 'export * as a from "node:fs";', "noRestrictedImports"],
  ["a type of a module", 'export type A = import("node:fs").Stats;', "core-and-language-run-in-a-browser"],
  ["a page of a browser", "export const a = document.title;", "TS2584"],
  ["the machine's order of letters", 'export const a = "a".localeCompare("b");', "noJsRestrictedProperties"],
];

const EDITOR: readonly Case[] = [
  [
    "a type of the protocol",
    'export type { Range } from "vscode-languageserver-types";',
    "noRestrictedImports",
  ],
  ["Langium's server", 'export type { LangiumServices } from "langium/lsp";', "noRestrictedImports"],
  ["Langium", 'export { EmptyFileSystem } from "langium";', "noRestrictedImports"],
];

const WRITING: readonly Case[] = [
  ["a file in pieces", 'export { createWriteStream } from "node:fs";', "noRestrictedImports"],
  ["a file in place", 'export { writeFileSync } from "node:fs";', "noRestrictedImports"],
  ["a file in place, later", 'export { writeFile } from "node:fs/promises";', "noRestrictedImports"],
  [
    "a copy in place",
    'import { copyFileSync } from "node:fs";\ncopyFileSync("a", "b");',
    "noRestrictedImports",
  ],
  [
    "a file in place, by its module",
    'import * as fs from "node:fs";\nfs.writeFileSync("a", "");',
    "noJsRestrictedProperties",
  ],
];

const TABLE: Readonly<Record<string, readonly Case[]>> = {
  shared: [
    ...PURE,
    ...EDITOR,
    ["the language", 'export * from "../language/fine.js";', "shared-imports-nothing"],
  ],
  language: [
    ...PURE,
    ...EDITOR,
    ["a type of the protocol", 'export type A = import("vscode-languageserver-types").Range;', "no-editor"],
    ["a host", 'export * from "../server/fine.js";', "language-below-server"],
  ],
  "language/syntax": [EDITOR[0]!, EDITOR[1]!],
  server: [
    ...WRITING,
    ["an editor", 'export type { Uri } from "vscode";', "only-the-extension-knows-an-editor"],
  ],
  extension: [...WRITING, ["the core", 'export * from "../shared/fine.js";', "knows-only-the-protocol"]],
};

const CASES = Object.entries(TABLE).flatMap(([folder, cases]) =>
  cases.map(([what, text, refusedBy], at) => ({
    folder,
    what,
    text,
    refusedBy,
    path: `${folder}/case${at}.ts`,
  })),
);

/** What each file was refused for. */
const refused = new Map<string, string>();

beforeAll(() => {
  const settings = ["", ...FOLDERS].flatMap((folder) => [
    join(folder, "biome.json"),
    join(folder, "tsconfig.json"),
  ]);
  for (const path of [...settings, ".dependency-cruiser.cjs", ".ci/knip.ts", "package.json"])
    cpSync(join(ROOT, path), join(copy, path));
  symlinkSync(join(ROOT, "node_modules"), join(copy, "node_modules"));
  for (const { path, text } of CASES) write(path, `${text}\n`);
  for (const folder of FOLDERS) write(`${folder}/fine.ts`, "export const fine = 1;\n");
  write("shared/here.ts", 'import type { There } from "./there.js";\nexport type Here = There | 1;\n');
  write("shared/there.ts", 'import type { Here } from "./here.js";\nexport type There = Here[];\n');
  write("language/syntax/fine.ts", 'export { EmptyFileSystem } from "langium";\n');
  write("server/files/write-whole.ts", 'export { writeFileSync } from "node:fs";\n');

  const lint = run(
    copy,
    "@biomejs/biome/bin/biome",
    "lint",
    "--reporter=github",
    "--max-diagnostics=none",
    ".",
  );
  for (const [, rule, path] of lint.output.matchAll(/title=([^,]+),file=([^,]+),/g)) note(path!, rule!);
  const arrows = run(
    copy,
    "dependency-cruiser/bin/dependency-cruiser.mjs",
    "--config",
    ".dependency-cruiser.cjs",
    ...FOLDERS,
  );
  for (const [, rule, path] of arrows.output.matchAll(/error ([\w-]+): (\S+)/g)) note(path!, rule!);
  // It would bring Node's types to all files of its folder.
  for (const { path, refusedBy } of CASES)
    if (refusedBy === "noTripleSlashReference") rmSync(join(copy, path));
  for (const folder of FOLDERS)
    for (const [, path, code] of run(copy, "typescript/bin/tsc", "-p", folder).output.matchAll(
      /^(\S+)\(.*?error (TS\d+)/gm,
    ))
      note(path!, code!);
}, 300_000);

function write(path: string, text: string): void {
  mkdirSync(dirname(join(copy, path)), { recursive: true });
  writeFileSync(join(copy, path), text);
}

function run(cwd: string, tool: string, ...args: readonly string[]) {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [join(ROOT, "node_modules", tool), ...args],
    {
      cwd,
      encoding: "utf8",
      env: { ...process.env, NO_COLOR: "1" },
    },
  );
  return { status, output: stdout + stderr };
}

function note(path: string, rule: string): void {
  const inCopy = path.startsWith("/") ? relative(copy, path) : path;
  refused.set(inCopy, `${refused.get(inCopy) ?? ""} ${rule}`);
}

describe.each(Object.keys(TABLE))("%s", (folder) => {
  for (const { what, path, refusedBy } of CASES.filter((one) => one.folder === folder))
    it(`knows nothing of: ${what} (${refusedBy})`, () =>
      expect(refused.get(path) ?? "").toContain(refusedBy));
});

it("two files that need no more of each other than types are a circle", () => {
  expect(refused.get("shared/here.ts") ?? refused.get("shared/there.ts") ?? "").toContain("no-circles");
});

it.each([...FOLDERS, "language/syntax", "server/files"])("what is allowed in %s is let through", (folder) => {
  const name = folder === "server/files" ? "write-whole" : "fine";
  expect(refused.get(`${folder}/${name}.ts`)).toBeUndefined();
});

describe("exports", () => {
  beforeAll(() => {
    write("shared/used.ts", "export const used = 1;\nexport const tried = 2;\nexport const dead = 3;\n");
    write("server/docs/main.ts", 'import { used } from "../../shared/used.js";\nconsole.log(used);\n');
    write(
      "tests/used.test.ts",
      'import { expect, it } from "vitest";\nimport { tried } from "../shared/used.js";\nit("", () => expect(tried).toBe(2));\n',
    );
  });
  const unused = (...args: string[]) => {
    const { output } = run(copy, "knip/bin/knip.js", "-c", ".ci/knip.ts", "--reporter=compact", ...args);
    return output.split("\n").find((line) => line.startsWith("shared/used.ts"));
  };

  it("what nobody imports is refused", () => expect(unused()).toBe("shared/used.ts: dead"));
  it("what tests alone import is refused of the product", () =>
    expect(unused("--production")).toBe("shared/used.ts: tried, dead"));
});

describe("the sources keep to it", () => {
  it.each([
    ["lint", "@biomejs/biome/bin/biome", "lint", "--error-on-warnings", "."],
    [
      "arrows",
      "dependency-cruiser/bin/dependency-cruiser.mjs",
      "--config",
      ".dependency-cruiser.cjs",
      ...FOLDERS,
    ],
    ["exports", "knip/bin/knip.js", "-c", ".ci/knip.ts"],
    ["exports of the product", "knip/bin/knip.js", "-c", ".ci/knip.ts", "--production"],
    ["types of the core", "typescript/bin/tsc", "-p", "shared"],
    ["types of the language", "typescript/bin/tsc", "-p", "language"],
  ])("%s", (_, tool, ...args) => {
    const { status, output } = run(ROOT, tool, ...args);
    expect(status, output).toBe(0);
  });
});
