/** Every method that the engine implements stands in the table of standards, and tells whether a figure rests on it. */
import { globSync, readFileSync } from "node:fs";
import { beforeAll, expect, test } from "vitest";
import { methodsPage } from "../../language/docs/methods-page.js";
import { METHODS } from "../../shared/evaluate/account/methods.js";
import type { MethodReference } from "../../shared/propagation/method.js";

const SHARED = new URL("../../shared/", import.meta.url);
const rows = methodsPage().split("\n");
const rowsOf = ({ title }: MethodReference) => rows.filter((line) => line.includes(`| ${title} |`));
const methods: (MethodReference & { readonly file: string })[] = [];

beforeAll(async () => {
  for (const file of globSync("{propagation,availability,geodesy,radio,spectrum}/**/*.ts", { cwd: SHARED })) {
    if (file.endsWith("index.ts")) continue;
    const exported: Record<string, unknown> = await import(new URL(file, SHARED).href);
    for (const [name, value] of Object.entries(exported)) {
      if (name.startsWith("METHOD")) methods.push({ ...(value as MethodReference), file });
    }
  }
});

test("no method is left out of the table, and none is in it twice", () => {
  expect(methods.length).toBeGreaterThan(40);
  expect(methods.filter((method) => rowsOf(method).length !== 1).map(({ title }) => title)).toEqual([]);
});

test("what is from memory says so in its row", () => {
  for (const method of methods) {
    const isTold = rowsOf(method)[0]!.includes("not checked against the Recommendation");
    expect(isTold, method.title).toBe(method.status === "from memory");
  }
});

test("what nothing but tests runs is told as used by no figure", () => {
  const tagged = methods.filter(({ file }) =>
    readFileSync(new URL(file, SHARED), "utf8").includes("@nofigure"),
  );
  const unused = methods.filter(({ usedByNoFigure }) => usedByNoFigure);
  // A method that figures name may have functions beside it that none of them needs.
  const named = new Set(Object.values(METHODS).map(({ what }) => what));
  const wholly = tagged.filter(({ title }) => !named.has(title));
  expect(new Set(unused.map(({ file }) => file))).toEqual(new Set(wholly.map(({ file }) => file)));
  for (const method of methods)
    expect(rowsOf(method)[0]!.includes("Used by no figure"), method.title).toBe(
      method.usedByNoFigure === true,
    );
});

test("each method says what it is checked by, and each file of check values whose it is", () => {
  const files = globSync("vectors/**/*.json", { cwd: new URL("../", import.meta.url) });
  const named = new Set(methods.flatMap(({ checked }) => checked.vectors ?? []));
  const there = new Map(files.map((file) => [file.replace(/^.*[/\\]|[.]json$/g, ""), file]));
  expect([...named].filter((name) => !there.has(name))).toEqual([]);
  const ofStandards = [...there].filter(([, file]) => /^vectors.(p530|propagation)./.test(file));
  expect(ofStandards.map(([name]) => name).filter((name) => !named.has(name))).toEqual([
    // Printed runs of whole libraries, for several methods at once.
    "library-runs",
  ]);
});
