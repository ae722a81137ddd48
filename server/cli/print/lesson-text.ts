/** Lessons for the terminal: what their pages say, but for the drawings. */
import type { Lesson, LessonBlock } from "../../../shared/report/teach/lesson.js";
import type { Paint } from "../streams.js";
import { safe } from "./safe.js";
import { wrapped } from "./wrap.js";

const WIDTH = 78;

export function* lessonText({ title, subtitle, sections }: Lesson, paint: Paint): Iterable<string> {
  yield `${paint("bold", safe(title))}\n`;
  if (subtitle !== undefined) yield `${wrapped(safe(subtitle), WIDTH)}\n`;
  for (const section of sections) {
    yield `\n${paint("bold", section.title)}\n`;
    for (const block of section.blocks) yield* blockText(block);
  }
}

function* blockText(block: LessonBlock): Iterable<string> {
  switch (block.type) {
    case "paragraph":
      yield `${wrapped(safe(block.text), WIDTH - 2, "  ")}\n`;
      break;
    case "list":
      for (const item of block.items) yield hung(safe(item));
      break;
    case "rules":
      for (const { id, title } of block.rules) yield hung(`${id}: ${title}`);
      break;
    case "table":
      yield* tableText(block.columns, block.rows);
      break;
    case "design":
      yield `${block.text.trim().replace(/^/gm, "  ")}\n`;
      break;
    case "drawing":
      break;
  }
}

/** Further lines stand under the text, not under its sign. */
function hung(text: string): string {
  return `${wrapped(text, WIDTH - 4, "    ").replace("    ", "  - ")}\n`;
}

function* tableText(columns: readonly string[], rows: readonly (readonly string[])[]): Iterable<string> {
  const widths = columns.map((title, index) =>
    Math.max(title.length, ...rows.map((row) => row[index]?.length ?? 0)),
  );
  // A cell that is a sentence ends the row, and goes on below itself.
  const before = widths.slice(0, -1).reduce((sum, width) => sum + width + 2, 2);
  const last = Math.max(20, WIDTH - before);
  for (const row of [columns, ...rows]) {
    const start = row.slice(0, -1).map((cell, index) => safe(cell).padEnd(widths[index]! + 2));
    const end = wrapped(safe(row.at(-1) ?? ""), last, " ".repeat(before)).trimStart();
    yield `  ${start.join("")}${end}`.trimEnd().concat("\n");
  }
}
