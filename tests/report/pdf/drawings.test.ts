/** Drawings in a PDF have their whole paint in attributes, from the one table that the style sheet is made of. */
import { join } from "node:path";
import { beforeAll, expect, test } from "vitest";
import { judgeFolder } from "../../../server/findings/judged-folder.js";
import { demandsOf, overviewOf, pageOfHop, pagesOfSites } from "../../../server/report/design-pages.js";
import type { Block, Page } from "../../../shared/report/document/document.js";
import { paintOf } from "../../../shared/report/document/drawing-paint.js";
import { PRINT } from "../../../shared/report/document/palette.js";
import { drawingNode, painted } from "../../../shared/report/document/pdf/drawing.js";

const TODAY = "2026-01-01";
/** Of every kind, from the samples. */
const drawings: string[] = [];

function drawnIn(block: Block): string[] {
  if (block.type === "figure") return [block.svg];
  return block.type === "pair" ? block.sides.flat().flatMap(drawnIn) : [];
}

beforeAll(async () => {
  for (const sample of ["eskerfold", "learning"]) {
    const folder = join(import.meta.dirname, "../../../samples", sample);
    const [design] = (await judgeFolder(folder, { today: TODAY })).designs;
    const options = { folder: "", today: TODAY };
    const pages: (Page | undefined)[] = [
      overviewOf(design!, options),
      demandsOf(design!, options),
      ...pagesOfSites(design!, options),
    ];
    for (const name of design!.model.names("hop")) pages.push(await pageOfHop(design!, name, options));
    for (const page of pages)
      drawings.push(...(page?.sections ?? []).flatMap(({ blocks }) => blocks.flatMap(drawnIn)));
  }
});

const TAG = /<([a-z]+)((?:\s+[\w:-]+="[^"]*")*)\s*\/?>/g;
const attribute = (text: string, name: string) => new RegExp(` ${name}="([^"]*)"`).exec(text)?.[1];

/** They change no paint: what stands in attributes already, or only shows on a screen. */
const WITHOUT_PAINT = new Set(["system", "whole", "proposed", "structure"]);

test("each class of a drawing changes the paint of what has it", () => {
  const elements = new Set(drawings.flatMap((svg) => svg.match(/<[a-z]+[^>]* class="[^"]*"/g) ?? []));
  const painting = new Set<string>();
  const used = new Set<string>();
  for (const element of elements) {
    const name = /<([a-z]+)/.exec(element)![1]!;
    const classes = attribute(element, "class")!.split(" ");
    const whole = JSON.stringify(paintOf(name, classes));
    for (const one of classes) {
      used.add(one);
      const others = classes.filter((other) => other !== one);
      if (JSON.stringify(paintOf(name, others)) !== whole) painting.add(one);
    }
  }
  expect(used.size).toBeGreaterThan(30);
  expect([...used].filter((one) => !painting.has(one) && !WITHOUT_PAINT.has(one))).toEqual([]);
});

test("no class, style or variable is left, and every shape and word says its colour", () => {
  expect(drawings.length).toBeGreaterThan(60);
  for (const svg of drawings) {
    const print = painted(svg);
    expect(print).not.toMatch(/ class=|<style|var\(--|data-at|<title|@media| style=/);
    expect(/<svg[^>]*>/.exec(print)![0]).not.toMatch(/ (width|height)=/);
    for (const [whole, name, text] of print.matchAll(TAG)) {
      if (name === "svg" || name === "g") continue;
      const colours = [attribute(text!, "fill"), attribute(text!, "stroke")].filter(
        (one) => one !== undefined,
      );
      expect(colours.length, whole).toBeGreaterThan(0);
      for (const colour of colours) expect(colour, whole).toMatch(/^(none|#[0-9a-f]{3}([0-9a-f]{3})?)$/);
      if (name === "text") expect(attribute(text!, "fill"), whole).not.toBe("none");
    }
  }
});

test("the words of a drawing stay as they are", () => {
  const words = (svg: string) =>
    [...svg.replace(/<title>.*?<\/title>/g, "").matchAll(/>([^<]+)</g)].map(([, one]) => one);
  for (const svg of drawings) expect(words(painted(svg))).toEqual(words(svg));
});

test("of two rules the one with more classes holds, of equal ones the later: as in a style sheet", () => {
  const print = painted(
    '<svg viewBox="0 0 9 9" class="system"><rect class="box part proposed" fill="#123456" stroke-dasharray="5 3" x="0" y="0"/><path class="hop error" d="M0 0"/><text class="quiet small" x="1" y="2">a</text></svg>',
  );
  expect(print).toContain(`fill="${PRINT.panel}" stroke-dasharray="5 3"`);
  expect(print).toContain(`stroke="${PRINT.error}"`);
  expect(attribute(/<path.*?>/.exec(print)![0], "stroke-width")).toBe("4");
  expect(attribute(/<text.*?>/.exec(print)![0], "fill")).toBe(PRINT.quiet);
  expect(attribute(/<text.*?>/.exec(print)![0], "font-size")).toBe("11");
});

test("a drawing is as large as meant, or as its room", () => {
  expect(drawingNode('<svg viewBox="0 0 96 48"></svg>', 500, 700).fit).toEqual([72, 36]);
  expect(drawingNode('<svg viewBox="0 0 960 480"></svg>', 360, 700).fit).toEqual([360, 180]);
  expect(drawingNode('<svg viewBox="0 0 100 2000"></svg>', 360, 700).fit).toEqual([35, 700]);
});
