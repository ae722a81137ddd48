import { createHash } from "node:crypto";
import { expect, test } from "vitest";
import type { Page } from "../../shared/report/document/document.js";
import { FIND_HASH, FIND_SCRIPT } from "../../shared/report/document/find.js";
import { printHtml } from "../../shared/report/document/html.js";

function pageOf(rows: number): Page {
  const row = (i: number) => ({ cells: [`HOP-${i}`], find: `Site "${i}" <b>` });
  return {
    name: "index",
    title: "Network",
    keyFigures: [],
    sections: [
      {
        id: "hops",
        title: "Hops",
        blocks: [
          {
            type: "table",
            columns: [{ title: "Hop" }],
            rows: Array.from({ length: rows }, (_, i) => row(i)),
            searched: true,
          },
        ],
      },
    ],
    colophon: "",
  };
}

test("a long table can be searched by the one script that the policy lets in", () => {
  expect(FIND_HASH).toBe(`sha256-${createHash("sha256").update(FIND_SCRIPT).digest("base64")}`);
  const { text } = printHtml(pageOf(8));
  expect(text).toContain(`script-src '${FIND_HASH}'"`);
  expect(text.split("<script").length).toBe(2);
  expect(text).toContain(`<script>${FIND_SCRIPT}</script>`);
  expect(text).toContain('<tr data-find="Site &quot;3&quot; &lt;b&gt;">');
});

test("a short one has none", () => {
  const { text } = printHtml(pageOf(7));
  expect(text).not.toMatch(/<script|script-src|data-find/);
});
