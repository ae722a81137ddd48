/** A page as a PDF: its blocks in order, headings with what they head, the running title for the foot of each side. */
import { base64 } from "../../../format/base64.js";
import type { KeyFigure, Letterhead, Page, Paper, Section } from "../document.js";
import { PRINT } from "../palette.js";
import { blockNodes, kept } from "./blocks.js";
import { type Measure, widthOf } from "./measure.js";
import type { Margin, Node, PdfDocument, PictureNode, TextPart } from "./nodes.js";
import { partsOf, placeOf, plain, quiet, SIZE, textNode } from "./spans.js";
import { gridNode, type Room } from "./tables.js";

const SIZES: Readonly<Record<NonNullable<Paper["size"]>, PdfDocument["pageSize"]>> = {
  A4: { width: 595.28, height: 841.89 },
  Letter: { width: 612, height: 792 },
};

const MARGINS: Margin = [40, 32, 40, 40];

/** The foot has room for so many lines of it, beside the number of the side. */
const RUNNING = { lines: 2, fontSize: 7, beside: 85 };
/** So many lines have room there together with the small print that ends the last side, in points of its letters. */
const FOOT = { lines: 3, lastSize: 6 };

export function pdfDocument(page: Page, measure: Measure): PdfDocument {
  const pageSize = sizeOf(page.paper);
  const [left, top, right, bottom] = MARGINS;
  const { language = "en" } = page;
  const room = {
    width: pageSize.width - left - right,
    height: pageSize.height - top - bottom,
    measure,
    language,
  };
  const running = [page.title, page.running].filter((one) => one !== undefined).join(" · ");
  const beside = room.width - RUNNING.beside;
  const foot = cutToLines(plain(running), beside, measure);
  const isShort =
    linesOf(foot, beside, RUNNING.fontSize, measure) +
      linesOf(plain(page.colophon), beside, FOOT.lastSize, measure) <=
    FOOT.lines;
  return {
    title: plain(page.title),
    ...(page.subtitle !== undefined && { subject: plain(page.subtitle) }),
    language,
    ...(page.commitDay !== undefined && { day: page.commitDay }),
    pageSize,
    pageMargins: MARGINS,
    running: foot,
    last: isShort ? plain(page.colophon) : "",
    content: withoutEnd([
      ...letterheadNodes(page.letterhead, room.width),
      ...headNodes(page),
      ...keyNodes(page.keyFigures, room),
      ...page.sections.flatMap((section) => sectionNodes(section, room)),
      ...(page.letterhead?.foot ?? []).map((line, at) =>
        quiet(line, SIZE.small, { margin: [0, at === 0 ? 10 : 1, 0, 0] }),
      ),
      ...(isShort ? [] : [quiet(page.colophon, SIZE.small, { margin: [0, 10, 0, 0] })]),
    ]),
  };
}

/** No room is kept below the last words: where they end at the foot of a side it would open one more, with nothing on it. */
function withoutEnd<N extends Node>(nodes: readonly N[]): N[] {
  return nodes.map((node, at): N => {
    if (at < nodes.length - 1) return node;
    const [left, top, right] = node.margin ?? [0, 0, 0];
    const ended = { ...node, margin: [left, top, right, 0] as const };
    if ("stack" in ended) return { ...ended, stack: withoutEnd(ended.stack) };
    if ("ul" in ended) return { ...ended, ul: withoutEnd(ended.ul) };
    if ("columns" in ended) return { ...ended, columns: ended.columns.map((one) => withoutEnd([one])[0]!) };
    return ended;
  });
}

function sizeOf({ size = "A4", landscape }: Paper = {}): PdfDocument["pageSize"] {
  const { width, height } = SIZES[size];
  return landscape ? { width: height, height: width } : { width, height };
}

const LOGO_PT = { width: 170, height: 44 };

/** Words at the left, the picture at the right, as large as its room. */
function letterheadNodes(letterhead: Letterhead | undefined, width: number): Node[] {
  if (letterhead === undefined) return [];
  const { name, logo, head } = letterhead;
  const lines = [
    ...(name === undefined ? [] : [textNode(name, SIZE.text, { bold: true })]),
    ...head.map((line) => textNode(line, SIZE.text)),
  ];
  if (logo === undefined) return lines.length === 0 ? [] : [{ stack: lines, margin: [0, 0, 0, 10] }];
  const scale = Math.min(LOGO_PT.width / logo.widthPx, LOGO_PT.height / logo.heightPx);
  const picture: PictureNode = {
    image: `data:${logo.type};base64,${base64(logo.bytes)}`,
    width: logo.widthPx * scale,
    height: logo.heightPx * scale,
    alt: logo.alt,
  };
  const columns = [
    { stack: lines, width: width - picture.width - LOGO_GAP_PT },
    { stack: [picture], width: picture.width },
  ];
  return [{ columns, columnGap: LOGO_GAP_PT, margin: [0, 0, 0, 10] }];
}

const LOGO_GAP_PT = 16;

