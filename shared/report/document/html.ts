/**
 * Prints a page as one self-contained HTML file: no second file, readable on paper and by screen readers, and no script
 * but the one that narrows a long table of names (`find.ts`).
 */
import { withoutSteering } from "../../format/steering.js";
import { breakable } from "./breaks.js";
import {
  type Block,
  type Fact,
  type Figure,
  type FormField,
  type Inline,
  type KeyFigure,
  linkFrom,
  type Page,
  type PrintedFile,
  type ReportFinding,
  type Section,
  type SigningPlace,
  type Span,
  sentence,
  spansOf,
  type Table,
} from "./document.js";
import { FIND_HASH, FIND_SCRIPT } from "./find.js";
import { footLines, letterheadHtml, paperStyle } from "./letterhead.js";
import { escaped as escapedAsIs } from "./markup.js";
import { wordsOf } from "./page-words.js";
import { SORT_HASH, SORT_SCRIPT } from "./sort.js";
import { STYLE } from "./style.js";
import { typeset } from "./typeset.js";

/** A page is text, drawings and one style sheet: whatever a name smuggled in, nothing runs, loads or is sent. */
const POLICY = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'";

export function printHtml(page: Page): PrintedFile {
  const scripts = [
    ...(has(page, canBeSearched) ? [{ hash: FIND_HASH, script: FIND_SCRIPT }] : []),
    ...(has(page, canBeSorted) ? [{ hash: SORT_HASH, script: SORT_SCRIPT }] : []),
  ];
  const policy = [
    POLICY,
    ...(scripts.length > 0 ? [`script-src ${scripts.map(({ hash }) => `'${hash}'`).join(" ")}`] : []),
    ...(page.letterhead?.logo ? ["img-src data:"] : []),
  ].join("; ");
  const text = `<!doctype html>
<html lang="${page.language ?? "en"}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="color-scheme" content="light dark">
<title>${escaped(page.running === undefined ? page.title : `${page.title} · ${page.running}`)}</title>
<style>${STYLE}${paperStyle(page.paper)}${runningStyle(page.running)}</style>
</head>
<body>
${htmlBody(page)}
${scripts.map(({ script }) => `<script>${script}</script>\n`).join("")}</body>
</html>
`;
  return { path: `${page.name}.html`, text };
}

/**
 * The running title and the number of each printed side, in the margin where the browser has boxes there. Others print the
 * title of the page in theirs, which holds the same.
 */
function runningStyle(running: string | undefined): string {
  if (running === undefined) return "";
  // Whatever is no plain letter goes in by its number, so that no name can end the string or the style sheet.
  const text = withoutSteering(running, () => " ").replace(
    /[^A-Za-z0-9 ]/gu,
    (sign) => `\\${sign.codePointAt(0)!.toString(16)} `,
  );
  return `@media print{@page{@bottom-left{content:"${text}"}@bottom-right{content:counter(page) " / " counter(pages)}}}`;
}

function leftOutOnPaper(page: Page): string {
  const titles = page.sections.flatMap(({ title, print }) => (print === "left out" ? [title] : []));
  return titles.length === 0
    ? ""
    : `<p class="paper">${wordsOf(page).leftOut}: ${shown(titles.join(", "))}.</p>`;
}

/** Of fewer rows everybody sees all. */
const FEWEST_SEARCHED = 8;

function has(page: Page, such: (block: Block) => boolean): boolean {
  return page.sections.some(({ blocks }) => blocks.some(such));
}

function canBeSorted(block: Block): boolean {
  return block.type === "table" && block.sorted === true && block.rows.length > 1;
}

function canBeSearched(block: Block): boolean {
  return block.type === "table" && block.searched === true && block.rows.length >= FEWEST_SEARCHED;
}

/** What stands between the tags of the body, for hosts that have a frame of their own. */
function htmlBody(page: Page): string {
  const up = page.up
    ? `<nav><a href="${href(page, page.up.to.page)}">${shown(page.up.text)}</a></nav>\n`
    : "";
  const subtitle = page.subtitle === undefined ? "" : `<p class="subtitle">${shown(page.subtitle)}</p>\n`;
  return `<main>
<header>
${letterheadHtml(page.letterhead)}${up}<h1>${shown(page.title)}</h1>
${subtitle}</header>
${keyFigures(page.keyFigures)}
${page.sections.map((section) => sectionHtml(section, page)).join("\n")}
${footLines(page.letterhead)}<footer>${leftOutOnPaper(page)}${page.running === undefined ? "" : `<p class="running">${shown(page.running)}</p>`}${shown(page.colophon)}</footer>
</main>`;
}

