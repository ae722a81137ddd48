/** Whatever is typed, no feature throws, and what it gives out fits the text. */
import { readdirSync, readFileSync } from "node:fs";
import fc from "fast-check";
import { beforeAll, expect, test } from "vitest";
import { completionAt } from "../../../language/editor/completion.js";
import { foldingRanges } from "../../../language/editor/folding.js";
import { hoverAt } from "../../../language/editor/hover.js";
import { inlayHints } from "../../../language/editor/inlay-hints.js";
import { definitionAt, highlightsAt, referencesAt } from "../../../language/editor/navigation.js";
import { textFixes } from "../../../language/editor/quick-fixes.js";
import { prepareRename, renameAt } from "../../../language/editor/rename.js";
import { semanticTokens } from "../../../language/editor/semantic-tokens.js";
import { documentSymbols, workspaceSymbols } from "../../../language/editor/symbols.js";
import { applyEdits } from "../../../language/editor/text-range.js";
import { DesignModel } from "../../../language/model/design-model.js";
import { readSource } from "../../../language/model/source-file.js";
import { judge } from "./judged.js";

const SAMPLES = new URL("../../../samples/", import.meta.url);
const texts = new Map<string, string>();
const EDITED = [
  "eskerfold/network.hop",
  "eskerfold/sites.hop",
  "eskerfold/hops/tails.hop",
  "catalogue/feeders.hop",
  "catalogue/couplers.hop",
];

beforeAll(() => {
  for (const path of readdirSync(SAMPLES, { recursive: true, encoding: "utf8" })) {
    const name = path.replaceAll("\\", "/");
    if (name.endsWith(".hop") && !name.startsWith("learning"))
      texts.set(name, readFileSync(new URL(name, SAMPLES), "utf8"));
  }
});

function sampleModel(): DesignModel {
  const model = new DesignModel("eskerfold");
  for (const [path, text] of texts) model.setFile(readSource(path, text));
  return model;
}

/** A sample text with a stretch cut out or something wild put in, as typing leaves it, and a caret near it. */
const typed = fc.record({
  path: fc.constantFrom(...EDITED),
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  cut: fc.nat({ max: 60 }),
  whole: fc.boolean(),
  put: fc.oneof(
    fc.constantFrom(
      "",
      "\n",
      " ",
      "{",
      "}",
      '"',
      "//",
      "/*",
      "/",
      ";",
      " at ",
      "24",
      " 24 ",
      "KE",
      "template ",
      "hop X {\n  ",
      "1+1 ",
      "°",
      "\u00e9",
    ),
    fc.string({ maxLength: 8 }),
  ),
  caret: fc.integer({ min: -20, max: 20 }),
});

test("no feature throws on text as typing leaves it", () => {
  const model = sampleModel();
  const { results } = judge(model);
  fc.assert(
    fc.property(typed, ({ path, at, cut, whole, put, caret }) => {
      const original = texts.get(path)!;
      const from = Math.floor(at * original.length);
      const text = original.slice(0, from) + put + (whole ? "" : original.slice(from + cut));
      const offset = Math.max(0, Math.min(text.length, from + put.length + caret));
      model.setFile(readSource(path, text));
      const file = model.file(path)!;
      const inText = ({ start, end }: { start: number; end: number }) =>
        0 <= start && start <= end && end <= text.length;

      for (const item of completionAt(model, path, offset).items) {
        expect(
          inText(item.replace) && item.replace.start <= offset && offset <= item.replace.end,
          JSON.stringify(item),
        ).toBe(true);
        expect(text.slice(item.replace.start, item.replace.end)).not.toContain("\n");
      }
      const hover = hoverAt(model, path, offset, results);
      if (hover) expect(inText(hover) && hover.start <= offset && offset <= hover.end).toBe(true);
      if (hover) expect(hover.markdown).not.toMatch(/undefined|NaN|\[object/);
      for (const place of [
        ...definitionAt(model, path, offset),
        ...referencesAt(model, path, offset, { includeDeclaration: true }),
      ]) {
        expect(place.end).toBeLessThanOrEqual(model.file(place.file)!.text.length);
      }
      expect(highlightsAt(model, path, offset).every(inText)).toBe(true);
      prepareRename(model, path, offset);
      renameAt(model, path, offset, "RENAMED-1");
      workspaceSymbols(model, put);
      textFixes(model, path, { start: 0, end: text.length });
      const symbols = documentSymbols(file);
      expect(symbols.every((one) => inText(one) && one.name !== "")).toBe(true);
      expect(foldingRanges(file).every(inText)).toBe(true);
      const hints = inlayHints(model, path, { start: 0, end: text.length }, results);
      for (const hint of hints) expect(hint.text).not.toMatch(/undefined|NaN/);
      let end = 0;
      for (const token of semanticTokens(file)) {
        expect(token.start).toBeGreaterThanOrEqual(end);
        end = token.start + token.length;
        expect(text.slice(token.start, end)).not.toContain("\n");
      }
      model.setFile(readSource(path, original));
    }),
    { numRuns: 150 },
  );
});

test("every name of the sample can be renamed, and renaming back gives the same files", () => {
  const model = sampleModel();
  let names = 0;
  for (const path of EDITED) {
    for (const { start, name, kind } of [...model.file(path)!.declarations].map((entry) => ({
      ...entry,
      start: entry.fact.args[0]?.start ?? -1,
    }))) {
      if (start < 0 || ["network", "climate", "defaults", "terrain", "catalogue"].includes(kind)) continue;
      names++;
      const apply = (newName: string) => {
        const answer = renameAt(
          model,
          path,
          model.file(path)!.declarations.find((entry) => entry.fact.args[0]?.start === start)!.fact.args[0]!
            .end,
          newName,
        );
        if ("problem" in answer) throw new Error(`${kind} ${name}: ${answer.problem}`);
        for (const [file, edits] of Map.groupBy(answer.edits, (edit) => edit.file))
          model.setFile(readSource(file, applyEdits(model.file(file)!.text, edits)));
      };
      apply("RENAMED-1");
      for (const file of model.allFiles())
        expect(model.problemsOf(file.path).filter(({ severity }) => severity === "error")).toEqual([]);
      apply(name);
    }
  }
  expect(names).toBeGreaterThan(20);
  for (const [path, text] of texts) expect(model.file(path)!.text).toBe(text);
});
