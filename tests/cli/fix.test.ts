/** `check --fix`: what is certain is written, whole or not at all, and nothing else. */
import { spawnSync } from "node:child_process";
import { cpSync, mkdirSync, readdirSync, readFileSync, statSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { unifiedDiff } from "../../server/cli/fix/unified.js";
import { run, SAMPLES, scratch } from "./built.js";

const MINUTES = 5 * 60_000;

/** The learning sample with slips in its hops. */
function slipped(name: string, change: (text: string) => string, more?: (folder: string) => void): string {
  const at = scratch(name);
  cpSync(SAMPLES, at, { recursive: true });
  const folder = join(at, "learning");
  const file = join(folder, "hops.hop");
  writeFileSync(file, change(readFileSync(file, "utf8")));
  more?.(folder);
  return folder;
}

const sound = readFileSync(join(SAMPLES, "learning/hops.hop"), "utf8");
const slips = (text: string) =>
  text.replace("transmits high", "transmist High").replace(" at 15 m", " at 15,0 m");
const hopsOf = (folder: string) => readFileSync(join(folder, "hops.hop"), "utf8");
const withPoint = sound.replace(" at 15 m", " at 15.0 m");

describe("check --fix", () => {
  test("writes what is certain, also what another fix uncovers, and tells it by line", {
    timeout: MINUTES,
  }, () => {
    const folder = slipped("certain", slips);
    const before = run(["check", folder]);
    const { status, stdout, stderr } = run(["check", "--fix", folder]);
    expect(hopsOf(folder)).toBe(withPoint);
    expect(stderr).toMatch(/fixed .*hops\.hop:\d+: Write transmits \[unknown-word\]/);
    expect(stderr).toMatch(/fixed .*hops\.hop:\d+: Write high \[unknown-choice\]/);
    expect(stderr).toMatch(/\n3 fixed\n/);
    expect(before.status).toBe(1);
    expect(stdout).not.toContain("unknown-word");
    expect(status).toBe(run(["check", folder]).status);
    expect(readdirSync(folder).filter((name) => name.endsWith(".part"))).toEqual([]);
    // Nothing is left to be done.
    expect(run(["check", "--fix", folder]).stderr).toContain("nothing was certain enough");
  });

  test("shows it as a diff, and writes nothing", { timeout: MINUTES }, () => {
    const folder = slipped("shown", slips);
    const { status, stdout } = run(["check", "--fix", "--dry-run", "."], { cwd: folder });
    expect(status).toBe(1);
    expect(hopsOf(folder)).toBe(slips(sound));
    expect(stdout).toMatch(/^--- a\/hops\.hop\n\+\+\+ b\/hops\.hop\n@@ -\d+,\d+ \+\d+,\d+ @@\n/);
    expect(stdout).toContain("\n-    transmist High\n+    transmits high\n");
    const clean = slipped("clean", (text) => text);
    expect(run(["check", "--fix", "--dry-run", clean])).toMatchObject({
      status: 0,
      stdout: "",
      stderr: expect.stringContaining("nothing was certain enough"),
    });
  });

  test("keeps machine output well-formed, and refuses a diff in another format", { timeout: MINUTES }, () => {
    const folder = slipped("json", slips);
    const { stdout } = run(["check", "--fix", "--format", "json", folder]);
    expect(JSON.parse(stdout)).toMatchObject({ schema: "hopwright-check/3" });
    expect(run(["check", "--fix", "--dry-run", "--format", "json", folder]).status).toBe(2);
    expect(run(["check", "--dry-run", folder]).status).toBe(2);
  });

  test("leaves alone what has several readings or is a decision", { timeout: MINUTES }, () => {
    const several = (text: string) => text.replace(" at 15 m", " at 15");
    const folder = slipped("several", several);
    run(["check", "--fix", folder]);
    expect(hopsOf(folder)).toBe(several(sound));
  });

  test("goes through no link, out of no folder, and into no unfinished merge", { timeout: MINUTES }, () => {
    const site = "site GORSE {\n  at 47.6 -30.4\n  struture mast 20 m\n}\n";
    const merge = `<<<<<<< ours\n${site}=======\n>>>>>>> theirs\n`;
    const folder = slipped(
      "links",
      (text) => text,
      (at) => {
        mkdirSync(join(at, "real"));
        writeFileSync(join(at, "real/linked.txt"), site);
        symlinkSync(join(at, "real/linked.txt"), join(at, "linked.hop"));
        writeFileSync(join(at, "merge.hop"), merge.replaceAll("GORSE", "HEDGE"));
        writeFileSync(join(at, "../catalogue/broken.hop"), "antenna BROKEN {\n  diametre 0.6 m\n}\n");
      },
    );
    const { stderr } = run(["check", "--fix", folder]);
    expect(stderr).toContain("nothing was certain enough");
    expect(readFileSync(join(folder, "real/linked.txt"), "utf8")).toBe(site);
    expect(readFileSync(join(folder, "merge.hop"), "utf8")).toContain("struture");
    expect(readFileSync(join(folder, "../catalogue/broken.hop"), "utf8")).toContain("diametre");
  });

  test("line ends and rights of a file stay", { timeout: MINUTES }, () => {
    const folder = slipped("ends", (text) => slips(text).replaceAll("\n", "\r\n"));
    const { mode } = statSync(join(folder, "hops.hop"));
    run(["check", "--fix", folder]);
    expect(hopsOf(folder)).toBe(withPoint.replaceAll("\n", "\r\n"));
    expect(statSync(join(folder, "hops.hop")).mode).toBe(mode);
  });
});

describe("the diff", () => {
  test.each([
    ["a\n", "b\n", "@@ -1,1 +1,1 @@\n-a\n+b\n"],
    ["a\nb\n", "a\n", "@@ -1,2 +1,1 @@\n a\n-b\n"],
    ["a", "a\n", "@@ -1,1 +1,1 @@\n-a\n\\ No newline at end of file\n+a\n"],
    ["", "a\n", "@@ -0,0 +1,1 @@\n+a\n"],
    [
      "1\n2\n3\n4\n5\n6\n7\n8\n9\n10\n",
      "1\nx\n3\n4\n5\n6\n7\n8\n9\ny\n",
      "@@ -1,5 +1,5 @@\n 1\n-2\n+x\n 3\n 4\n 5\n@@ -7,4 +7,4 @@\n 7\n 8\n 9\n-10\n+y\n",
    ],
  ])("%j to %j", (before, after, hunks) => {
    expect(unifiedDiff("f", before, after)).toBe(`--- a/f\n+++ b/f\n${hunks}`);
  });

  test("git makes the one text of the other by it", () => {
    const folder = scratch("patched");
    mkdirSync(folder, { recursive: true });
    const text = fc.array(fc.constantFrom("a\n", "b\n", "  c d\n", "\n", "e"), {
      minLength: 1,
      maxLength: 30,
    });
    fc.assert(
      fc.property(text, text, (one, other) => {
        const [before, after] = [one.join(""), other.join("")];
        if (before === after) return;
        writeFileSync(join(folder, "f"), before);
        const patch = unifiedDiff("f", before, after);
        const { stderr } = spawnSync("git", ["apply", "--whitespace=nowarn", "-"], {
          cwd: folder,
          input: patch,
          encoding: "utf8",
        });
        expect([stderr, readFileSync(join(folder, "f"), "utf8")]).toEqual(["", after]);
      }),
      { numRuns: 40 },
    );
  });

  test("of the same text is none", () => expect(unifiedDiff("f", "a\n", "a\n")).toBe(""));
});
