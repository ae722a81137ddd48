/** The property table is whole, its examples are read without a problem, and what is made from it is current. */
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { readFacts } from "../../language/facts/read.js";
import { alternatives, PROPERTIES } from "../../language/schema/index.js";
import { parse } from "../../language/syntax/parse.js";
import { generatedFiles } from "../../server/docs/files.js";

const ROOT = join(import.meta.dirname, "../..");

describe("the property table", () => {
  it.each(PROPERTIES.map((property) => [`${property.name} in ${property.in.join(", ")}`, property] as const))(
    "%s",
    (_, property) => {
      expect(property.meaning).toMatch(/\.$/);
      expect(property.source).not.toBe("");
      for (const arg of property.args) expect(arg.meaning, arg.name).toMatch(/\.$/);
      for (const context of property.in) {
        const example = property.example.endsWith("{") ? `${property.example}\n}` : property.example;
        const tree = parse(example);
        expect(tree.problems).toEqual([]);
        expect(readFacts(tree.statements, context).problems, `${example} in ${context}`).toEqual([]);
      }
    },
  );

  it("has positional arguments that cannot be taken for a label of the same line", () => {
    for (const { name, args } of PROPERTIES) {
      const labels = args.flatMap(({ label }) => label?.split(" ")[0] ?? []);
      const choices = args.flatMap((arg) =>
        alternatives(arg).flatMap((spec) => (spec.type === "word" ? Object.keys(spec.words) : [])),
      );
      expect(
        choices.filter((choice) => labels.includes(choice)),
        name,
      ).toEqual([]);
    }
  });
});

describe("generated files", () => {
  it.each([...generatedFiles()])("%s is current", (path, content) => {
    const at = join(ROOT, path);
    expect(existsSync(at) ? readFileSync(at, "utf8") : "missing; run `npm run docs`").toBe(content);
  });
});
