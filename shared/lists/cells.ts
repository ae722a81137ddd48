/** The cells of a sheet whose columns are known: as texts, words and figures. What cannot be read is told. */
import type { Dimension } from "../units/units.js";
import { type Columns, type ColumnUse, called } from "./columns.js";
import type { Source, Told } from "./facts.js";
import type { FieldKey } from "./field.js";
import {
  type DecimalMark,
  decimalMarkOf,
  type Figure,
  numberOf,
  type ReadFigure,
  readFigure,
  short,
} from "./figures.js";
import { type Cell, type Sheet, type SheetRow, textOf } from "./table.js";
import { wordFor } from "./values.js";

/** Which end of a hop a column speaks of; undefined: of none, or of both alike. */
export type Side = "a" | "b" | undefined;

const MOST_SAMPLED = 2_000;
const MOST_KEPT = 20_000;
/** Below this a frequency without a unit is one in GHz, above the other in Hz or kHz. */
const MOST_GHZ = 150;
const MOST_MHZ = 150_000;

export class Cells {
  readonly told: Told[] = [];
  readonly remarks: string[] = [];
  readonly mark: DecimalMark;
  readonly units = new Map<ColumnUse, string>();
  /** Figures that stand there as text. */
  asText = 0;
  private readonly by = new Map<string, ColumnUse>();
  private readonly figures = new Map<ColumnUse, Map<string, ReadFigure>>();

  constructor(
    readonly sheet: Sheet,
    readonly columns: Columns,
  ) {
    for (const use of columns.uses) this.by.set(`${use.field.key} ${use.end ?? ""} ${use.part ?? ""}`, use);
    this.mark = this.decimalMark();
    for (const use of columns.uses) if (use.field.figure) this.units.set(use, this.unitFor(use));
  }

  use(key: FieldKey, side: Side, part = ""): ColumnUse | undefined {
    return this.by.get(`${key} ${side ?? ""} ${part}`);
  }

  cellText(row: SheetRow, key: FieldKey, side: Side, part = ""): string | undefined {
    const use = this.use(key, side, part);
    const text = use && textOf(row.cells[use.index]);
    // What stands for nothing, in all but a title, which may be called so.
    return text === "" || (key !== "title" && /^(?:[-–—]|n\/a)$/i.test(text ?? "")) ? undefined : text;
  }

  /** Of this end, or of both alike where one column speaks of both. */
  text(row: SheetRow, key: FieldKey, side: Side): string | undefined {
    const own = this.cellText(row, key, side);
    return (
      own ??
      (side !== undefined && !PLACE.has(key) && key !== "radio"
        ? this.cellText(row, key, undefined)
        : undefined)
    );
  }

  word(row: SheetRow, key: FieldKey, side: Side, from: Source): string | undefined {
    const text = this.text(row, key, side);
    if (text === undefined) return undefined;
    const word = wordFor(key, text);
    if (word === undefined)
      this.tell(
        from,
        "cell",
        `"${short(text)}" is no ${this.use(key, side)?.field.called ?? key} that is known`,
      );
    return word;
  }

  figure(row: SheetRow, key: FieldKey, side: Side, from: Source): Figure | undefined {
    const use =
      this.use(key, side) ?? (side !== undefined && !PLACE.has(key) ? this.use(key, undefined) : undefined);
    const dimension = use?.field.figure?.dimension;
    if (!use || !dimension) return undefined;
    const cell: Cell = row.cells[use.index];
    const text = this.text(row, key, use.end);
    if (text === undefined) return undefined;
    const read = this.figureOf(cell, text, use, dimension);
    if (!read.ok) {
      this.tell(from, "cell", `${called(use, this.columns.kind)} ${read.reason}`);
      return undefined;
    }
    if (use.field.figure?.positive && read.figure.value < 0) {
      this.tell(from, "cell", `${called(use, this.columns.kind)} ${short(text)} is below zero`);
      return undefined;
    }
    if (this.sheet.how.startsWith("XLSX") && typeof cell === "string" && !/[a-z]/i.test(cell)) this.asText++;
    return read.figure;
  }

  /** Long lists say few figures many times. */
  private figureOf(cell: Cell, text: string, use: ColumnUse, dimension: Dimension): ReadFigure {
    let known = this.figures.get(use);
    if (!known || known.size > MOST_KEPT) this.figures.set(use, (known = new Map()));
    const before = typeof cell === "object" ? undefined : known.get(text);
    if (before) return before;
    const read = readFigure(cell, dimension, this.units.get(use)!, this.mark);
    if (typeof cell !== "object") known.set(text, read);
    return read;
  }

  private decimalMark(): DecimalMark {
    const figures = this.columns.uses.filter(({ field }) => field.figure || PLACE.has(field.key));
    const texts = this.columns.rows
      .slice(0, MOST_SAMPLED)
      .flatMap(({ cells }) =>
        figures.flatMap(({ index }) => (typeof cells[index] === "string" ? [textOf(cells[index])] : [])),
      )
      .filter((text) => text.length < 40 && !/\d[,;]\s+[-+\d]/.test(text));
    const { mark, mixed, doubtful } = decimalMarkOf(texts);
    if (mixed > 0)
      this.remarks.push(
        `decimal commas and points stand beside each other; a ${mark === "," ? "comma" : "point"} is the usual one here`,
      );
    if (doubtful > 0)
      this.remarks.push(
        `figures such as ${texts.find((text) => /^\d{1,3},\d{3}$/.test(text))} may be decimals or thousands: taken as decimals`,
      );
    return mark;
  }

  private unitFor(use: ColumnUse): string {
    const { field, unit } = use;
    if (unit !== undefined) return unit;
    const { dimension, usual } = field.figure!;
    if (dimension !== "frequency") return usual;
    const numbers = this.sampled(use);
    const most = Math.max(...numbers, 0);
    if (field.key !== "frequency") return most >= 1000 ? (most >= 1e6 ? "Hz" : "kHz") : "MHz";
    return most <= MOST_GHZ ? "GHz" : most <= MOST_MHZ ? "MHz" : most <= MOST_MHZ * 1000 ? "kHz" : "Hz";
  }

  sampled({ index }: ColumnUse): number[] {
    return this.columns.rows.slice(0, MOST_SAMPLED).flatMap(({ cells }) => {
      const cell = cells[index];
      const number = typeof cell === "number" ? cell : numberOf(textOf(cell), this.mark);
      return number === undefined ? [] : [number];
    });
  }

  once(remark: string): void {
    if (!this.remarks.includes(remark)) this.remarks.push(remark);
  }

  tell(from: Source, what: Told["what"], reason: string): void {
    this.told.push({ from, what, reason });
  }
}

/** Fields that say where a row lies. */
export const PLACE: ReadonlySet<FieldKey> = new Set([
  "site",
  "latitude",
  "longitude",
  "position",
  "easting",
  "northing",
]);
