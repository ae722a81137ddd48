/** Tables of a page: columns as wide as their figures, a head that is repeated, boxes to write in. */
import type { Column, PageLanguage, Table } from "../document.js";
import { PRINT } from "../palette.js";
import { columnWidths } from "./columns.js";
import { longestWord, type Measure, rowHeight, widthOf } from "./measure.js";
import type { Border, Cell, Node, TableNode } from "./nodes.js";
import { partsOf, SIZE } from "./spans.js";

/** Between two columns. */
export const GAP = 8;
/** A box that somebody writes a figure into. */
const BOX_PT = 44;
/** Of the lines around boxes, which the layout adds between columns and at both ends. */
const BOX_LINE_PT = 0.6;
/** Figures of rounding, so that what just fits stays in one line. */
const SLACK_PT = 0.6;

/** Beside each other; more columns are set in smaller letters. */
const MOST_USUAL_COLUMNS = 8;
/** Smaller ones nobody reads on a structure: a word breaks instead. */
const SMALLEST = SIZE.least;
/** Share of the room up to which letters grow smaller for one word. */
const WORD_SHARE = 1 / 3;

const BELOW: Border = [false, false, false, true];
const AROUND: Border = [true, true, true, true];

/** Where a block stands. Lengths in points. */
export interface Room {
  readonly width: number;
  /** Of a side. */
  readonly height: number;
  readonly measure: Measure;
  readonly language: PageLanguage;
}

/** A row that is higher goes over sides: what is kept whole must fit on one. */
const ROW_SHARE = 0.5;

export function tableNode(
  { columns, rows }: Pick<Table, "columns" | "rows">,
  { width: room, height, measure }: Room,
): TableNode {
  const usual = columns.length > MOST_USUAL_COLUMNS ? SIZE.wide : SIZE.table;
  const fontSize = sizeFor({ columns, rows }, usual, innerWidth(columns, room), measure);
  const needs = needsOf({ columns, rows }, fontSize, measure);
  const widths = columnWidths(needs, innerWidth(columns, room));
  const cell = (column: Column | undefined, text: Cell): Cell => ({
    ...text,
    border: column?.fill ? AROUND : BELOW,
  });
  const head = columns.map((column) =>
    cell(undefined, {
      text: partsOf(column.title).map((part) => ({ ...part, color: PRINT.quiet })),
      fontSize,
      ...(column.align === "right" && { alignment: "right" }),
    }),
  );
  const body = rows.map(({ cells, emphasis }) =>
    columns.map((column, at) =>
      cell(column, {
        text: partsOf(cells[at] ?? "", emphasis),
        fontSize,
        ...(column.align === "right" && { alignment: "right" }),
        ...(emphasis && { fillColor: PRINT.panel }),
      } as Cell),
    ),
  );
  const isLow = [head, ...body].every((row) => rowHeight(row, widths, measure) < ROW_SHARE * height);
  return {
    table: {
      headerRows: 1,
      // What is kept together must fit on a side.
      ...(isLow && { keepWithHeaderRows: Math.min(2, body.length), dontBreakRows: true }),
      widths,
      body: [head, ...body],
    },
    layout: columns.some(({ fill }) => fill) ? "boxes" : "rows",
    margin: [0, 1, 0, 6],
  };
}

function innerWidth(columns: readonly Column[], room: number): number {
  return Math.max(
    columns.length,
    room -
      GAP * (columns.length - 1) -
      (columns.some(({ fill }) => fill) ? BOX_LINE_PT * (columns.length + 1) : 0),
  );
}

/** Smaller where words would break otherwise. */
function sizeFor(
  table: Pick<Table, "columns" | "rows">,
  usual: number,
  room: number,
  measure: Measure,
): number {
  const most = room * WORD_SHARE;
  const least = needsOf(table, usual, measure).reduce((sum, { word }) => sum + Math.min(word, most), 0);
  return least <= room ? usual : Math.max(SMALLEST, Math.floor(((usual * room) / least) * 10) / 10);
}

function needsOf({ columns, rows }: Pick<Table, "columns" | "rows">, fontSize: number, measure: Measure) {
  return columns.map(({ title, fill }, at) => {
    const cells = [partsOf(title), ...rows.map(({ cells, emphasis }) => partsOf(cells[at] ?? "", emphasis))];
    const most = (of: typeof widthOf) =>
      cells.reduce((sum, one) => Math.max(sum, of(one, fontSize, measure)), 0) + SLACK_PT;
    const [longest, word] = [most(widthOf), most(longestWord)];
    return fill ? { longest: Math.max(longest, BOX_PT), word: Math.max(word, BOX_PT) } : { longest, word };
  });
}

/** Things in a grid of equal columns, row by row. */
export function gridNode(
  things: readonly ((width: number) => Node)[],
  { width: whole, height, measure }: Room,
  across: number,
): TableNode {
  // A gap is twice that of a table, whose own the layout adds.
  const width = (whole - 2 * GAP * (across - 1)) / across;
  const widths = Array.from({ length: across }, (_, column) => (column === across - 1 ? width : width + GAP));
  const rows: Cell[][] = [];
  for (let at = 0; at < things.length; at += across)
    rows.push(
      widths.map((room, column): Cell => {
        const thing = things[at + column]?.(width);
        const cell = thing === undefined ? EMPTY : { stack: [thing] };
        return { ...cell, border: [false, false, false, false], margin: [0, 0, room - width, 0] };
      }),
    );
  const isLow = rows.every((row) => rowHeight(row, widths, measure) < ROW_SHARE * height);
  const table = { ...(isLow && { dontBreakRows: true as const }), widths, body: rows };
  return { table, layout: "none", margin: [0, 0, 0, 4] };
}

const EMPTY: Cell = { text: [{ text: "" }], fontSize: SIZE.small };
