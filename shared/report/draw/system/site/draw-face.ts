/** The face of a chassis drawn: slots as rows in the order of their numbers, no maker's layout. */

import { slotCountOf } from "../../../../equipment/placement.js";
import type { PortRow } from "../../../../equipment/wiring/port-plan.js";
import type { Words } from "../fit.js";
import { broken, widthOf } from "../fit.js";
import { LINE, linesAt, linesOf, PAD, textAt } from "../lines.js";
import { draw, type Placed, type PlacedItem, type Rect } from "../placed.js";
import { type ChassisFace, type FaceSlot, runsOf } from "./face.js";
import { faceFacts, faceTitle, leftWords, runWords, slotWords } from "./face-words.js";

export interface FaceSheet {
  readonly width: number;
  readonly columns: number;
}

export const WIDE_FACE: FaceSheet = { width: 960, columns: 2 };
export const NARROW_FACE: FaceSheet = { width: 400, columns: 1 };

const MARGIN = 6;
const GAP = 8;
/** Beside the slots, where the air goes in and out. */
const SIDE = 38;
const CELL = { width: 22, height: 16, gap: 3 };
/** Beyond these a port is told in the tables only. */
const MOST_PORTS = 64;
const MOST_RUNS = 40;
/** Fewer stand below each other on every sheet. */
const FEW_SLOTS = 4;

export function drawFace(face: ChassisFace): {
  readonly svg: string;
  readonly narrow: string;
  readonly alt: string;
} {
  const taken = face.slots.reduce((sum, { card }) => sum + (card === undefined ? 0 : slotCountOf(card)), 0);
  const free = face.slots.filter(({ card }) => card === undefined).length;
  return {
    svg: draw(layoutFace(face, WIDE_FACE)),
    narrow: draw(layoutFace(face, NARROW_FACE)),
    alt: `Face of ${faceTitle(face)}: ${taken} of ${taken + free} slots have a card, ${free} are free; ${faceFacts(
      face,
    )
      .map(({ text }) => text)
      .join("; ")}`,
  };
}

export function layoutFace(face: ChassisFace, sheet: FaceSheet): Placed {
  const { air } = face.chassis ?? {};
  const side = air === "left-to-right" || air === "right-to-left" ? SIDE : PAD;
  const columns = face.slots.length > FEW_SLOTS ? sheet.columns : 1;
  const width = columns < sheet.columns ? Math.min(sheet.width, 520) : sheet.width;
  const frame = { x: MARGIN, y: MARGIN, width: width - 2 * MARGIN };
  const inside = frame.width - 2 * side;
  const head = linesOf(
    [{ text: faceTitle(face), style: "strong" }, ...faceFacts(face), ...leftWords(face)],
    frame.width - 2 * PAD,
  );
  const top = frame.y + PAD + head.length * LINE + PAD;
  const columnWidth = (inside - (columns - 1) * GAP) / columns;
  const own = face.ports.length > 0 ? [ownPorts(face, columnWidth)] : [];
  const boxes = [...own, ...face.slots.map((slot) => slotBox(slot, columnWidth))];
  const perColumn = balanced(
    boxes.map(({ height }) => height + GAP),
    columns,
  );
  const items: PlacedItem[] = [];
  let bottom = top;
  for (let column = 0, index = 0; column < columns; column++) {
    let y = top;
    const x = frame.x + side + column * (columnWidth + GAP);
    for (const last = index + perColumn[column]!; index < last; index++) {
      items.push(...boxes[index]!.place(x, y));
      y += boxes[index]!.height + GAP;
    }
    bottom = Math.max(bottom, y);
  }
  const height = bottom - frame.y;
  return {
    width,
    height: bottom + MARGIN,
    items: [
      { kind: "box", box: "frame", at: face.at, ...frame, height },
      ...linesAt(head, frame.x + PAD, frame.y + PAD),
      ...(side === SIDE ? airItems(air === "left-to-right", { ...frame, y: top, height: bottom - top }) : []),
      ...items,
    ],
  };
}

/** In their order, so that the columns come out about as high as each other. */
function balanced(heights: readonly number[], columns: number): number[] {
  const whole = heights.reduce((sum, height) => sum + height, 0);
  const counts: number[] = [];
  let index = 0;
  let filled = 0;
  for (let column = 1; column < columns; column++) {
    let count = 0;
    while (index < heights.length && filled + heights[index]! / 2 <= (whole * column) / columns) {
      filled += heights[index++]!;
      count++;
    }
    counts.push(count);
  }
  return [...counts, heights.length - index];
}

