/** A lesson as Markdown, its drawings as files beside it. */
import { standaloneSvg } from "../../shared/report/document/style.js";
import type { Lesson, LessonBlock } from "../../shared/report/teach/lesson.js";

/**
 * Files by name: the page first.
 * @param name of the page's file, without ending; its rules lie beside its own folder
 */
export function lessonPage({ title, subtitle, sections }: Lesson, name: string): ReadonlyMap<string, string> {
  const drawings = new Map<string, string>();
  const parts = [
    `# ${title}`,
    ...(subtitle === undefined ? [] : [subtitle]),
    ...sections.flatMap((section) => [
      `## ${section.title}`,
      ...section.blocks.map((block) => blockText(block, name, drawings)),
    ]),
    "All arrangements and the design that the examples stand on: [arrangements](../arrangements.md).",
  ];
  return new Map([[`${name}.md`, `${parts.join("\n\n")}\n`], ...drawings]);
}

function blockText(block: LessonBlock, name: string, drawings: Map<string, string>): string {
  switch (block.type) {
    case "paragraph":
      return block.text;
    case "list":
      return block.items.map((item) => `- ${item}`).join("\n");
    case "table":
      return [block.columns, block.columns.map(() => "---"), ...block.rows]
        .map((cells) => `| ${cells.map((cell) => cell.replaceAll("|", "\\|")).join(" | ")} |`)
        .join("\n");
    case "design":
      return `\`\`\`hop\n${block.text.trim()}\n\`\`\``;
    case "rules":
      return block.rules.map(({ id, title }) => `- [${id}](../rules/${id}.md): ${title}`).join("\n");
    case "drawing": {
      const file = `${name}.svg`;
      drawings.set(file, `${titled(withOwnStyle(standaloneSvg(block.svg)), block.alt)}\n`);
      return `![${block.alt}](${file})\n\n*${block.caption}*`;
    }
  }
}

/** Who does not see a drawing is told what it shows. */
function titled(svg: string, title: string): string {
  const safe = title.replace(/[&<>]/g, (sign) => `&#${sign.charCodeAt(0)};`);
  return svg.replace(/>/, () => `><title>${safe}</title>`);
}

/** Styles of what the drawing does not hold are left out: they are most of its text, and change for others' sake. */
function withOwnStyle(svg: string): string {
  const used = new Set([...svg.matchAll(/ class="([^"]*)"/g)].flatMap(([, names]) => names!.split(" ")));
  return svg
    .replace(/svg [a-z]*\.([\w-]+)[^{}\n]*\{[^{}]*\}/g, (rule, name: string) => (used.has(name) ? rule : ""))
    .replace(/\n{2,}/g, "\n");
}
