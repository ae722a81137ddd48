/** Cells of a chain with their words fitted into columns, and the heights of the rows that they stand in. */

import { broken, type Fitted, widthOf } from "../fit.js";
import { LINE, PAD } from "../lines.js";
import type { Cell, JointCell, Stage } from "./cells.js";
import type { ChainWords } from "./words.js";

/** Between columns. */
export const GUTTER = 8;
/** Of a wire from the edge of its column, and of the words from the wire. */
export const WIRE = 9;
export const WORDS = 6;
export const ARROW = 12;

/** A row of parts, or of what joins them; both ends have the same heights. */
interface Row {
  readonly key: string;
  readonly height: number;
}

export interface Rows {
  readonly rows: readonly Row[];
  readonly cells: readonly (readonly FittedCell[])[];
}

export interface FittedCell {
  readonly cell: Cell;
  readonly row: string;
  readonly head: readonly FittedWords[];
  readonly inner: readonly (readonly FittedWords[])[];
  readonly outer: readonly (readonly FittedWords[])[];
  readonly height: number;
}

export type FittedWords = ChainWords & Fitted;

export function rowsOf(stages: readonly Stage[], ends: readonly (readonly Cell[])[], pitch: number): Rows {
  const cells = ends.map((of) => of.map((cell) => fittedCell(cell, pitch)));
  const keys = stages.flatMap((stage, index) => (index === 0 ? [stage] : [`to ${stage}`, stage]));
  const rows = keys.map((key) => ({
    key,
    height: Math.max(
      key.startsWith("to ") ? 2 * LINE : 0,
      ...cells.flat().flatMap(({ row, height }) => (row === key ? [height] : [])),
    ),
  }));
  return { rows: rows.filter(({ height }) => height > 0), cells };
}

function fittedCell(cell: Cell, pitch: number): FittedCell {
  const wide = (cell.to - cell.from + 1) * pitch - GUTTER - 2 * PAD;
  const column = pitch - GUTTER - 2 * PAD;
  const linesOf = (words: readonly ChainWords[], width: number) =>
    words.flatMap((one) => (one.level ? levelIn(one, width - ARROW) : broken(one, width, 3)));
  const most = (columns: readonly (readonly FittedWords[])[]) =>
    Math.max(0, ...columns.map(({ length }) => length));
  if (cell.kind === "part") {
    const head = linesOf(cell.head, wide);
    const inner = cell.columns.map((words) => linesOf(words, column));
    const height = 2 * PAD + (head.length + most(inner)) * LINE + (most(inner) > 0 ? PAD : 0);
    return { cell, row: cell.stage, head, inner, outer: [], height };
  }
  const beside = pitch - GUTTER - WIRE - WORDS;
  const onWire = 2 * wireColumn(cell) * pitch - GUTTER - 2 * PAD;
  const head = linesOf(cell.head, cell.to > cell.from ? onWire : beside);
  const [inner, outer] = [cell.inner, cell.outer].map((columns) =>
    columns.map((words) => linesOf(words, beside)),
  );
  const height = 2 * PAD + (most(inner!) + head.length + most(outer!)) * LINE + 2 * apart(cell);
  // Beside the part that it leads to; the wire goes on through stages that its branch has not.
  return { cell, row: `to ${nextStage(cell)}`, head, inner: inner!, outer: outer!, height };
}

/** Behind so many of its columns the wire of several stands. */
export function wireColumn({ from, to }: Cell): number {
  return Math.floor((to - from + 1) / 2);
}

function levelIn(words: ChainWords, width: number): FittedWords[] {
  const text = words.brief !== undefined && widthOf(words) > width ? words.brief : words.text;
  return broken({ ...words, text }, width, 1);
}

/** Words of a joint that several share stand apart from the levels of each. */
export function apart({ from, to }: Cell): number {
  return to > from ? PAD / 2 : 0;
}

function nextStage({ between: [, to] }: JointCell): Stage {
  return to;
}
