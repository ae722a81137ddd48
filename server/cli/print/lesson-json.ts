import type { Lesson, LessonBlock } from "../../../shared/report/teach/lesson.js";
import { VERSION } from "../../version.js";
import { jsonText } from "./json-text.js";
import type { LessonOutput } from "./lesson-output.js";

export function lessonJson({ title, subtitle, sections }: Lesson): Iterable<string> {
  const output: LessonOutput = {
    schema: "hopwright-lesson/1",
    version: VERSION,
    title,
    subtitle,
    sections: sections.map((section) => ({ ...section, blocks: section.blocks.map(blockOutput) })),
  };
  return [`${jsonText(output, 1)}\n`];
}

/** Of rules and drawings a lesson holds more than a page says. */
function blockOutput(block: LessonBlock): LessonBlock {
  switch (block.type) {
    case "rules":
      return { type: block.type, rules: block.rules.map(({ id, title }) => ({ id, title })) };
    case "drawing": {
      const { type, svg, alt, caption } = block;
      return { type, svg, alt, caption };
    }
    default:
      return block;
  }
}
