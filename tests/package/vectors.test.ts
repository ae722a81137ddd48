/** Check values carry their source, and send nobody to a file that is not here. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { expect, test } from "vitest";

const ROOT = join(import.meta.dirname, "../..");
const FILES = readdirSync(join(ROOT, "tests/vectors"), { recursive: true, encoding: "utf8" }).filter((path) =>
  path.endsWith(".json"),
);

/** What tells where figures are from or how they were come by. */
const SAID = ["source", "sources", "basis", "how", "formula"];

/** Lists of figures beside which, and above which, nothing of that stands. */
function withoutSource(value: unknown, path = "", said = false): string[] {
  if (value === null || typeof value !== "object") return [];
  const own = said || SAID.some((key) => key in value);
  if (!Array.isArray(value)) {
    return Object.entries(value).flatMap(([key, each]) => withoutSource(each, `${path}/${key}`, own));
  }
  if (!own && value.some((each) => typeof each === "number" || Array.isArray(each))) return [path];
  return value.flatMap((each, index) => withoutSource(each, `${path}/${index}`, own));
}

/** File names in a text which are not those of a public repository that the text names with its commit. */
function namedFiles(text: string): string[] {
  if (/github\.com|commit [0-9a-f]{7}/.test(text)) return [];
  return text.match(/[\w./-]+\.(?:md|json|ts|py|js)\b/g) ?? [];
}

function texts(value: unknown): string[] {
  if (typeof value === "string") return [value];
  return value !== null && typeof value === "object" ? Object.values(value).flatMap(texts) : [];
}

test.each(FILES)("%s", (path) => {
  const value: unknown = JSON.parse(readFileSync(join(ROOT, "tests/vectors", path), "utf8"));
  expect(withoutSource(value), "no source and no word of how they were computed").toEqual([]);
  const missing = texts(value)
    .flatMap(namedFiles)
    .filter(
      (name) =>
        ![ROOT, join(ROOT, "tests/vectors", dirname(path))].some((from) => existsSync(join(from, name))),
    );
  expect(missing, "files that are not in the repository").toEqual([]);
});

test("the two searches find what they look for", () => {
  expect(FILES.length).toBeGreaterThan(30);
  expect(withoutSource({ rows: [[1, 2]], other: { source: "by hand", rows: [3] } })).toEqual(["/rows"]);
  expect(withoutSource({ cases: [{ id: "a", steps: [1] }] })).toEqual(["/cases/0/steps"]);
  expect(namedFiles("from FORMULAS.md and data/a.json")).toEqual(["FORMULAS.md", "data/a.json"]);
  expect(namedFiles("github.com/someone/p452, commit 86f8026, test.json")).toEqual([]);
});
