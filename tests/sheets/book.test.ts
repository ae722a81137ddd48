/** The book of a network says what was computed of every hop, in the language asked for, and can be put in order. */
import { createHash } from "node:crypto";
import { join } from "node:path";
import { beforeAll, expect, test } from "vitest";
import { type JudgedDesign, judgeFolder } from "../../server/findings/judged-folder.js";
import { makePdf } from "../../server/pdf/make.js";
import { BOOK_SHEETS } from "../../server/sheets/book-sheets.js";
import type { Page, Table } from "../../shared/report/document/document.js";
import { printHtml } from "../../shared/report/document/html.js";
import { printMarkdown } from "../../shared/report/document/markdown.js";
import { SORT_HASH, SORT_SCRIPT } from "../../shared/report/document/sort.js";
import { ENGLISH } from "../../shared/report/sheets/words/english.js";
import { GERMAN } from "../../shared/report/sheets/words/german.js";
import type { SheetWords } from "../../shared/report/sheets/words/sheet-words.js";
import { criteriaOf } from "../../shared/rules/asked.js";
import { dense, readPdf } from "../report/pdf/read-pdf.js";

let design: JudgedDesign;
beforeAll(async () => {
  const folder = join(import.meta.dirname, "../../samples/eskerfold");
  [design] = (await judgeFolder(folder, { today: "2026-06-01" })).designs as [JudgedDesign];
});

function bookOf(words: SheetWords): Page {
  const [page] = BOOK_SHEETS.pages(design, {
    kinds: ["book"],
    words,
    folder: "",
    revision: { state: "not in git" },
  });
  return page!;
}

function tableOf(page: Page, section: string): Table {
  const { blocks } = page.sections.find(({ id }) => id === section)!;
  return blocks.find((block) => block.type === "table")!;
}

test.each([
  ["English", ENGLISH],
  ["German", GERMAN],
])("every hop in a row with what was computed, in %s", (_, words) => {
  const page = bookOf(words);
  const { rows } = tableOf(page, "hops");
  expect(rows.map(({ cells }) => cells[0])).toEqual(design.model.names("hop"));
  for (const [at, name] of design.model.names("hop").entries()) {
    const { hop, result } = design.session.result(name)!;
    const { cells } = rows[at]!;
    const [a, b] = hop.ends.map(({ site }) => site.title ?? site.name);
    expect(cells[1]).toBe(`${a} – ${b}`);
    expect(cells[2]).toBe(words.figure((result.distanceM! / 1000).toFixed(2)));
    expect(cells[6]).toBe(
      words.figure(result.geometry!.map(({ azimuthDeg }) => azimuthDeg.toFixed(2)).join(" / ")),
    );
    const verdicts = criteriaOf(hop, hop, result).map(({ verdict }) => verdict);
    const word = verdicts.includes("missed") ? "missed" : verdicts.includes("open") ? "open" : "met";
    expect(cells[9]).toMatchObject({ text: words.book.verdicts[word] });
  }
  expect(tableOf(page, "demands").rows.length).toBe(design.session.demands()!.demands.size);
  expect(tableOf(page, "sites").rows.length).toBe(design.model.design().sites.size);
});

test("missed objectives stand with what they miss", () => {
  const rows = tableOf(bookOf(ENGLISH), "objectives").rows.map(({ cells }) => cells);
  expect(rows).toEqual([
    [
      "SKELHAVEN-RUDDOCK",
      "Access",
      { text: "missed", mark: "error" },
      "clearance",
      "–",
      "clearance: the chimney's only gallery is at 20 m",
    ],
  ]);
});

test("its contents lead to its sections, and the rows can be put in order by the script that the policy lets in", () => {
  expect(SORT_HASH).toBe(`sha256-${createHash("sha256").update(SORT_SCRIPT).digest("base64")}`);
  const { text } = printHtml(bookOf(GERMAN));
  expect(text).toContain(` '${SORT_HASH}'`);
  expect(text).toContain(`<script>${SORT_SCRIPT}</script>`);
  expect(text).toContain('data-find="Nach Namen suchen" data-sort>');
  const entries = [...text.matchAll(/<li><a href="#([\w-]+)">/g)].map(([, id]) => id);
  expect(entries).toEqual(["objectives", "demands", "map", "topology", "hops", "sites"]);
  for (const id of entries) expect(text).toContain(`<section id="${id}">`);
  expect(printMarkdown(bookOf(GERMAN))[0]!.text).toContain("- Funkfelder");
});

test("as PDF the contents name the side of each section", async () => {
  const { sides, active } = await readPdf((await makePdf(bookOf(ENGLISH))).bytes);
  expect(active).toEqual([]);
  const { book } = ENGLISH;
  for (const title of [book.objectives, book.map, book.topology, book.hops, book.sites]) {
    const [, contents] = dense(sides[0]!).split(dense(book.contents));
    const told = new RegExp(`${dense(title)}(\\d)`).exec(contents!)!;
    expect(sides[Number(told[1]) - 1]).toContain(title);
  }
});
