/** The book of a network says what was computed of every hop, in the language asked for, and can be put in order. */
import { createHash } from "node:crypto";
import { join } from "node:path";
import fc from "fast-check";
import { beforeAll, expect, test } from "vitest";
import { type JudgedDesign, judgeFolder } from "../../server/findings/judged-folder.js";
import { makePdf } from "../../server/pdf/make.js";
import { BOOK_SHEETS } from "../../server/sheets/book-sheets.js";
import { heldHop, licencesFor } from "../../shared/licence/held.js";
import { ARRANGEMENTS } from "../../shared/radio/arrangements.js";
import type { Page, Table, Tone } from "../../shared/report/document/document.js";
import { printHtml } from "../../shared/report/document/html.js";
import { printMarkdown } from "../../shared/report/document/markdown.js";
import { PAGE_WORDS } from "../../shared/report/document/page-words.js";
import { SORT_HASH, SORT_SCRIPT } from "../../shared/report/document/sort.js";
import { exceptionsSection, licencesSection } from "../../shared/report/sheets/book-lists.js";
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
  expect(entries).toEqual([
    "objectives",
    "demands",
    "exceptions",
    "licences",
    "map",
    "topology",
    "hops",
    "sites",
  ]);
  for (const id of entries) expect(text).toContain(`<section id="${id}">`);
  expect(printMarkdown(bookOf(GERMAN))[0]!.text).toContain("- Funkfelder");
});

test("what is let pass stands with reason and end, what has ended says so", () => {
  const rows = tableOf(bookOf(ENGLISH), "exceptions").rows.map(({ cells }) => cells);
  const stated = [...design.model.design().hops.values()].flatMap(({ accepts }) => accepts);
  expect(rows.length).toBe(stated.length);
  expect(rows).toContainEqual([
    "hop SKELHAVEN-RUDDOCK",
    { text: "clearance", mark: "code" },
    "the chimney's only gallery is at 20 m",
    "no end",
  ]);
  fc.assert(
    fc.property(day, day, (until, today) => {
      const [hop] = design.model.design().hops.values();
      const hops = new Map([["H", { ...hop!, name: "H", accepts: [{ rule: "clearance", until }] }]]);
      const { blocks } = exceptionsSection({ ...design.model.design(), hops }, today, GERMAN);
      const text = JSON.stringify(blocks);
      expect(text.includes("abgelaufen")).toBe(until < today);
      expect(text).toContain(GERMAN.day(until));
    }),
  );
});

const day = fc
  .date({ min: new Date("2020-01-01"), max: new Date("2040-01-01"), noInvalidDate: true })
  .map((one) => one.toISOString().slice(0, 10));

test("what is on the air without a licence is listed where licences are judged, and nowhere else", () => {
  const base = design.model.design();
  const licensed = [...base.hops.values()].map((hop) =>
    heldHop(hop, design.session.result(hop.name)?.result, licencesFor(base, hop.name), "2026-06-01"),
  );
  const open = (more: object) => licencesSection({ ...base, ...more }, licensed, ENGLISH)[0]?.blocks;
  expect(open({ licences: undefined, licenceTerms: undefined })).toBeUndefined();
  const required = open({ licenceTerms: { required: true } })!;
  const table = required.find((block) => block.type === "table")!;
  const asked = licensed.flatMap(({ hop, held }) => (hop.state?.word === "planned" ? [] : held));
  expect(table.rows.map(({ cells }) => cells.slice(0, 2))).toEqual(
    asked.filter(({ licence }) => licence === undefined).map(({ sent }) => [sent.hop, sent.site]),
  );
  expect(table.rows.length).toBeGreaterThan(0);
  expect(table.rows.length).toBeLessThan(asked.length);
});

test("the German book has no English head, state, verdict or word of a drawing", () => {
  const pages = [bookOf(ENGLISH), bookOf(GERMAN)].map((page) => printMarkdown(page));
  const [english, german] = pages.map(([page]) => page!.text.split("\n"));
  // A line of letters that is the same in both is the design's own, or a name of ours.
  const heads = (lines: readonly string[]) =>
    lines.filter((_, at) => /^\| (---|--:)/.test(lines[at + 1] ?? ""));
  expect(heads(german!).length).toBe(heads(english!).length);
  for (const [at, head] of heads(german!).entries()) expect(head).not.toBe(heads(english!)[at]);
  const drawn = pages[1]!
    .slice(1)
    .map(({ text }) => text.replace(/<style>.*?<\/style>/s, ""))
    .join("");
  const told = [...drawn.matchAll(/<(?:text|title)[^>]*>([^<]*)/g)].map(([, words]) => words!);
  const text = [...german!, ...told].join("\n");
  for (const tone of Object.keys(PAGE_WORDS.en.tones) as Tone[])
    expect(text.replaceAll("information", "")).not.toMatch(new RegExp(`\\b${PAGE_WORDS.en.tones[tone]}\\b`));
  for (const word of [
    "Figure",
    "Value",
    "| tower",
    "| roof",
    "| chimney",
    "lower 6 GHz, ",
    "planned",
    "standby at",
    "open",
  ])
    expect(text.includes(word), word).toBe(false);
  expect(text).toContain("unteres 6 GHz");
  expect(text).toContain("1,5 Gbit/s");
  expect(told).toContain("erfüllt sein Ziel");
  expect(told).toContain("verfehlt es");
  expect(told).not.toContain("ohne Ziel");
});

test("every arrangement is said in German", () => {
  for (const { name } of ARRANGEMENTS)
    for (const piece of name.split(" ").filter((one) => !/^\d\+\d$/.test(one)))
      expect(GERMAN.book.network.arrangement(piece)).not.toBe(piece);
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
