/** Prints a page as Markdown with tables, its drawings as SVG files beside it. */
import { withoutSteering } from "../../format/steering.js";
import {
  type Block,
  type Column,
  type Inline,
  linkFrom,
  type Page,
  type PrintedFile,
  type ReportFinding,
  type Span,
  sentence,
  spansOf,
  type Table,
} from "./document.js";
import { wordsOf } from "./page-words.js";
import { standaloneSvg } from "./style.js";

/** @returns the page first, then the drawings that it shows */
export function printMarkdown(page: Page): PrintedFile[] {
  const drawings: PrintedFile[] = [];
  const { name, head = [], foot = [] } = page.letterhead ?? {};
  const parts = name === undefined ? [] : [`**${escaped(name)}**`];
  parts.push(...head.map(escaped), `# ${escaped(page.title)}`);
  if (page.up) parts.push(`[${escaped(page.up.text)}](${linkFrom(page.name, page.up.to.page, ".md")})`);
  if (page.subtitle !== undefined) parts.push(escaped(page.subtitle));
  if (page.keyFigures.length > 0) parts.push(tableText(keyTable(page), page));
  for (const { title, blocks } of page.sections) {
    parts.push(`## ${escaped(title)}`, ...blocks.flatMap((block) => blockText(block, page, drawings)));
  }
  const running = page.running === undefined ? [] : [escaped(page.running)];
  parts.push(...foot.map(escaped), "---", ...running, escaped(page.colophon));
  return [{ path: `${page.name}.md`, text: `${parts.join("\n\n")}\n` }, ...drawings];
}

function keyTable(page: Page): Table {
  const { keyFigures: figures } = page;
  const { tones, keyHeads } = wordsOf(page);
  const rows = figures.map(({ label, value, unit, note, tone }) => ({
    cells: [
      label,
      unit === undefined ? value : `${value} ${unit}`,
      note ?? "",
      tone === undefined ? "" : tones[tone],
    ],
  }));
  // Without a title a column of nothing would stand there on a page where nothing stands out.
  const toned = figures.some(({ tone }) => tone !== undefined);
  const titles = keyHeads.slice(0, toned ? 4 : 3);
  return {
    type: "table",
    columns: titles.map((title) => ({ title })),
    rows: rows.map(({ cells }) => ({ cells: cells.slice(0, titles.length) })),
  };
}

function blockText(block: Block, page: Page, drawings: PrintedFile[]): string[] {
  switch (block.type) {
    case "paragraph":
      return [inline(block.text, page)];
    case "list":
      return [block.items.map((item) => `- ${inline(item, page)}`).join("\n")];
    case "facts":
      return [
        block.facts
          .map(
            ({ label, value, note }) =>
              `- ${escaped(label)}: ${inline(value, page)}${note === undefined ? "" : ` (${escaped(note)})`}`,
          )
          .join("\n"),
      ];
    case "findings":
      return [block.findings.map((finding) => findingText(finding, page)).join("\n")];
    case "form":
      return [
        block.fields
          .map(({ label, expected, unit, value }) => {
            const about = expected === undefined ? "" : ` (${escaped(expected)})`;
            const behind = unit === undefined ? "" : ` ${escaped(unit)}`;
            return `- ${escaped(label)}${about}: ${value === undefined ? BLANK : escaped(value)}${behind}`;
          })
          .join("\n"),
      ];
    case "signatures":
      return block.places.flatMap(({ role, fields }) => [
        `**${escaped(role)}**`,
        fields.map((field) => `- ${escaped(field)}: ${BLANK}`).join("\n"),
      ]);
    case "cautions":
      return [block.items.map((item) => `- ⚠ ${inline(item, page)}`).join("\n")];
    case "contents":
      return [block.entries.map(({ title }) => `- ${escaped(title)}`).join("\n")];
    case "pair":
      return block.sides.flat().flatMap((one) => blockText(one, page, drawings));
    case "table":
      return block.caption === undefined
        ? [tableText(block, page)]
        : [`**${escaped(block.caption)}**`, tableText(block, page)];
    case "figure": {
      const path = `${page.name}-${block.name}.svg`;
      drawings.push({ path, text: standaloneSvg(block.svg) });
      const file = encodeURIComponent(path.split("/").at(-1)!.toWellFormed());
      const picture = `![${escaped(block.alt)}](${file})`;
      return block.caption === undefined ? [picture] : [picture, `*${escaped(block.caption)}*`];
    }
  }
}

/** Where somebody writes. */
const BLANK = "…………………………";

function findingText(
  { rule, severity, message, help, where, hop, accepted }: ReportFinding,
  page: Page,
): string {
  const words = wordsOf(page);
  const tone = accepted ? "accepted" : severity;
  const on = hop === undefined ? "" : ` ${escaped(hop)}:`;
  const lines = [`- **${words.tones[tone]}** \`${code(rule)}\`${on} ${inline(sentence(message), page)}`];
  if (accepted) lines.push(`  ${escaped(words.accepted(accepted.reason, accepted.until))}`);
  if (help !== undefined) lines.push(`  ${inline(sentence(help), page)}`);
  if (where !== undefined) lines.push(`  ${words.at} \`${code(where)}\``);
  return lines.join("  \n");
}

function tableText({ columns, rows }: Table, page: Page): string {
  const line = (cells: readonly string[]) => `| ${cells.join(" | ")} |`;
  const rule = ({ align }: Column) => (align === "right" ? "--:" : "---");
  return [
    line(columns.map(({ title }) => escaped(title))),
    line(columns.map(rule)),
    ...rows.map(({ cells, emphasis }) => {
      return line(cells.map((cell) => (emphasis ? strong(inline(cell, page)) : inline(cell, page))));
    }),
  ].join("\n");
}

function strong(text: string): string {
  return text === "" || text.includes("**") ? text : `**${text}**`;
}

function inline(text: Inline, page: Page): string {
  const spans = spansOf(text);
  return spans.map((span) => spanText(span, page, spans.length > 1)).join("");
}

/** @param amid quiet words stand out from others around them, and not when they stand alone */
function spanText(span: Span, page: Page, amid: boolean): string {
  if (typeof span === "string") return escaped(span);
  const { text, mark, to } = span;
  const marked =
    mark === "strong"
      ? emphasized(text, "**")
      : mark === "code"
        ? `\`${code(text)}\``
        : mark === "quiet" && amid
          ? emphasized(text, "*")
          : escaped(text);
  return to === undefined ? marked : `[${marked}](${linkFrom(page.name, to.page, ".md")})`;
}

/** Signs and blanks at either end stay outside: between a letter and a comma Markdown reads no emphasis. */
function emphasized(text: string, sign: "*" | "**"): string {
  const [, before = "", words = "", after = ""] =
    /^([^\p{L}\p{N}]*)(.*?)([^\p{L}\p{N}]*)$/su.exec(text) ?? [];
  return words === "" ? escaped(text) : `${escaped(before)}${sign}${escaped(words)}${sign}${escaped(after)}`;
}

/** Whatever Markdown would read as a sign of its own; one line. */
function escaped(text: string): string {
  return inOneLine(text)
    .replace(/[\\`*_[\]<>|~#&]/g, "\\$&")
    .replace(/^(\d+)([.)] )/, "$1\\$2")
    .replace(/^[-+] /, "\\$&");
}

function code(text: string): string {
  return inOneLine(text).replace(/[`|]/g, "'");
}

function inOneLine(text: string): string {
  return withoutSteering(text, () => " ").replace(/ {2,}/g, " ");
}
