/** The printed Markdown as a Markdown library reads it. */
import { fileURLToPath } from "node:url";
import MarkdownIt from "markdown-it";
import { expect, test } from "vitest";
import { judgeFolder } from "../../server/findings/judged-folder.js";
import { overviewOf, pageOfHop, pagesOfSites, partsOf } from "../../server/report/design-pages.js";
import type { Page } from "../../shared/report/document/document.js";
import { printMarkdown } from "../../shared/report/document/markdown.js";

const SAMPLES = fileURLToPath(new URL("../../samples/", import.meta.url));
const markdown = new MarkdownIt({ html: false });

interface Read {
  readonly texts: readonly string[];
  readonly codes: readonly string[];
  readonly emphases: number;
}

function read(page: Page): Read {
  const texts: string[] = [];
  const codes: string[] = [];
  let emphases = 0;
  for (const { children } of markdown.parse(printMarkdown(page)[0]!.text, {})) {
    // Backslashes that stand for a sign come as tokens of their own; a text is what stands between marks.
    let text = "";
    for (const token of children ?? []) {
      if (token.type === "text" || token.type === "text_special") text += token.content;
      else {
        texts.push(text);
        text = "";
        if (token.type === "code_inline") codes.push(token.content);
        if (token.type === "em_open") emphases++;
      }
    }
    texts.push(text);
  }
  return { texts, codes, emphases };
}

test.each(["eskerfold", "learning"])(
  "nothing of the markup of the report of %s is left over",
  async (name) => {
    const [design] = (await judgeFolder(`${SAMPLES}${name}`, { today: "2026-11-01" })).designs;
    const options = { folder: "", today: "2026-11-01" };
    const hops = await Promise.all(design!.model.names("hop").map((hop) => pageOfHop(design!, hop, options)));
    const sites = [...pagesOfSites(design!, options)];
    expect(sites.length).toBeGreaterThan(5);
    const pages = [overviewOf(design!, options), partsOf(design!, options), ...hops, ...sites] as Page[];
    expect(pages.length).toBeGreaterThan(5);
    for (const page of pages) {
      const { texts } = read(page);
      for (const text of texts) expect(text, page.name).not.toMatch(/[*`\\|]|__|^#/);
    }
    expect(read(pages[2]!).emphases).toBeGreaterThan(5);
  },
);

test("words of the language in a sentence are code, and quiet words beside a comma are emphasized", () => {
  const page: Page = {
    name: "p",
    title: "P",
    keyFigures: [],
    sections: [
      {
        id: "s",
        title: "S",
        blocks: [
          {
            type: "findings",
            findings: [
              { rule: "default-inputs", severity: "info", message: "k is assumed", help: "State `k` there." },
            ],
          },
          { type: "paragraph", text: ["design", { text: ", of both *sites*", mark: "quiet" }] },
        ],
      },
    ],
    colophon: "",
  };
  const found = read(page);
  expect(found.codes).toEqual(["default-inputs", "k"]);
  expect(found.texts).toContain("of both *sites");
  expect(found.emphases).toBe(1);
});
