/** Every block of a page as nodes of a PDF. */
import type { Block, Fact, FormField, ReportFinding, SigningPlace } from "../document.js";
import { sentence } from "../document.js";
import { PAGE_WORDS } from "../page-words.js";
import { PRINT } from "../palette.js";
import { drawingNode } from "./drawing.js";
import { heightOf, widthOf } from "./measure.js";
import type { Cell, Node, TableNode } from "./nodes.js";
import { partsOf, placeOf, plain, quiet, SIZE, textNode, toned } from "./spans.js";
import { GAP, gridNode, type Room, tableNode } from "./tables.js";

/** A share of a side: what is estimated to be lower surely fits on one, and leaves less than that of one empty. */
const KEPT_SHARE = 0.35;
/** Of a drawing, whose height is known, and of what is kept with it. */
const DRAWING_SHARE = 0.8;
const WITH_DRAWING_SHARE = 0.93;
const PAIR_SHARE = 0.95;
const SMALL_DRAWING_PT = 270;
/** 58 mm, as in the style sheet. */
const LOW_DRAWING_PT = 164;

/** On one side where it fits. */
export function kept(nodes: readonly Node[], room: Room, share?: number): Node[] {
  if (nodes.length === 0 || !isKept(nodes, room, share)) return [...nodes];
  return [{ stack: nodes.map(asFollowing), unbreakable: true }];
}

/** A table that a side need not stay half empty before: it goes on behind the end of a side, its head repeated there. */
function isLong(node: Node): boolean {
  return "table" in node && node.table.headerRows === 1 && node.table.body.length > 1 + MOST_UNBROKEN_ROWS;
}

const MOST_UNBROKEN_ROWS = 10;

function isKept(nodes: readonly Node[], { width, height, measure }: Room, share?: number): boolean {
  // Where somebody asks for a share, tables stay whole up to it.
  if (share === undefined && nodes.some(isLong)) return false;
  const most = share ?? (nodes.some(isDrawing) ? WITH_DRAWING_SHARE : KEPT_SHARE);
  return nodes.reduce((sum, node) => sum + heightOf(node, width, measure), 0) < most * height;
}

function isDrawing(node: Node): boolean {
  return "stack" in node && "svg" in (node.stack[0] ?? {});
}

/** What is kept with the next needs no look at where it came to stand. */
function asFollowing(node: Node): Node {
  if (!("headlineLevel" in node)) return node;
  const { headlineLevel: _kept, ...others } = node;
  return others;
}

export function blockNodes(block: Block, room: Room): Node[] {
  const { width, height } = room;
  switch (block.type) {
    case "paragraph":
      return [textNode(block.text, SIZE.text, { margin: [0, 1, 0, 2] })];
    case "list":
      return [{ ul: block.items.map((item) => textNode(item, SIZE.text)), margin: [0, 1, 0, 4] }];
    case "facts":
      return factsNodes(block.facts, room);
    case "findings":
      return block.findings.flatMap((finding) => kept([findingNode(finding, room)], room));
    case "form":
      return formNodes(block.fields, room);
    case "signatures":
      return [signaturesNode(block.places, room)];
    case "cautions":
      return kept([cautionsNode(block.items, room)], room);
    case "contents":
      return kept([contentsNode(block.entries, width)], room);
    case "pair":
      return pairNodes(block.sides, room);
    case "table": {
      const table = tableNode(block, room);
      if (block.caption === undefined) return kept([table], room);
      const caption = textNode(block.caption, SIZE.text, {
        bold: true,
        headlineLevel: 2,
        margin: [0, 3, 0, 1],
      });
      return kept([caption, table], room, block.whole && PAIR_SHARE);
    }
    case "figure": {
      const wide = block.small ? Math.min(width, SMALL_DRAWING_PT) : width;
      const high = block.low ? Math.min(LOW_DRAWING_PT, DRAWING_SHARE * height) : DRAWING_SHARE * height;
      const drawing = drawingNode(block.svg, wide, high);
      const below =
        block.caption === undefined ? [] : [quiet(block.caption, SIZE.small, { margin: [0, 0, 0, 4] })];
      return [{ stack: [drawing, ...below], unbreakable: true }];
    }
  }
}

/** Beside each other on one side, or one after the other: columns that go over sides lose what is kept whole in them. */
function pairNodes(sides: readonly (readonly Block[])[], room: Room): Node[] {
  const { width, height, measure } = room;
  const gap = GAP * 2;
  const one = (width - gap * (sides.length - 1)) / sides.length;
  const columns = sides.map((side) => ({
    stack: side.flatMap((block) => blockNodes(block, { ...room, width: one })).map(asFollowing),
    width: one,
  }));
  const beside: Node = { columns, columnGap: gap };
  if (heightOf(beside, width, measure) < PAIR_SHARE * height) return [{ stack: [beside], unbreakable: true }];
  return sides.flat().flatMap((block) => blockNodes(block, room));
}

/** In two columns, down the one and then the other, where each fits into one line there; else below each other. */
function factsNodes(facts: readonly Fact[], room: Room): Node[] {
  const { width, measure } = room;
  const gap = GAP * 2;
  const one = (width - gap) / 2;
  const isShort = facts.every(
    ({ label, value, note = "" }) =>
      widthOf([...partsOf(label), ...partsOf(value), ...partsOf(note)], SIZE.table, measure) + FACT_GAP_PT <
      one,
  );
  if (facts.length < FEWEST_IN_COLUMNS || !isShort) return [factsNode(facts, room)];
  const half = Math.ceil(facts.length / 2);
  const columns = [facts.slice(0, half), facts.slice(half)].map((those) => ({
    stack: [factsNode(those, { ...room, width: one })],
    width: one,
  }));
  return [{ stack: [{ columns, columnGap: gap }], unbreakable: true }];
}

