/**
 * Killed at any moment: whatever is written is there whole, as it was or as it should be, and the next run comes to
 * where it would have come. A command is ended before each thing that it does to the disk, and half-way through it.
 */
import { spawnSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { PROGRAM, run } from "./built.js";

const LONG = 300_000;
const base = mkdtempSync(join(tmpdir(), "hopwright-killed-"));
afterAll(() => rmSync(base, { recursive: true, force: true }));

/** Ends its process by a signal that nobody can catch, at the step of that number, after half of what it would write. */
const KILLER = join(base, "killer.cjs");
writeFileSync(
  KILLER,
  `const fs = require("node:fs");
let left = Number(process.env.KILL_AT);
const half = process.env.KILL_HALF === "1";
const writes = ["writeFileSync", "appendFileSync"];
for (const name of half ? writes : [...writes, "renameSync", "rmSync", "mkdirSync", "rmdirSync"]) {
  const real = fs[name];
  fs[name] = (path, content, ...more) => {
    if (left-- > 0) return real(path, content, ...more);
    if (half) real(path, content.slice(0, content.length / 2), ...more);
    process.kill(process.pid, "SIGKILL");
  };
}
`,
);

type Files = Readonly<Record<string, string>>;

function filesOf(folder: string): Files {
  return Object.fromEntries(
    readdirSync(folder, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => join(entry.parentPath, entry.name))
      .sort()
      .map((path) => [path.slice(folder.length + 1), readFileSync(path, "utf8")]),
  );
}

/** What a broken run leaves besides: a file that nothing reads. */
const LEFT = /(^|\/)\.[0-9a-f]{16}\.part$/;

function whole(files: Files): Files {
  return Object.fromEntries(Object.entries(files).filter(([path]) => !LEFT.test(path)));
}

const HOPS = ["ONE"].map((name) => `hop ${name} {\n  A { }\n  B { }\n}\n`);
const SITES = "site A {\n  at 47.55 -30.45\n}\nsite B {\n  at 47.6 -30.4\n}\n";
const DESIGN = { "network.hop": `network "A" {\n}\n${SITES}`, "hops.hop": HOPS.join("\n") };
/** A page for a hop that the design has no more. */
const EARLIER = { ...DESIGN, "hops.hop": `${HOPS.join("\n")}\n${HOPS[0]!.replace("ONE", "TWO")}` };

interface Case {
  readonly args: readonly string[];
  readonly before: Files;
  /** What an earlier run left. */
  readonly prepare?: (folder: string) => void;
  /** Between the steps, within them, or both; a report has many of them. */
  readonly halves?: readonly ("" | "1")[];
}

function put(folder: string, files: Files): void {
  mkdirSync(folder, { recursive: true });
  for (const [path, text] of Object.entries(files)) writeFileSync(join(folder, path), text);
}

const CASES: Readonly<Record<string, Case>> = {
  format: {
    args: ["format", "."],
    before: { "a.hop": "site   A { at 47 -30 }\n", "b.hop": "site   B { at 47 -31 }\n" },
  },
  "check --fix": {
    args: ["check", ".", "--fix"],
    before: { "a.hop": 'network "A" {\n', "b.hop": "site B {\n  at 47.6 -30.4\n" },
  },
  report: { args: ["report", ".", "--out", "out", "--only", "html"], before: DESIGN, halves: ["1"] },
  "report over an earlier one": {
    args: ["report", ".", "--out", "out", "--only", "html"],
    before: EARLIER,
    halves: [""],
    prepare: (folder) => {
      run(["report", ".", "--out", "out", "--only", "html"], { cwd: folder });
      put(folder, DESIGN);
    },
  },
};

test.each(Object.entries(CASES))(
  "%s",
  (name, { args, before, prepare, halves = ["", "1"] }) => {
    const first = join(base, name.replaceAll(" ", "-"));
    put(first, before);
    prepare?.(first);
    const was = filesOf(first);
    const undisturbed = `${first}-whole`;
    cpSync(first, undisturbed, { recursive: true });
    const { status } = run(args, { cwd: undisturbed });
    const is = filesOf(undisturbed);
    expect(is).not.toEqual(was);
    let steps = 0;
    for (const half of halves)
      for (let at = 0; ; at++, steps++) {
        const folder = `${first}-${at}${half}`;
        cpSync(first, folder, { recursive: true });
        const killed = (step: number) =>
          spawnSync(process.execPath, ["--require", KILLER, PROGRAM, ...args], {
            cwd: folder,
            env: { ...process.env, KILL_AT: String(step), KILL_HALF: half },
          }).signal === "SIGKILL";
        if (!killed(at)) break;
        for (const [path, text] of Object.entries(whole(filesOf(folder))))
          if (!path.endsWith(".hopwright-report"))
            expect([was[path], is[path]], `${at}: ${path}`).toContain(text);
        // Once more, where the second has gone over what the first left.
        if (half) killed(at + 2);
        const again = run(args, { cwd: folder });
        expect([again.status, whole(filesOf(folder))], `${at}${half}: ${again.stderr}`).toEqual([status, is]);
        rmSync(folder, { recursive: true });
      }
    expect(steps).toBeGreaterThan(3);
  },
  LONG,
);

test(
  "a baseline that was cut short is told, wherever the cut is",
  () => {
    const folder = join(base, "baseline");
    put(folder, { ...DESIGN, "hops.hop": "hop ONE { }\n" });
    const { stdout } = run(["check", ".", "--format", "json"], { cwd: folder });
    expect(stdout.length).toBeGreaterThan(100);
    for (const part of [0, 0.2, 0.5, 0.9, 1 - 2 / stdout.length]) {
      writeFileSync(join(folder, "baseline.json"), stdout.slice(0, Math.floor(part * stdout.length)));
      const { status, stderr } = run(["check", ".", "--baseline", "baseline.json"], { cwd: folder });
      expect([status, stderr]).toEqual([
        2,
        expect.stringMatching(/^error: baseline\.json: is no JSON; [^\n]+\n$/),
      ]);
    }
    writeFileSync(join(folder, "baseline.json"), stdout);
    expect(run(["check", ".", "--baseline", "baseline.json"], { cwd: folder }).status).toBe(0);
  },
  LONG,
);
