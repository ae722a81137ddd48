/**
 * Where everything of a chain stands. Beside each other: both ends mirrored about the air above them, a column for each
 * branch, indoors below. On a narrow sheet with many branches one end below the other, the air between them.
 */

import { address } from "../../../../design/address.js";
import { broken, widthOf } from "../fit.js";
import { LINE, PAD, textAt } from "../lines.js";
import type { Placed, PlacedItem, Rect, Way } from "../placed.js";
import { type Cell, cellsOf, type JointCell, type PartCell, type Stage, stagesOf } from "./cells.js";
import type { ChainEnd, ChainLine, HopChain } from "./chain.js";
import {
  ARROW,
  apart,
  type FittedCell,
  type FittedWords,
  GUTTER,
  type Rows,
  rowsOf,
  WIRE,
  WORDS,
  wireColumn,
} from "./rows.js";
import { type Around, airWords, continuedWords } from "./words.js";

const MARGIN = 6;
const GAP = 16;
/** Beside each other they stay readable: the others stand below. */
const MOST_BESIDE = 4;

export interface ChainSheet {
  readonly widthFor: (branches: number) => number;
  /** So many branches of each end have room beside those of the other. */
  readonly mostMirrored: number;
}

export const WIDE_CHAIN: ChainSheet = {
  widthFor: (branches) => (branches === 1 ? 520 : branches === 2 ? 760 : 960),
  mostMirrored: MOST_BESIDE,
};

export const NARROW_CHAIN: ChainSheet = {
  widthFor: (branches) => (branches > 2 ? 440 : 380),
  mostMirrored: 1,
};

/** @returns undefined where neither end has a branch: there is nothing to draw */
export function layoutChain(
  chain: HopChain,
  around: readonly [Around, Around],
  sheet: ChainSheet,
): Placed | undefined {
  const count = Math.max(...chain.ends.map(({ lines }) => lines.length));
  if (count === 0) return undefined;
  const stages = stagesOf(chain.ends);
  const orders = columnOrders(chain);
  const beside = Math.min(count, MOST_BESIDE);
  const width = sheet.widthFor(beside);
  const items: PlacedItem[] = [];
  let top = MARGIN;
  for (let from = 0; from < count; from += MOST_BESIDE) {
    const lines = chain.ends.map(({ lines: of }, at) =>
      orders[at]!.slice(from, from + MOST_BESIDE).flatMap((index) => of[index] ?? []),
    );
    const panel: Panel = { chain, lines, around, stages, width, columns: beside, continued: from > 0 };
    const placed = beside <= sheet.mostMirrored ? mirrored(panel, top) : stacked(panel, top);
    items.push(...placed.items);
    top = placed.bottom + GAP;
  }
  return { width, height: top - GAP + MARGIN, items };
}

/** Of like ends that of the first, so that what speaks to each other stands opposite. */
function columnOrders({ ends: [first, second] }: HopChain): readonly (readonly number[])[] {
  const order = columnOrder(first);
  return [order, first.lines.length === second.lines.length ? order : columnOrder(second)];
}

/** Branches that share an antenna, and there a polarization, stand beside each other: so do their joints. */
function columnOrder({ lines }: ChainEnd): readonly number[] {
  const key = (index: number) => {
    const { antenna, polarization } = lines[index]!.branch;
    return 2 * antenna + polarization;
  };
  return [...lines.keys()].sort((a, b) => key(a) - key(b) || a - b);
}

interface Panel {
  readonly chain: HopChain;
  /** Of both ends. */
  readonly lines: readonly (readonly ChainLine[])[];
  readonly around: readonly [Around, Around];
  readonly stages: readonly Stage[];
  readonly width: number;
  readonly columns: number;
  /** The first branches stand above. */
  readonly continued: boolean;
}

interface Stack {
  readonly items: readonly PlacedItem[];
  readonly bottom: number;
  /** Where antennas meet the air. */
  readonly mouths: readonly (readonly [number, number])[];
}

function mirrored(
  panel: Panel,
  top: number,
): { readonly items: readonly PlacedItem[]; readonly bottom: number } {
  const { width, columns } = panel;
  const half = (width - 2 * MARGIN - GAP) / 2;
  const pitch = (half - 2 * PAD) / columns;
  const air = airBox(panel, { x: MARGIN, y: top, width: width - 2 * MARGIN, height: 0 });
  const rows = rowsIn(panel, pitch);
  const below = air.bottom + GAP;
  const ends = ([0, 1] as const).map((at) =>
    stackOf(
      panel,
      at,
      rows,
      { x: MARGIN + at * (half + GAP), y: below, width: half, height: 0 },
      "up",
      pitch,
    ),
  );
  return {
    items: [
      ...air.items,
      ...ends.flatMap(({ items }) => items),
      ...ends.flatMap(({ mouths }) => mouths.map((mouth) => toAir(mouth, air.bottom))),
    ],
    bottom: Math.max(...ends.map(({ bottom }) => bottom)),
  };
}

