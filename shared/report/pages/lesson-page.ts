/** An entry of the catalogue as a page of the report. */
import type { Block, Page } from "../document/document.js";
import type { Lesson, LessonBlock } from "../teach/lesson.js";

export interface LessonPageInput {
  readonly name: string;
  readonly lesson: Lesson;
  readonly up?: { readonly text: string; readonly page: string };
  readonly colophon: string;
}

export function lessonPage({ name, lesson, up, colophon }: LessonPageInput): Page {
  return {
    name,
    title: lesson.title,
    subtitle: lesson.subtitle,
    up: up && { text: up.text, to: { page: up.page } },
    keyFigures: [],
    sections: lesson.sections.map(({ title, blocks }, index) => ({
      id: `part-${index + 1}`,
      title,
      blocks: blocks.map(blockOf),
    })),
    colophon,
  };
}

function blockOf(block: LessonBlock): Block {
  switch (block.type) {
    case "paragraph":
    case "list":
      return block;
    case "table":
      return {
        type: "table",
        columns: block.columns.map((title) => ({ title })),
        rows: block.rows.map((cells) => ({ cells })),
      };
    case "rules":
      return {
        type: "list",
        items: block.rules.map(({ id, title }) => [{ text: id, mark: "code" }, `: ${title}`]),
      };
    case "design":
      return { type: "paragraph", text: { text: block.text, mark: "code" } };
    case "drawing":
      return { type: "figure", name: "part", svg: block.svg, alt: block.alt, caption: block.caption };
  }
}

/** Entries of a catalogue by their kind, each with its page. */
export interface CatalogueEntry {
  readonly kind: string;
  readonly name: string;
  readonly title?: string;
  readonly page: string;
}

export function cataloguePage({
  name,
  entries,
  up,
  colophon,
}: Omit<LessonPageInput, "lesson"> & { readonly entries: readonly CatalogueEntry[] }): Page {
  return {
    name,
    title: "Catalogue",
    subtitle: "What each entry is, where it fits, and what judges it",
    up: up && { text: up.text, to: { page: up.page } },
    keyFigures: [],
    sections: [
      {
        id: "entries",
        title: "Entries",
        blocks: [
          {
            type: "paragraph",
            text: "What this design uses of its catalogue; hopwright explain tells the same of every other entry.",
          },
          {
            type: "table",
            searched: true,
            columns: [{ title: "Kind" }, { title: "Entry" }, { title: "Title" }],
            rows: entries.map(({ kind, name: entry, title, page }) => ({
              cells: [kind, { text: entry, to: { page } }, title ?? ""],
            })),
          },
        ],
      },
    ],
    colophon,
  };
}