function airItems(rightwards: boolean, { x, y, width, height }: Rect): PlacedItem[] {
  const middle = y + height / 2;
  const to = rightwards ? "right" : "left";
  const ends = [
    { at: x + SIDE / 2, words: rightwards ? "air in" : "air out" },
    { at: x + width - SIDE / 2, words: rightwards ? "air out" : "air in" },
  ];
  return ends.flatMap(({ at, words }): PlacedItem[] => [
    ...[-26, 26].map((by): PlacedItem => ({ kind: "arrow", x: at, y: middle + by, to })),
    ...words
      .split(" ")
      .map((word, index) =>
        textAt({ text: word, style: "quiet" }, at, middle - LINE + index * LINE, "middle"),
      ),
  ]);
}

interface SlotBox {
  readonly height: number;
  readonly place: (x: number, y: number) => PlacedItem[];
}

const NUMBER_WIDTH = 26;

function slotBox(slot: FaceSlot, width: number): SlotBox {
  const { number, name, draws, note } = slotWords(slot);
  const drawsWidth = draws === undefined ? 0 : widthOf(draws) + PAD;
  const words = width - 2 * PAD - NUMBER_WIDTH;
  const [shownName] = broken(name, words - drawsWidth, 1);
  const below = note === undefined ? [] : broken(note, words, 2);
  const ports = portBlock(slot.ports, words);
  const height = 2 * PAD + (1 + below.length) * LINE + ports.height;
  return {
    height,
    place: (x, y) => [
      {
        kind: "box",
        box: slot.card === undefined ? "open" : "part",
        proposed: slot.proposed,
        at: slot.at,
        x,
        y,
        width,
        height,
      },
      ...broken(number, NUMBER_WIDTH, 1).map((one) => textAt(one, x + PAD, y + PAD)),
      textAt(shownName!, x + PAD + NUMBER_WIDTH, y + PAD),
      ...(draws === undefined ? [] : [textAt(draws, x + width - PAD, y + PAD, "end")]),
      ...linesAt(below, x + PAD + NUMBER_WIDTH, y + PAD + LINE),
      ...ports.place(x + PAD + NUMBER_WIDTH, y + PAD + (1 + below.length) * LINE),
    ],
  };
}

function ownPorts({ ports, at }: ChassisFace, width: number): SlotBox {
  const title: Words = { text: "ports of the chassis itself", style: "strong" };
  const block = portBlock(ports, width - 2 * PAD);
  const height = 2 * PAD + LINE + block.height;
  return {
    height,
    place: (x, y) => [
      { kind: "box", box: "part", at, x, y, width, height },
      ...linesAt(broken(title, width - 2 * PAD, 1), x + PAD, y + PAD),
      ...block.place(x + PAD, y + PAD + LINE),
    ],
  };
}

/** Ports with a number as cells, those without in words alone; below them what is on each. */
function portBlock(ports: readonly PortRow[], width: number): SlotBox {
  const numbered = ports.filter(({ port }) => /^\d{1,2}$/.test(port.name)).slice(0, MOST_PORTS);
  const perRow = Math.max(1, Math.floor((width + CELL.gap) / (CELL.width + CELL.gap)));
  const cellRows = Math.ceil(numbered.length / perRow);
  const runs = runsOf(ports);
  const told = runs.slice(0, MOST_RUNS).map(runWords);
  if (runs.length > told.length) told.push({ text: `and more, see the tables`, style: "quiet" });
  const lines = told.flatMap((one) => broken(one, width, 2));
  const cellsHeight = cellRows === 0 ? 0 : PAD / 2 + cellRows * (CELL.height + CELL.gap);
  return {
    height: cellsHeight + lines.length * LINE,
    place: (x, y) => [
      ...numbered.flatMap(({ port, joined }, index): PlacedItem[] => {
        const at = {
          x: x + (index % perRow) * (CELL.width + CELL.gap),
          y: y + PAD / 2 + Math.floor(index / perRow) * (CELL.height + CELL.gap),
        };
        return [
          {
            kind: "box",
            box: joined === undefined ? "socket" : "plug",
            proposed: joined?.proposed,
            ...at,
            width: CELL.width,
            height: CELL.height,
          },
          textAt({ text: port.name, style: "quiet" }, at.x + CELL.width / 2, at.y + 0.5, "middle"),
        ];
      }),
      ...linesAt(lines, x, y + cellsHeight),
    ],
  };
}
