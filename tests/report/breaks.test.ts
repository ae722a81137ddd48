/** No word of somebody's makes a page or a column wider than its room: every long one breaks. */
import fc from "fast-check";
import { expect, test } from "vitest";
import type { Page } from "../../shared/report/document/document.js";
import { printHtml } from "../../shared/report/document/html.js";
import { PAGE } from "./pdf/random-pages.js";

/** Letters that stand together in what a browser shows, as it breaks lines: at blanks, and where it is told. */
function longestRun(html: string): number {
  const body = html.slice(html.indexOf("<body>")).replace(/<svg.*?<\/svg>|<script.*?<\/script>/gs, " ");
  const texts = body.split(/<[^>]*>/).map((text) => text.replace(/&[#a-z0-9]+;/g, "x"));
  return Math.max(
    ...texts.flatMap((text) => text.split(/[ \t\n]|(?<=-)(?=\p{L})/u)).map((run) => run.length),
  );
}

const page = (word: string): Page => ({
  name: "p",
  title: word,
  subtitle: word,
  running: word,
  letterhead: { name: word, head: [word], foot: [word] },
  keyFigures: [],
  sections: [
    {
      id: "s",
      title: word,
      blocks: [
        { type: "paragraph", text: word },
        { type: "list", items: [word] },
        { type: "cautions", items: [word] },
        { type: "facts", facts: [{ label: word, value: word, note: word }] },
        { type: "form", fields: [{ label: word, expected: word, value: word, unit: word, wide: true }] },
        { type: "signatures", places: [{ role: word, fields: [word] }] },
        { type: "contents", entries: [{ id: "s", title: word }] },
        {
          type: "table",
          caption: word,
          columns: Array.from({ length: 10 }, () => ({ title: word })),
          rows: [{ cells: [word, { text: word, mark: "strong" }] }],
        },
      ],
    },
  ],
  colophon: word,
});

const WORD = fc.oneof(
  fc.string({ minLength: 1, maxLength: 600 }),
  fc.string({ unit: "binary", minLength: 300, maxLength: 600 }),
  fc.constantFrom(
    "W".repeat(500),
    "1-".repeat(250),
    "a/".repeat(250),
    "e\u0301".repeat(250),
    "\u00a0".repeat(300),
  ),
);

test("whatever a word is, a line of the page breaks in it", () => {
  fc.assert(
    fc.property(WORD, (word) => {
      // A mark stands above its letter: as many as there are belong to it, and take no room.
      if (/\p{M}{3}/u.test(word)) return;
      expect(longestRun(printHtml(page(word)).text)).toBeLessThanOrEqual(28);
    }),
  );
});

test("breaks change no letter, and shorter words stay whole", () => {
  fc.assert(
    fc.property(PAGE, (one) => {
      const { text } = printHtml(one);
      expect(text.replaceAll("<wbr>", "")).not.toContain("wbr");
    }),
    { numRuns: 20 },
  );
  const shown = printHtml(page("Überspannungsableiterprüfung LARKHOWE-GULLSCAR-OSTREL-MOSS-TARN")).text;
  expect(shown).not.toContain("<wbr>");
  expect(printHtml(page("x".repeat(40))).text.replaceAll("<wbr>", "")).toContain(`<p>${"x".repeat(40)}</p>`);
});
