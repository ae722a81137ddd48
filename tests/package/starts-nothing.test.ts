/** Reading a design starts no program and opens no connection: by the source, and by a run that may do neither. */
import { spawnSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it, test } from "vitest";
import { codes, Editor } from "../protocol/client.js";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));

/** Everything that is bundled; `generate.ts` writes files of the repository while it is built. */
const SOURCES = ["shared", "language", "server", "extension"]
  .flatMap((folder) =>
    readdirSync(join(ROOT, folder), { recursive: true, encoding: "utf8" }).map((name) => `${folder}/${name}`),
  )
  .map((path) => path.replaceAll("\\", "/"))
  .filter((path) => /\.(ts|js|mjs|cjs)$/.test(path))
  .filter(
    (path) =>
      !/^(language\/generated|server\/cli\/schema\/generate|server\/docs|extension\/package)\b/.test(path),
  );

/** What starts something or reaches another machine, and the only files that may have it. */
const FORBIDDEN: readonly (readonly [what: RegExp, only: readonly string[]])[] = [
  [/["'](node:)?child_process["']/, ["server/git/run.ts"]],
  [/["'](node:)?cluster["']/, []],
  [
    /["'](node:)?worker_threads["']/,
    [
      "server/cli/main.ts",
      "server/lists/read/read-file.ts",
      "server/terrain/ahead.ts",
      "server/terrain/serve-profiles.ts",
      "server/terrain/thread.ts",
    ],
  ],
  [/\bnew Worker\b/, ["server/lists/read/read-file.ts", "server/terrain/ahead.ts"]],
  [/["'](node:)?(net|tls|http|https|http2|dgram|dns|dns\/promises|inspector|vm|repl|wasi)["']/, []],
  [/\b(fetch|WebSocket|EventSource|XMLHttpRequest|sendBeacon|importScripts)\s*\(/, []],
  [/\beval\s*\(|\bnew Function\b|\bprocess\.(binding|dlopen)\b/, []],
  // A module by a name that is worked out could be one that lies beside a design.
  [/\b(import|require)\s*\(\s*(?!["'][^"'$]*["']\s*\))/, []],
  [/\bcreateRequire\b/, []],
  [/\b(createTerminal|ShellExecution|ProcessExecution|executeTask|startDebugging|openExternal)\b/, []],
];

describe("in the source", () => {
  it("there are files", () => expect(SOURCES.length).toBeGreaterThan(300));
  for (const [what, only] of FORBIDDEN)
    it(`${what.source} stands in ${only.length === 0 ? "no file" : only.join(", ")}`, () => {
      const found = SOURCES.filter((path) => what.test(readFileSync(join(ROOT, path), "utf8")));
      expect(found.sort()).toEqual([...only].sort());
    });
});

test("every command that compares nothing runs where no program may be started", () => {
  const out = mkdtempSync(join(tmpdir(), "hopwright-out-"));
  const allowed = ["--permission", "--allow-fs-read=*", `--allow-fs-write=${out}`, "--no-warnings"];
  const hopwright = (...args: string[]) =>
    spawnSync(process.execPath, [...allowed, join(ROOT, "dist/hopwright.cjs"), ...args], {
      cwd: join(ROOT, "samples"),
      encoding: "utf8",
    });
  for (const args of [
    ["check", "eskerfold"],
    ["report", "learning", "--out", out],
    ["profile", "ALDER-HAZEL", "learning"],
    ["explain", "--hop", "ALDER-HAZEL", "learning"],
    ["explain", "clearance"],
    ["format", "--check", "eskerfold"],
    ["schema"],
  ]) {
    const { status, stdout, stderr } = hopwright(...args);
    expect([0, 1], `${args.join(" ")}: ${stderr}`).toContain(status);
    expect(stdout + stderr).not.toMatch(/fault of hopwright|ERR_ACCESS_DENIED/);
  }
  // That it may not is no empty word.
  const { status, stderr } = hopwright("diff", "HEAD", "eskerfold");
  expect([status, stderr]).toEqual([2, expect.stringMatching(/^error: .*\n$/)]);
  rmSync(out, { recursive: true });
}, 300_000);

test("the server judges where no program may be started and nothing be written", async () => {
  const before = process.env.NODE_OPTIONS;
  process.env.NODE_OPTIONS = "--permission --allow-fs-read=* --no-warnings";
  const editor = await Editor.start(join(ROOT, "samples/learning"));
  process.env.NODE_OPTIONS = before ?? "";
  editor.open("hops.hop");
  await editor.settled();
  expect(codes(editor.of("hops.hop"))).toContain("clearance");
  expect(editor.log).toEqual([]);
  await editor.stop();
}, 120_000);
