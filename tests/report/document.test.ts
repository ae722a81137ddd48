import fc from "fast-check";
import { expect, test } from "vitest";
import { base64 } from "../../shared/format/base64.js";
import { linkFrom, type Page } from "../../shared/report/document/document.js";
import { printHtml } from "../../shared/report/document/html.js";
import { printMarkdown } from "../../shared/report/document/markdown.js";
import { coordinate } from "../../shared/report/document/markup.js";

const AWKWARD = `<script>alert("x")</script> & | *a* _b_ [c](d) \`e\` \u0007`;

const PAGE: Page = {
  name: "hops/A-B",
  title: AWKWARD,
  subtitle: AWKWARD,
  up: { text: "Up", to: { page: "index" } },
  keyFigures: [{ label: "Level", value: "-38.5", unit: "dBm", note: AWKWARD, tone: "error" }],
  sections: [
    {
      id: "s",
      title: AWKWARD,
      blocks: [
        {
          type: "paragraph",
          text: [AWKWARD, { text: AWKWARD, mark: "code" }, { text: "B", to: { page: "hops/B C" } }],
        },
        { type: "list", items: [AWKWARD] },
        { type: "facts", facts: [{ label: AWKWARD, value: "-38.5 dBm", note: AWKWARD }] },
        {
          type: "findings",
          findings: [
            {
              rule: AWKWARD,
              severity: "error",
              message: AWKWARD,
              help: AWKWARD,
              where: AWKWARD,
              accepted: { reason: AWKWARD },
            },
          ],
        },
        {
          type: "table",
          caption: AWKWARD,
          columns: [{ title: AWKWARD }],
          rows: [{ cells: [AWKWARD], emphasis: true }],
        },
        {
          type: "figure",
          name: "map",
          svg: '<svg viewBox="0 0 1 1"></svg>',
          alt: `${AWKWARD} $& $1`,
          caption: AWKWARD,
        },
      ],
    },
  ],
  colophon: AWKWARD,
};

