/** What a page leaves to the screen is there, named on paper, and in Markdown like the rest. */
import { expect, test } from "vitest";
import type { Page } from "../../shared/report/document/document.js";
import { printHtml } from "../../shared/report/document/html.js";
import { printMarkdown } from "../../shared/report/document/markdown.js";

const page: Page = {
  name: "a",
  title: "A",
  keyFigures: [],
  sections: [
    { id: "read", title: "Read", blocks: [{ type: "paragraph", text: "one" }] },
    { id: "chain", title: "Chain <1>", blocks: [{ type: "paragraph", text: "two" }], print: "left out" },
    { id: "inputs", title: "Inputs", blocks: [{ type: "paragraph", text: "three" }], print: "small" },
  ],
  colophon: "end",
};

test("a section that is left out on paper is on the screen, and paper says where it is", () => {
  const { text } = printHtml(page);
  expect(text).toContain('<section id="read">');
  expect(text).toContain('<section id="chain" class="unprinted">');
  expect(text).toContain('<section id="inputs" class="small">');
  expect(text).toContain('<p class="paper">On the screen alone: Chain &lt;1&gt;.</p>');
  expect(text).toMatch(/@media print\{[^@]*.*\.unprinted\{display:none\}/s);
  expect(printHtml({ ...page, language: "de" }).text).toContain("Nur am Bildschirm: ");
  const all = { ...page, sections: page.sections.slice(0, 1) };
  expect(printHtml(all).text).not.toContain('class="paper"');
});

test("Markdown has all of it", () => {
  const [printed] = printMarkdown(page);
  for (const said of ["one", "two", "three"]) expect(printed!.text).toContain(said);
});