/** As many words as have room; where one is left out, or has no room in a line of its own, an ellipsis ends them. */
function cutToLines(text: string, width: number, measure: Measure): string {
  const widthOfText = (words: string) => measure(words, false) * RUNNING.fontSize;
  const room = width - widthOfText("…");
  const kept: string[] = [];
  let line = "";
  let lines = 1;
  for (const word of text.split(" ")) {
    const longer = line === "" ? word : `${line} ${word}`;
    if (widthOfText(longer) <= room) line = longer;
    else if (line !== "" && lines < RUNNING.lines && widthOfText(word) <= room) {
      lines++;
      line = word;
    } else {
      const left = [...word];
      const start = line === "" ? "" : `${line} `;
      while (left.length > 0 && widthOfText(start + left.join("")) > room) left.pop();
      return `${[...kept, left.join("")].join(" ").trimEnd()}…`;
    }
    kept.push(word);
  }
  return text;
}

/** Filled with words one after the other; one that is longer goes on in the next. */
function linesOf(text: string, width: number, fontSize: number, measure: Measure): number {
  let lines = 1;
  let at = 0;
  const blank = measure(" ", false) * fontSize;
  for (const word of text.split(" ")) {
    const long = measure(word, false) * fontSize;
    if (at > 0 && at + blank + long > width) {
      lines++;
      at = 0;
    } else if (at > 0) at += blank;
    lines += Math.floor(long / width);
    at += long % width;
  }
  return lines;
}

function headNodes({ title, subtitle }: Page): Node[] {
  return [
    textNode(title, SIZE.title, { bold: true }),
    ...(subtitle === undefined ? [] : [quiet(subtitle, SIZE.text, { margin: [0, 2, 0, 2] })]),
  ];
}

const MOST_KEYS_ACROSS = 5;

function keyNodes(figures: readonly KeyFigure[], room: Room): Node[] {
  if (figures.length === 0) return [];
  const across = figures.length > MOST_KEYS_ACROSS ? 3 : figures.length;
  const grid = gridNode(
    figures.map((figure) => (width) => keyNode(figure, width, room.measure)),
    room,
    across,
  );
  return kept([{ ...grid, margin: [0, 6, 0, 6] }], room);
}

function keyNode({ label, value, unit, note, tone }: KeyFigure, width: number, measure: Measure): Node {
  const color = tone === undefined ? {} : { color: PRINT[tone] };
  const text: TextPart[] = [
    ...partsOf(value, tone === undefined ? undefined : true).map((part) => ({ ...part, ...color })),
    ...(unit === undefined ? [] : [{ text: `\u00a0${plain(unit)}` }]),
  ];
  // In two lines at most where it is longer than usual.
  const fontSize = Math.max(SIZE.text, Math.min(SIZE.key, (1.6 * width) / widthOf(text, 1, measure)));
  return {
    stack: [quiet(label), { text, fontSize }, ...(note === undefined ? [] : [quiet(note)])],
  };
}

/** What is to stay together and is higher goes over sides; heights are estimates. */
const TOGETHER_SHARE = 0.92;

function sectionNodes({ id, title, blocks, together }: Section, room: Room): Node[] {
  const heading = textNode(title, SIZE.heading, {
    bold: true,
    headlineLevel: 1,
    outline: true,
    outlineText: plain(title),
    margin: [0, 6, 0, 2],
    id: placeOf(id),
  });
  // Sentences alone are only the way to what the section is about.
  const first = blocks.findIndex(({ type }) => type !== "paragraph");
  const at = first < 0 ? blocks.length : first;
  const led = blocks.slice(0, at).flatMap((block) => blockNodes(block, room));
  const leading = first < 0 ? led : led.map((node) => ({ ...node, headlineLevel: 1 }));
  const [next = [], ...others] = blocks.slice(at).map((block) => blockNodes(block, room));
  if (together) {
    const all = kept([heading, ...leading, ...next, ...others.flat()], room, TOGETHER_SHARE);
    if (all.length === 1) return anchored(all, placeOf(id));
  }
  const whole = [heading, ...leading, ...next.slice(0, 1)];
  // The caption of a long table leads on to it, as the heading does.
  const isLeading = "headlineLevel" in whole.at(-1)!;
  const beginning = isLeading ? whole : kept(whole, room);
  return anchored([...beginning, ...next.slice(1), ...others.flat()], placeOf(id));
}

/**
 * Names the first words of each part: the layout keeps account of the side on which what has a name came to stand, and
 * by that it is known whether a heading was left behind.
 */
function anchored(nodes: readonly Node[], id: string): Node[] {
  return nodes.map((node, index) => ("headlineLevel" in node ? node : named(node, `${id}.${index}`)));
}

function named(node: Node, id: string): Node {
  if ("text" in node) return node.id === undefined ? { ...node, id } : node;
  if ("stack" in node) return { ...node, stack: firstNamed(node.stack, id) };
  if ("ul" in node) return { ...node, ul: firstNamed(node.ul, id) };
  if ("columns" in node) return { ...node, columns: firstNamed(node.columns, id) };
  if ("svg" in node || "image" in node || "pageReference" in node) return node;
  // A head is repeated: the row below it stands once.
  const { table } = node;
  const row = Math.min(table.headerRows ?? 0, table.body.length - 1);
  const body = table.body.map((cells, at) => (at === row ? firstNamed(cells, id) : cells));
  return { ...node, table: { ...table, body } };
}

function firstNamed<N extends Node>(nodes: readonly N[], id: string): N[] {
  return nodes.map((one, at) => (at === 0 ? (named(one, id) as N) : one));
}
