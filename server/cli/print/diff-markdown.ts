import type { Page } from "../../../shared/report/document/document.js";
import { printMarkdown } from "../../../shared/report/document/markdown.js";
import { changePages } from "../../report/diff-pages.js";
import type { DiffFormat } from "./format.js";

export const diffMarkdown: DiffFormat = {
  name: "markdown",
  what: "a page for a comment on a change",
  print: async (compared) => printPages(await changePages(compared, { drawings: false })),
};

function* printPages(pages: readonly Page[]): Iterable<string> {
  for (const [index, page] of pages.entries()) {
    if (index > 0) yield "\n";
    yield printMarkdown(page)[0]!.text;
  }
}
