/** A comparison as one Markdown text, for a merge request. */
import type { Page } from "../../../shared/report/document/document.js";
import { printMarkdown } from "../../../shared/report/document/markdown.js";

export function* printDiffMarkdown(pages: readonly Page[]): Iterable<string> {
  for (const [index, page] of pages.entries()) {
    if (index > 0) yield "\n";
    yield printMarkdown(page)[0]!.text;
  }
}