function keyFigures(figures: readonly KeyFigure[]): string {
  if (figures.length === 0) return "";
  const items = figures.map(({ label, value, unit, note, tone }) => {
    const toneClass = tone === undefined ? "" : ` class="${tone}"`;
    const unitText = unit === undefined ? "" : ` <small>${shown(unit)}</small>`;
    const noteText = note === undefined ? "" : `<dd class="note">${shown(note)}</dd>`;
    return `<div${toneClass}><dt>${shown(label)}</dt><dd>${shown(value)}${unitText}</dd>${noteText}</div>`;
  });
  return `<dl class="key${figures.length > 5 ? " many" : ""}">${items.join("")}</dl>`;
}

function sectionHtml({ id, title, blocks, print, together }: Section, page: Page): string {
  // On paper a heading does not part from what it is about: sentences alone are only the way there.
  const first = blocks.findIndex(({ type }) => type !== "paragraph");
  const led = first < 0 ? blocks.length : isLong(blocks[first]!) ? first : first + 1;
  const printed = [
    ...(print === undefined ? [] : [print === "small" ? "small" : "unprinted"]),
    ...(together ? ["together"] : []),
  ];
  const classes = printed.length === 0 ? "" : ` class="${printed.join(" ")}"`;
  return `<section id="${escapedAsIs(id)}"${classes}>
<div class="lead">
<h2>${shown(title)}</h2>
${blocksHtml(blocks.slice(0, led), page)}
</div>
${blocksHtml(blocks.slice(led), page)}
</section>`;
}

/** So long that it may go on behind a page's end, its head repeated there: a side would stay half empty before it. */
function isLong(block: Block): boolean {
  if (block.type === "pair") return block.sides.flat().some(isLong);
  return block.type === "table" && !block.whole && block.rows.length > MOST_UNBROKEN_ROWS;
}

const MOST_UNBROKEN_ROWS = 10;

function blocksHtml(blocks: readonly Block[], page: Page): string {
  return blocks.map((block) => blockHtml(block, page)).join("\n");
}

function blockHtml(block: Block, page: Page): string {
  switch (block.type) {
    case "paragraph":
      return `<p>${inline(block.text, page)}</p>`;
    case "list":
      return `<ul>${block.items.map((item) => `<li>${inline(item, page)}</li>`).join("")}</ul>`;
    case "facts":
      return factsHtml(block.facts, page);
    case "findings":
      return findingsHtml(block.findings, page);
    case "form":
      return formHtml(block.fields);
    case "signatures":
      return signaturesHtml(block.places);
    case "cautions":
      return `<ul class="cautions">${block.items.map((item) => `<li>${inline(item, page)}</li>`).join("")}</ul>`;
    case "contents":
      return `<ul class="contents">${block.entries.map(({ id, title }) => `<li><a href="#${escapedAsIs(id)}">${shown(title)}</a></li>`).join("")}</ul>`;
    case "pair":
      return `<div class="pair${isLong(block) ? " long" : ""}">${block.sides.map((side) => `<div>${blocksHtml(side, page)}</div>`).join("")}</div>`;
    case "table":
      return tableHtml(block, page);
    case "figure":
      return figureHtml(block);
  }
}

function factsHtml(facts: readonly Fact[], page: Page): string {
  const rows = facts.map(({ label, value, note }) => {
    const quiet = note === undefined ? "" : ` <span class="quiet">${shown(note)}</span>`;
    return `<div><dt>${shown(label)}</dt><dd>${inline(value, page)}${quiet}</dd></div>`;
  });
  return `<dl class="facts">${rows.join("")}</dl>`;
}

function formHtml(fields: readonly FormField[]): string {
  const boxes = fields.map(({ label, expected, unit, value, wide }) => {
    const about = expected === undefined ? "" : ` <span class="quiet">${shown(expected)}</span>`;
    const behind = unit === undefined ? "" : `<span class="unit">${shown(unit)}</span>`;
    const box = `<span class="box">${value === undefined ? "" : shown(value)}</span>`;
    return `<div${wide ? ' class="broad"' : ""}><dt>${shown(label)}${about}</dt><dd>${box}${behind}</dd></div>`;
  });
  return `<dl class="form">${boxes.join("")}</dl>`;
}

function signaturesHtml(places: readonly SigningPlace[]): string {
  const signed = places.map(({ role, fields }) => {
    const lines = fields.map((field) => `<div><dt>${shown(field)}</dt><dd></dd></div>`);
    return `<div><p><strong>${shown(role)}</strong></p><dl>${lines.join("")}</dl></div>`;
  });
  return `<div class="signatures">${signed.join("")}</div>`;
}

/** On a narrow screen each row of a wider table becomes a card with a line for each cell; a long list stays a table. */
const WIDEST_ON_PHONE = 4;
const MOST_CARDS = 60;

