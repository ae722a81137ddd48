/** A finding links to its rule's page and the README to the reference: both must be in the package. */
import { execFileSync } from "node:child_process";
import { join } from "node:path";
import { expect, test } from "vitest";

const ROOT = join(import.meta.dirname, "../..");

test("the package carries the reference and nothing of the sources", () => {
  const listed = execFileSync(
    process.execPath,
    [join(ROOT, "node_modules/@vscode/vsce/vsce"), "ls", "--no-dependencies"],
    {
      cwd: ROOT,
      encoding: "utf8",
    },
  )
    .trim()
    .split("\n");
  expect(listed).toContain("language/reference/rules/clearance.md");
  expect(listed).toContain("language/reference/channel-plans.md");
  expect(listed.filter((path) => /\.ts$|^tests\//.test(path))).toEqual([]);
}, 30_000);