test("nothing of a design becomes markup of a page", () => {
  const { path, text } = printHtml(PAGE);
  // Held by the browser too: no script, picture or form, whatever text got past the escapes.
  expect(text).toContain(`<meta http-equiv="Content-Security-Policy" content="default-src 'none';`);
  expect(path).toBe("hops/A-B.html");
  expect(text).not.toMatch(/<script|alert\("|\u0007/);
  expect(text).toContain("&lt;script&gt;");
  expect(text).toContain("$&amp; $1");
});

test("an HTML page needs no other file and no script", () => {
  const { text } = printHtml(PAGE);
  expect(text).not.toMatch(/<script|<link|<img|@import|url\(|https?:\/\//);
});

test("figures are set with a true minus and keep their unit", () => {
  expect(printHtml(PAGE).text).toContain("\u221238.5\u00a0dBm");
  // Names keep their hyphen.
  expect(printHtml(PAGE).text).not.toContain("A\u2212B");
});

test("Markdown shows awkward text as it is, and tables keep their columns", () => {
  const [page, drawing] = printMarkdown(PAGE);
  expect(page!.text).toContain("\\<script\\>");
  const outsideCode = page!.text.replace(/(?<!\\)`[^`]*`/g, "");
  expect(outsideCode).not.toMatch(/(?<!\\)\*a\*|(?<!\\)\[c\]/);
  const rows = page!.text.split("\n").filter((line) => line.startsWith("|"));
  for (const row of rows.slice(-3)) expect(row.match(/(?<!\\)\|/g)).toHaveLength(2);
  expect(drawing!.path).toBe("hops/A-B-map.svg");
  expect(drawing!.text).toMatch(/^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg"/);
  expect(page!.text).toContain("](A-B-map.svg)");
});

test.each([
  ["index", "hops/A", "hops/A.md"],
  ["hops/A", "index", "../index.md"],
  ["hops/A", "hops/B C", "B%20C.md"],
  ["one/hops/A", "one/index", "../index.md"],
  ["one/index", "index", "../index.md"],
])("from %s to %s leads %s", (from, to, link) => {
  expect(linkFrom(from, to, ".md")).toBe(link);
});

test("a coordinate that is no number is a fault, not a drawing", () => {
  expect(coordinate(-0.04)).toBe("0");
  expect(coordinate(12.34)).toBe("12.3");
  expect(() => coordinate(Number.NaN)).toThrow(RangeError);
});

test("a bound keeps its figure, so that no line ends in a lone sign", () => {
  const page: Page = { ...PAGE, title: "T", keyFigures: [{ label: "Rain", value: "≤ 0.001 %" }] };
  expect(printHtml(page).text).toContain("≤\u00a00.001\u00a0%");
  const less: Page = { ...PAGE, title: "T", keyFigures: [{ label: "Rain", value: "< 0.001 %" }] };
  expect(printHtml(less).text).toContain("&lt;\u00a00.001\u00a0%");
});

/** A page of one section with a table of so many columns and rows. */
function tablePage(columns: number, rows: number): string {
  const titles = Array.from({ length: columns }, (_, i) => ({ title: `<C${i}>` }));
  const cells = titles.map(() => "x");
  const table = {
    type: "table",
    columns: titles,
    rows: Array.from({ length: rows }, () => ({ cells })),
  } as const;
  const blocks = [{ type: "paragraph", text: "Before." } as const, table];
  return printHtml({ ...PAGE, title: "T", sections: [{ id: "s", title: "S", blocks }] }).text;
}

test("on a narrow screen the rows of a wide table are cards that name their cells; a long list is none", () => {
  expect(tablePage(5, 2)).toContain('<table class="cards">');
  expect(tablePage(5, 2)).toContain('<td data-label="&lt;C4&gt;">x</td>');
  expect(tablePage(4, 2)).not.toContain("data-label=");
  expect(tablePage(5, 61)).not.toContain("data-label=");
});

test("on paper a heading keeps with the first thing below it, unless that is long enough to be broken itself", () => {
  const lead = (text: string) => /<div class="lead">([\s\S]*?)\n<\/div>/.exec(text)![1]!;
  expect(lead(tablePage(3, 10))).toMatch(/^\s*<h2>S<\/h2>\n<p>Before\.<\/p>\n<div class="scroll"><table>/);
  expect(lead(tablePage(3, 11))).not.toContain("<table");
  expect(tablePage(3, 11)).toContain('<div class="scroll long"><table>');
});

test("head and foot of those who hand a page out: a picture is embedded, and only then may the page show any", () => {
  const bytes = Uint8Array.from({ length: 64 }, (_, at) => (at * 37) % 256);
  const logo = { type: "image/png", bytes, widthPx: 4, heightPx: 2, alt: AWKWARD } as const;
  const letterhead = { name: AWKWARD, logo, head: [AWKWARD], foot: [AWKWARD] };
  const { text } = printHtml({ ...PAGE, letterhead, paper: { size: "A4" } });
  expect(text).not.toContain("<script>alert");
  expect(text).toContain(`src="data:image/png;base64,${Buffer.from(bytes).toString("base64")}"`);
  expect(text).toContain("img-src data:");
  expect(text).toContain("@page{size:A4}");
  expect(printHtml({ ...PAGE, letterhead: { head: [], foot: [] } }).text).toBe(printHtml(PAGE).text);
  expect(printHtml(PAGE).text).not.toContain("img-src");
  const markdown = printMarkdown({ ...PAGE, letterhead })[0]!.text;
  const lines = markdown.split("\n\n");
  expect(lines[0]).toContain("alert");
  // Name, line at the head; behind all sections the line at the foot.
  for (const line of [...lines.slice(0, 3), ...lines.slice(-3)]) expect(line).not.toMatch(/(?<!\\)</);
});

test("bytes as text are those of RFC 4648, of every length of the last group", () => {
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 40 }), (bytes) => {
      expect(base64(bytes)).toBe(Buffer.from(bytes).toString("base64"));
    }),
  );
});