function tableHtml(table: Table, page: Page): string {
  const { caption, columns, rows } = table;
  const side = (index: number) => (columns[index]?.align === "right" ? ' class="right"' : "");
  const sideOf = (index: number) => (columns[index]?.fill ? ' class="fill"' : side(index));
  const head = columns
    .map(({ title }, index) => `<th scope="col"${side(index)}>${shown(title)}</th>`)
    .join("");
  const asCards = columns.length > WIDEST_ON_PHONE && rows.length <= MOST_CARDS;
  const label = (index: number) =>
    asCards && columns[index]!.title !== "" ? ` data-label="${escaped(columns[index]!.title)}"` : "";
  const isSearched = canBeSearched(table);
  const body = rows.map(({ cells, emphasis, find }) => {
    const cellsHtml = cells
      .map((cell, index) => {
        const text =
          isWide(table) && columns[index]?.align === "right"
            ? unbroken(inline(cell, page))
            : inline(cell, page);
        // As a card a cell is a flex box: what stands in it stays one run of text.
        const kept = asCards && spansOf(cell).length > 1 ? `<span>${text}</span>` : text;
        return `<td${sideOf(index)}${label(index)}>${kept}</td>`;
      })
      .join("");
    const found = isSearched && find !== undefined ? ` data-find="${escaped(find)}"` : "";
    return `<tr${emphasis ? ' class="emphasis"' : ""}${found}>${cellsHtml}</tr>`;
  });
  const title = caption === undefined ? "" : `<caption>${shown(caption)}</caption>`;
  const names = [...(isWide(table) ? ["wide"] : []), ...(asCards ? ["cards"] : [])];
  const classes = names.length === 0 ? "" : ` class="${names.join(" ")}"`;
  return `<div class="scroll${isLong(table) ? " long" : ""}"><table${classes}${isSearched ? ` data-find="${wordsOf(page).find}"` : ""}${canBeSorted(table) ? " data-sort" : ""}>${title}<thead><tr>${head}</tr></thead><tbody>${body.join("\n")}</tbody></table></div>`;
}

function isWide({ columns }: Table): boolean {
  return columns.length > 8;
}

/** Cells of a wide table may break, but never between a figure and its unit. */
function unbroken(html: string): string {
  return html.replace(/(\d) (?=[%A-Za-zµ°])/g, "$1\u00a0");
}

/** A drawing in two widths: the style sheet shows one of them, and hides the other from screen readers too. */
function figureHtml({ svg, narrow, alt, caption, small }: Figure): string {
  const below = caption === undefined ? "" : `<figcaption>${shown(caption)}</figcaption>`;
  const drawing = (one: string) => one.replace("<svg", () => `<svg role="img" aria-label="${escaped(alt)}"`);
  const drawings =
    narrow === undefined
      ? `<div class="scroll">${drawing(svg)}</div>`
      : `<div class="broad scroll">${drawing(svg)}</div><div class="slim">${drawing(narrow)}</div>`;
  return `<figure${small ? ' class="small"' : ""}>${drawings}${below}</figure>`;
}

function findingsHtml(findings: readonly ReportFinding[], page: Page): string {
  const words = wordsOf(page);
  const items = findings.map(({ rule, severity, message, help, where, hop, accepted }) => {
    const tone = accepted ? "accepted" : severity;
    const parts = [
      `<p><span class="badge ${tone}">${words.tones[tone]}</span> ${hop === undefined ? "" : `<b>${shown(hop)}</b> `}${inline(sentence(message), page)}</p>`,
    ];
    if (accepted) parts.push(`<p>${shown(words.accepted(accepted.reason, accepted.until))}</p>`);
    if (help !== undefined) parts.push(`<p>${inline(sentence(help), page)}</p>`);
    parts.push(
      `<p class="quiet"><code>${shown(rule)}</code>${where === undefined ? "" : ` ${words.at} <code>${shown(where)}</code>`}</p>`,
    );
    return `<li class="${tone}">${parts.join("")}</li>`;
  });
  return `<ul class="findings">${items.join("")}</ul>`;
}

function inline(text: Inline, page: Page): string {
  return spansOf(text)
    .map((span) => spanHtml(span, page))
    .join("");
}

function spanHtml(span: Span, page: Page): string {
  if (typeof span === "string") return shown(span);
  const { text, mark, to } = span;
  let html = shown(text);
  if (mark === "strong") html = `<strong>${html}</strong>`;
  else if (mark === "code") html = `<code>${html}</code>`;
  else if (mark === "quiet") html = `<span class="quiet">${html}</span>`;
  else if (mark !== undefined) html = `<span class="badge ${mark}">${html}</span>`;
  return to === undefined ? html : `<a href="${href(page, to.page)}">${html}</a>`;
}

function href(page: Page, target: string): string {
  return escapedAsIs(linkFrom(page.name, target, ".html"));
}

/** Escaped and set as print sets it. */
function escaped(text: string): string {
  return escapedAsIs(typeset(text));
}

/** As a text of the page, which breaks wherever it must. */
function shown(text: string): string {
  return breakable(typeset(text));
}
