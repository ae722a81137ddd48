/**
 * Workbooks (ISO/IEC 29500-1, SpreadsheetML): values alone. A formula counts by the value that it had when the book was
 * saved; nothing is computed. Read with the same bounded archive and XML reader as everything else of strangers.
 */
import type { Cell, Sheet, SheetRow } from "../../../shared/lists/table.js";
import { LONGEST_CELL, MOST_COLUMNS, MOST_ROWS, MOST_TEXTS, UnfitList } from "./bounds.js";
import { readXml } from "./xml.js";
import { ZipParts } from "./zip-parts.js";

/** @throws UnfitList where it is no workbook that can be read */
export function readXlsx(name: string, bytes: Uint8Array): Sheet[] {
  const parts = new ZipParts(bytes);
  const book = textOf(parts, "xl/workbook.xml");
  if (book === undefined) throw new UnfitList("it holds no workbook");
  const targets = relationsOf(textOf(parts, "xl/_rels/workbook.xml.rels") ?? "");
  const { sheets, is1904 } = sheetsOf(book);
  const strings = stringsOf(textOf(parts, "xl/sharedStrings.xml") ?? "");
  const dates = dateStylesOf(textOf(parts, "xl/styles.xml") ?? "");
  return sheets.flatMap(({ title, relation, hidden }) => {
    const target = targets.get(relation);
    const text = target && textOf(parts, target.startsWith("/") ? target.slice(1) : `xl/${target}`);
    if (text === undefined) return [];
    const { rows, notes, spread, unread } = rowsOf(text, strings, dates, is1904);
    const shown = sheets.length === 1 ? name : `${name} [${title}]`;
    return [
      { name: shown, rows, spread, unread, how: `XLSX, sheet "${title}"${hidden ? ", hidden" : ""}`, notes },
    ];
  });
}

function textOf(parts: ZipParts, name: string): string | undefined {
  const bytes = parts.read(name);
  return bytes && new TextDecoder().decode(bytes);
}

const IGNORE = { open: () => {}, close: () => {}, text: () => {} };

function relationsOf(text: string): Map<string, string> {
  const targets = new Map<string, string>();
  if (text !== "")
    readXml(text, {
      ...IGNORE,
      open: (name, { Id, Target }) => {
        if (name === "Relationship" && Id !== undefined && Target !== undefined) targets.set(Id, Target);
      },
    });
  return targets;
}

function sheetsOf(text: string) {
  const sheets: { readonly title: string; readonly relation: string; readonly hidden: boolean }[] = [];
  let is1904 = false;
  readXml(text, {
    ...IGNORE,
    open: (name, attributes) => {
      if (name === "workbookPr") is1904 = /^(1|true)$/.test(attributes.date1904 ?? "");
      if (name !== "sheet") return;
      const relation = Object.entries(attributes).find(([key]) => key.endsWith(":id"))?.[1];
      const hidden = attributes.state !== undefined && attributes.state !== "visible";
      if (relation !== undefined) sheets.push({ title: attributes.name ?? "", relation, hidden });
    },
  });
  return { sheets, is1904 };
}

function stringsOf(text: string): string[] {
  const strings: string[] = [];
  if (text === "") return strings;
  let [current, inText, inPhonetic] = ["", false, false];
  readXml(text, {
    open: (name) => {
      if (name === "si") current = "";
      else if (name === "t") inText = true;
      else if (name === "rPh") inPhonetic = true;
    },
    close: (name) => {
      if (name === "si") {
        if (strings.length >= MOST_TEXTS) throw new UnfitList(`it holds more than ${MOST_TEXTS} texts`);
        strings.push(current.slice(0, LONGEST_CELL));
      } else if (name === "t") inText = false;
      else if (name === "rPh") inPhonetic = false;
    },
    text: (piece) => {
      if (inText && !inPhonetic && current.length <= LONGEST_CELL) current += piece;
    },
  });
  return strings;
}

/** Numbers of the standard's own formats that are dates or times. */
const isDateFormat = (id: number) => (id >= 14 && id <= 22) || (id >= 45 && id <= 47);