function stacked(
  panel: Panel,
  top: number,
): { readonly items: readonly PlacedItem[]; readonly bottom: number } {
  const { width, columns } = panel;
  const whole = { x: MARGIN, width: width - 2 * MARGIN, height: 0 };
  const pitch = (whole.width - 2 * PAD) / columns;
  const rows = rowsIn(panel, pitch);
  const first = stackOf(panel, 0, rows, { ...whole, y: top }, "down", pitch);
  const air = airBox(panel, { ...whole, y: first.bottom + GAP });
  const second = stackOf(panel, 1, rows, { ...whole, y: air.bottom + GAP }, "up", pitch);
  return {
    items: [
      ...air.items,
      ...[first, second].flatMap(({ items }) => items),
      ...first.mouths.map((mouth) => toAir(mouth, air.top)),
      ...second.mouths.map((mouth) => toAir(mouth, air.bottom)),
    ],
    bottom: second.bottom,
  };
}

function rowsIn({ lines, around, stages }: Panel, pitch: number): Rows {
  return rowsOf(
    stages,
    lines.map((of, at) => cellsOf(of, around[at]!)),
    pitch,
  );
}

function toAir([x, y]: readonly [number, number], air: number): PlacedItem {
  return {
    kind: "wire",
    wire: "air",
    points: [
      [x, y],
      [x, air],
    ],
  };
}

function airBox({ chain, continued }: Panel, at: Rect) {
  const words = airWords(chain, continued).flatMap((one) => broken(one, at.width - 2 * PAD, 3));
  const box = { ...at, height: 2 * PAD + words.length * LINE };
  return {
    items: [
      { kind: "box", box: "space", round: true, ...box } as const,
      ...words.map(
        (one, index): PlacedItem => textAt(one, at.x + at.width / 2, at.y + PAD + index * LINE, "middle"),
      ),
    ],
    top: at.y,
    bottom: box.y + box.height,
  };
}

/** One end: rows from the antenna downwards, or from indoors downwards. */
function stackOf(
  { chain, lines, continued }: Panel,
  at: 0 | 1,
  { rows, cells }: Rows,
  frame: Rect,
  outwards: Way,
  pitch: number,
): Stack {
  const up = outwards === "up";
  const tops = new Map<string, number>();
  const ordered = up ? rows.toReversed() : rows;
  const title = { height: LINE + PAD };
  let y = frame.y + PAD + (up ? 0 : title.height);
  for (const { key, height } of ordered) {
    tops.set(key, y);
    y += height;
  }
  const bottom = y + PAD + (up ? title.height : 0);
  const left = (column: number) => frame.x + PAD + column * pitch + GUTTER / 2;
  const stages = rows.map(({ key }) => key);
  const heights = new Map(rows.map(({ key, height }) => [key, height]));
  const rectOf = (cell: Cell, row: string): Rect => ({
    x: left(cell.from),
    y: tops.get(row)!,
    width: (cell.to - cell.from + 1) * pitch - GUTTER,
    height: heights.get(row)!,
  });
  const place: Place = { rectOf, left, pitch, up };
  const here = cells[at]!;
  // The signal leaves the first end and arrives at the second: who walks the boxes goes with it.
  const parts = at === 0 ? here : here.toSorted((a, b) => stages.indexOf(b.row) - stages.indexOf(a.row));
  const name = `${chain.ends[at]!.site}${continued ? continuedWords(lines[at]!.length) : ""}`;
  const [shownName] = broken({ text: name, style: "strong" }, frame.width - 2 * PAD, 1);
  const mouths = here.flatMap(({ cell, row }) => {
    if (cell.kind !== "part" || cell.stage !== "antenna" || cell.open) return [];
    const { x, y: boxTop, width, height } = rectOf(cell, row);
    return [[x + width / 2, up ? boxTop : boxTop + height] as const];
  });
  return {
    items: [
      {
        kind: "box",
        box: "frame",
        round: true,
        at: address("hop", chain.hop, chain.ends[at]!.site),
        ...frame,
        height: bottom - frame.y,
      },
      textAt(shownName!, frame.x + PAD + GUTTER / 2, up ? bottom - title.height : frame.y + PAD / 2),
      ...here.flatMap((fitted) =>
        fitted.cell.kind === "joint" ? wireItems(fitted, fitted.cell, place) : [],
      ),
      ...parts.flatMap((fitted) =>
        fitted.cell.kind === "part" ? partItems(fitted, fitted.cell, place) : [],
      ),
    ],
    bottom,
    mouths,
  };
}

interface Place {
  readonly rectOf: (cell: Cell, row: string) => Rect;
  readonly left: (column: number) => number;
  readonly pitch: number;
  /** Indoors below. */
  readonly up: boolean;
}

