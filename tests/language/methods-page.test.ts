/** Every method that the engine implements stands in the table of standards. */
import { globSync } from "node:fs";
import { expect, test } from "vitest";
import { DOCUMENTED_METHODS, methodsPage } from "../../language/docs/methods-page.js";
import type { MethodReference } from "../../shared/propagation/method.js";

const SHARED = new URL("../../shared/", import.meta.url);

test("no method is left out of the table, and none is in it twice", async () => {
  const files = globSync("{propagation,availability}/**/*.ts", { cwd: SHARED }).filter(
    (file) => !file.endsWith("index.ts"),
  );
  const methods: MethodReference[] = [];
  for (const file of files) {
    const exported: Record<string, unknown> = await import(new URL(file, SHARED).href);
    for (const [name, value] of Object.entries(exported)) {
      if (name.startsWith("METHOD")) methods.push(value as MethodReference);
    }
  }
  expect(methods.length).toBeGreaterThan(40);
  const told = new Set(DOCUMENTED_METHODS.map(({ title }) => title));
  expect(told.size).toBe(DOCUMENTED_METHODS.length);
  expect(methods.map(({ title }) => title).filter((title) => !told.has(title))).toEqual([]);
});

test("what is from memory says so in its row", () => {
  const rows = methodsPage().split("\n");
  for (const { title, status } of DOCUMENTED_METHODS) {
    const row = rows.find((line) => line.includes(`| ${title} |`))!;
    expect(row.includes("not checked against the Recommendation"), title).toBe(status === "from memory");
  }
});