/** Which styles show a number as a date. */
function dateStylesOf(text: string): boolean[] {
  const dates: boolean[] = [];
  if (text === "") return dates;
  const own = new Map<number, boolean>();
  let inCells = false;
  readXml(text, {
    ...IGNORE,
    open: (name, { numFmtId, formatCode = "" }) => {
      if (name === "numFmt")
        own.set(Number(numFmtId), /[ymdhs]/i.test(formatCode.replace(/"[^"]*"|\[[^\]]*\]|\\./g, "")));
      else if (name === "cellXfs") inCells = true;
      else if (name === "xf" && inCells) {
        const id = Number(numFmtId ?? 0);
        dates.push(own.get(id) ?? isDateFormat(id));
      }
    },
    close: (name) => {
      if (name === "cellXfs") inCells = false;
    },
  });
  return dates;
}

function rowsOf(text: string, strings: readonly string[], dates: readonly boolean[], is1904: boolean) {
  const rows: SheetRow[] = [];
  const notes: string[] = [];
  let [line, cells, column, type, style, value, inValue, formulas, over] = [
    0,
    [] as Cell[],
    -1,
    "",
    0,
    "",
    false,
    0,
    false,
  ];
  const merged: string[] = [];
  readXml(text, {
    open: (name, attributes) => {
      if (name === "mergeCell" && merged.length < MOST_MERGED) merged.push(attributes.ref ?? "");
      else if (name === "row") {
        line = attributes.r === undefined ? line + 1 : Number(attributes.r);
        [cells, column] = [[], -1];
      } else if (name === "c") {
        column = attributes.r === undefined ? column + 1 : columnOf(attributes.r);
        [type, style, value] = [attributes.t ?? "n", Number(attributes.s ?? 0), ""];
      } else if (name === "v" || name === "t") inValue = true;
      else if (name === "f") formulas++;
    },
    close: (name) => {
      if (name === "v" || name === "t") inValue = false;
      else if (name === "c" && value !== "") {
        if (column < MOST_COLUMNS)
          cells[column] = cellOf(type, value, strings, dates[style] ?? false, is1904);
        else over = true;
      } else if (name === "row" && cells.length > 0) {
        if (rows.length < MOST_ROWS) rows.push({ line, cells: Array.from(cells) });
        else if (rows.length === MOST_ROWS && !notes.some((note) => note.startsWith("only")))
          notes.push(`only the first ${MOST_ROWS} rows are read: part the list`);
      }
    },
    text: (piece) => {
      if (inValue && value.length <= LONGEST_CELL) value += piece;
    },
  });
  if (formulas > 0)
    notes.push(
      `${formulas} ${formulas === 1 ? "cell is a formula" : "cells are formulas"}: taken by the value last saved`,
    );
  if (over) notes.push(`columns beyond the ${MOST_COLUMNS}th are not read`);
  const unread = over || notes.some((note) => note.startsWith("only")) ? (true as const) : undefined;
  return { rows, notes, spread: spreadOver(rows, merged), unread };
}

const MOST_MERGED = 10_000;
/** Heads stand no deeper; further down a merged cell is a row's own matter. */
const HEAD_ROWS = 25;

/** Puts the text of a cell over several columns into each of them. */
function spreadOver(rows: SheetRow[], merged: readonly string[]): true | undefined {
  let spread: true | undefined;
  for (const reference of merged) {
    const [from, to] = reference.split(":") as [string, string?];
    const line = Number(/\d+$/.exec(from)?.[0]);
    if (to === undefined || !(line <= HEAD_ROWS)) continue;
    const at = rows.findIndex((row) => row.line === line);
    const [first, last] = [columnOf(from), Math.min(columnOf(to), MOST_COLUMNS - 1)];
    const cell = rows[at]?.cells[first];
    if (cell === undefined || last <= first) continue;
    const cells = Array.from(rows[at]!.cells);
    for (let column = first; column <= last; column++) cells[column] = cell;
    rows[at] = { line, cells: Array.from(cells) };
    spread = true;
  }
  return spread;
}

/** `AB12` to 27. */
function columnOf(reference: string): number {
  let column = 0;
  for (const letter of /^[A-Z]*/i.exec(reference)![0].toUpperCase())
    column = column * 26 + letter.charCodeAt(0) - 64;
  return column - 1;
}

function cellOf(
  type: string,
  value: string,
  strings: readonly string[],
  isDate: boolean,
  is1904: boolean,
): Cell {
  switch (type) {
    case "s":
      return strings[Number(value)];
    case "b":
      return value === "1";
    case "str":
    case "inlineStr":
    case "e":
      return value;
    case "d":
      return { date: value };
    default: {
      const number = Number(value);
      if (!Number.isFinite(number)) return value;
      return isDate ? dateOf(number, is1904) : number;
    }
  }
}

const DAY_MS = 86_400_000;

/** Days since the end of 1899, or since 1904. */
function dateOf(serial: number, is1904: boolean): Cell {
  const date = new Date((serial - (is1904 ? 24_107 : 25_569)) * DAY_MS);
  return Number.isNaN(date.getTime()) ? serial : { date: date.toISOString().slice(0, 10) };
}