const FEWEST_IN_COLUMNS = 4;
/** Between a label and its value, signs of a note and what the layout adds. */
const FACT_GAP_PT = 24;

function factsNode(facts: readonly Fact[], room: Room): TableNode {
  const rows = facts.map(({ label, value, note }) => ({
    cells: [
      { text: label, mark: "quiet" as const },
      note === undefined ? value : [...partsAsSpans(value), { text: ` ${note}`, mark: "quiet" as const }],
    ],
  }));
  const columns = [{ title: "" }, { title: "", align: "right" as const }];
  const node = tableNode({ columns, rows }, { ...room, width: Math.min(room.width, FACTS_PT) });
  const { headerRows: _none, keepWithHeaderRows: _two, ...table } = node.table;
  return { ...node, table: { ...table, body: table.body.slice(1) } };
}

/** Label and value would stand too far apart. */
const FACTS_PT = 380;

function partsAsSpans(value: Fact["value"]) {
  return typeof value === "string" || !Array.isArray(value)
    ? [value as Exclude<typeof value, readonly unknown[]>]
    : value;
}

function findingNode(
  { rule, severity, message, help, where, hop, accepted }: ReportFinding,
  { width, language }: Room,
): Node {
  const words = PAGE_WORDS[language];
  const tone = accepted ? "accepted" : severity;
  const lines: Node[] = [
    {
      text: [
        toned(words.tones[tone], tone),
        { text: "  " },
        ...(hop === undefined ? [] : [...partsOf(hop, true), { text: "  " }]),
        ...partsOf(sentence(message)),
      ],
      fontSize: SIZE.text,
    },
  ];
  if (accepted) lines.push(textNode(words.accepted(accepted.reason, accepted.until), SIZE.text));
  if (help !== undefined) lines.push(textNode(sentence(help), SIZE.text));
  lines.push(quiet(where === undefined ? rule : `${rule} ${words.at} ${where}`));
  return { stack: lines, margin: [Math.min(8, width / 10), 1, 0, 5] };
}

const BOX_HEIGHT = 15;
const WIDE_BOX_HEIGHT = 46;

function formNodes(fields: readonly FormField[], room: Room): Node[] {
  const { width } = room;
  const across = width > 300 ? 3 : width > 180 ? 2 : 1;
  const narrow = fields.filter(({ wide }) => !wide);
  const grid =
    narrow.length === 0
      ? []
      : [
          gridNode(
            narrow.map((field) => (one) => fieldNode(field, one)),
            room,
            across,
          ),
        ];
  return [...grid, ...fields.filter(({ wide }) => wide).map((field) => fieldNode(field, width))];
}

function fieldNode({ label, expected, unit, value, wide }: FormField, width: number): Node {
  const unitWidth = unit === undefined ? 0 : 26;
  const box: Cell = { ...textNode(value ?? "", SIZE.table), border: [true, true, true, true] };
  const behind: Cell = { ...textNode(unit ?? "", SIZE.table), border: [false, false, false, false] };
  return {
    // Parted from its label a box is none; its height would be taken anew on the next side.
    unbreakable: true,
    stack: [
      {
        text: [
          ...partsOf(label),
          ...(expected === undefined ? [] : [{ text: `  ${plain(expected)}`, color: PRINT.quiet }]),
        ],
        fontSize: SIZE.small,
      },
      {
        table: {
          widths: unit === undefined ? [width - 10] : [width - 10 - unitWidth - GAP, unitWidth],
          heights: wide ? WIDE_BOX_HEIGHT : BOX_HEIGHT,
          body: [unit === undefined ? [box] : [box, behind]],
        },
        layout: "boxes",
      },
    ],
    margin: [0, 1, 0, 3],
  };
}

function signaturesNode(places: readonly SigningPlace[], room: Room): TableNode {
  const across = Math.max(1, Math.min(3, places.length));
  return gridNode(
    places.map((place) => (one) => signingNode(place, one)),
    room,
    across,
  );
}

const LINE_HEIGHT = 20;

function signingNode({ role, fields }: SigningPlace, width: number): Node {
  const lines = fields.map((field): TableNode => {
    const cell: Cell = { ...quiet(field), border: [false, false, false, true] };
    return { table: { widths: [width], heights: LINE_HEIGHT, body: [[cell]] }, layout: "rows" };
  });
  return { stack: [textNode(role, SIZE.text, { bold: true }), ...lines], margin: [0, 2, 0, 4] };
}

function contentsNode(entries: Extract<Block, { type: "contents" }>["entries"], width: number): TableNode {
  const number = 40;
  const widths = [Math.min(width, FACTS_PT) - number - GAP, number];
  const border = [false, false, false, true] as const;
  const body = entries.map(({ id, title }): Cell[] => [
    { ...textNode(title, SIZE.text), border },
    { pageReference: placeOf(id), fontSize: SIZE.text, alignment: "right", border },
  ]);
  return { table: { widths, body }, layout: "rows", margin: [0, 1, 0, 6] };
}

function cautionsNode(items: Extract<Block, { type: "cautions" }>["items"], { width }: Room): TableNode {
  const stack = items.map((item) => ({
    text: [{ text: "⚠\u00a0 ", bold: true as const }, ...partsOf(item)],
    fontSize: SIZE.text,
    margin: [0, 0, 0, 1] as const,
  }));
  return { table: { widths: [width - 14], body: [[{ stack }]] }, layout: "frame", margin: [0, 1, 0, 6] };
}