function partItems({ head, inner, row }: FittedCell, cell: PartCell, place: Place): PlacedItem[] {
  const rect = place.rectOf(cell, row);
  const { pitch } = place;
  // Towards the unit: of what is indoors, that is the other side.
  const up = place.up !== (cell.stage === "indoor");
  const columns = Math.max(0, ...inner.map(({ length }) => length));
  const spare = (rect.height - 2 * PAD - (head.length + columns) * LINE - (columns > 0 ? PAD : 0)) / 2;
  const headTop = up ? rect.y + PAD + spare : rect.y + rect.height - PAD - spare - head.length * LINE;
  const columnTop = up ? rect.y + rect.height - PAD - columns * LINE : rect.y + PAD;
  const middle = rect.x + rect.width / 2;
  return [
    {
      kind: "box",
      box: cell.open ? "open" : "part",
      proposed: cell.proposed,
      round: true,
      at: cell.at,
      ...rect,
    },
    ...head.flatMap((words, index) => centred(words, middle, headTop + index * LINE, place)),
    ...inner.flatMap((of, column) =>
      of.flatMap((words, index) =>
        centred(
          words,
          place.left(cell.from + column) + (pitch - GUTTER) / 2,
          columnTop + index * LINE,
          place,
        ),
      ),
    ),
  ];
}

function wireItems({ head, inner, outer, row }: FittedCell, cell: JointCell, place: Place): PlacedItem[] {
  const { up, left } = place;
  const [innerRect, outerRect] = cell.between.map((stage) => place.rectOf(cell, stage));
  const x = left(cell.from + wireColumn(cell)) + (cell.to > cell.from ? -GUTTER / 2 : WIRE);
  const start = up ? innerRect!.y : innerRect!.y + innerRect!.height;
  const end = up ? outerRect!.y + outerRect!.height : outerRect!.y;
  const rect = place.rectOf(cell, row);
  const wordsX = (column: number) => left(column) + WIRE + WORDS;
  const items: PlacedItem[] = [
    {
      kind: "wire",
      wire: "joint",
      proposed: cell.proposed,
      points: [
        [x, start],
        [x, end],
      ],
    },
    { kind: "dot", x, y: start },
    { kind: "dot", x, y: end },
  ];
  const innerCount = Math.max(0, ...inner.map(({ length }) => length));
  const outerCount = Math.max(0, ...outer.map(({ length }) => length));
  const total = innerCount + head.length + outerCount;
  const space = apart(cell);
  const spare = (rect.height - total * LINE - 2 * space) / 2;
  const blocks = up
    ? { outer: 0, head: outerCount, inner: outerCount + head.length }
    : { inner: 0, head: innerCount, outer: innerCount + head.length };
  const lineY = (block: keyof typeof blocks, index: number) =>
    rect.y + spare + (blocks[block] + index) * LINE + space * (up ? UP : DOWN).indexOf(block);
  if (cell.to > cell.from && head.length > 0) {
    // Of all that share it: on the wire, not in a column.
    const half = Math.max(...head.map(widthOf)) / 2 + PAD / 2;
    const height = head.length * LINE;
    items.push({ kind: "box", box: "label", x: x - half, y: lineY("head", 0), width: 2 * half, height });
    items.push(...head.flatMap((words, index) => centred(words, x, lineY("head", index), place)));
  } else
    items.push(...head.flatMap((words, index) => beside(words, wordsX(cell.from), lineY("head", index), up)));
  for (const [of, block] of [
    [inner, "inner"],
    [outer, "outer"],
  ] as const)
    for (const [column, lines] of of.entries())
      items.push(
        ...lines.flatMap((words, index) =>
          beside(words, wordsX(cell.from + column), lineY(block, index), up),
        ),
      );
  return items;
}

/** From above. */
const UP = ["outer", "head", "inner"] as const;
const DOWN = ["inner", "head", "outer"] as const;

function arrowOf(level: "send" | "receive", up: boolean): Way {
  return (level === "send") === up ? "up" : "down";
}

function beside(words: FittedWords, x: number, top: number, up: boolean): PlacedItem[] {
  if (words.level === undefined) return [textAt(words, x, top)];
  return [
    { kind: "arrow", x: x + 4, y: top + LINE / 2 + 1, to: arrowOf(words.level, up) },
    textAt(words, x + ARROW, top),
  ];
}

function centred(words: FittedWords, x: number, top: number, { up }: Place): PlacedItem[] {
  if (words.level === undefined) return [textAt(words, x, top, "middle")];
  const half = widthOf(words) / 2;
  return [
    { kind: "arrow", x: x - half, y: top + LINE / 2 + 1, to: arrowOf(words.level, up) },
    textAt(words, x + ARROW / 2, top, "middle"),
  ];
}
