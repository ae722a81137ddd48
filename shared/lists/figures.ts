/** Figures in cells: with the decimal mark of the list, with a unit behind them or not. */
import { plainDecimal } from "../units/decimal.js";
import { type Dimension, findUnit } from "../units/units.js";
import { unitOf } from "./heads.js";
import { type Cell, textOf } from "./table.js";

export type DecimalMark = "." | ",";

export interface Figure {
  /** In the base unit of the dimension. */
  readonly value: number;
  /** As it stands, in the unit that it was read in. */
  readonly number: number;
  readonly unit: string;
  /** How much the last digit that was written is worth, in the base unit. */
  readonly step: number;
}

export type ReadFigure =
  | { readonly ok: true; readonly figure: Figure }
  | { readonly ok: false; readonly reason: string };

const WITH_UNIT = /^([+\-−]?[\d.,' \u2019]*\d[.,]?)\s*([^\d\s].*)?$/;

/**
 * @param unit symbol that the column has
 * @example readFigure("12,5 ft", "length", "m", ",") // 3.81 m, 12.5 in ft
 */
export function readFigure(cell: Cell, dimension: Dimension, unit: string, mark: DecimalMark): ReadFigure {
  if (typeof cell === "object")
    return no(`holds the date ${cell.date}: a spreadsheet has made one of a figure`);
  const text = textOf(cell);
  const [, digits, behind] = WITH_UNIT.exec(text) ?? [];
  if (digits === undefined) return no(`"${short(text)}" is no figure`);
  const named = behind === undefined ? undefined : unitOf(behind.trim());
  if (behind !== undefined && named?.dimension !== dimension)
    return no(`"${short(text)}" is no figure in ${unit}`);
  const number = typeof cell === "number" ? cell : numberOf(digits, mark);
  if (number === undefined || !Number.isFinite(number)) return no(`"${short(text)}" is no figure`);
  const symbol = named?.symbol ?? unit;
  const { unit: found } = findUnit(symbol, dimension)!;
  const value = found.toBase(number);
  if (!Number.isFinite(value)) return no(`"${short(text)}" is no figure in ${symbol}`);
  const step = Math.abs(found.toBase(number + stepOf(plainText(number))) - value);
  return { ok: true, figure: { value, number, unit: symbol, step } };
}

/** As the language has it: `30.5 m`. */
export function figureText({ number, unit }: Figure): string {
  return `${plainText(number)} ${unit}`;
}

function no(reason: string): ReadFigure {
  return { ok: false, reason };
}

/** Digits without an exponent, which the language does not need and nobody wrote. */
export function plainText(number: number): string {
  const text = String(number);
  return /e/i.test(text) ? number.toFixed(12).replace(/\.?0+$/, "") : text;
}

/** What one of the last digit is worth: `30.25` to 0.01. */
export function stepOf(text: string): number {
  const point = text.indexOf(".");
  return point < 0 ? 1 : 10 ** -(text.length - 1 - point);
}

/** A number without a unit; groups of thousands are read where they cannot be decimals. */
export function numberOf(text: string, mark: DecimalMark): number | undefined {
  const tight = text.trim().replace(/[\s'\u2019\u00a0\u202f](?=\d{3}(?!\d))/g, "");
  const group = mark === "," ? "." : ",";
  const parts = tight.split(group);
  const grouped =
    parts.length > 1 &&
    parts.slice(1).every((part, i) => /^\d{3}$/.test(i === parts.length - 2 ? part.split(mark)[0]! : part));
  // A lone group may as well be the other decimal mark: 12.5 in a list with commas.
  const plain =
    parts.length > 2 || (parts.length === 2 && tight.includes(mark))
      ? grouped
        ? parts.join("")
        : undefined
      : parts.length === 2
        ? tight.replace(group, mark)
        : tight;
  return plain === undefined ? undefined : plainDecimal(plain.replace(mark, "."));
}

/** Which mark parts the decimals of these texts, and how many of them speak for it. */
export function decimalMarkOf(texts: Iterable<string>): {
  readonly mark: DecimalMark;
  readonly mixed: number;
  readonly doubtful: number;
} {
  let [commas, points, doubtful] = [0, 0, 0];
  for (const text of texts) {
    if (/\d,\d/.test(text) && /\d\.\d/.test(text)) {
      if (text.lastIndexOf(",") > text.lastIndexOf(".")) commas++;
      else points++;
    } else if (/^[+\-−]?[1-9]\d{0,2},\d{3}$/.test(text.trim())) doubtful++;
    else if (/^[^,]*\d,\d[^,]*$/.test(text)) commas++;
    else if (/\d\.\d/.test(text)) points++;
  }
  const mark = commas > points || (commas === points && doubtful > 0 && points === 0) ? "," : ".";
  return { mark, mixed: Math.min(commas, points), doubtful: commas + points === 0 ? doubtful : 0 };
}

const MOST_SHOWN = 40;

/** A cell as a message quotes it. */
export function short(text: string): string {
  return text.length > MOST_SHOWN ? `${text.slice(0, MOST_SHOWN)}…` : text;
}
