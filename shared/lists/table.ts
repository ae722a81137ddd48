/** A sheet as it was read: rows of cells with the line that each stands in, before anything is known of its meaning. */

/** A date is what a spreadsheet holds as one, or made one of a figure: `2026-05-01`. */
export type Cell = string | number | boolean | { readonly date: string } | undefined;

export interface SheetRow {
  /** Line of the file, row of the sheet, or number of the element, from 1. */
  readonly line: number;
  readonly cells: readonly Cell[];
}

export interface Sheet {
  /** For messages: the file, with the sheet behind it where it has several. */
  readonly name: string;
  readonly rows: readonly SheetRow[];
  /** How it was read: `CSV, semicolon, windows-1252`. */
  readonly how: string;
  /** What is to be known of the reading: rows cut off, formulas taken by their last value. */
  readonly notes: readonly string[];
  /** Heads are field names already, as of a map's features. */
  readonly headed?: true;
  /** What stands in a cell over several columns stands in each of them. */
  readonly spread?: true;
  /** Part of it is beyond what is read, as the notes tell. */
  readonly unread?: true;
}

/** Text of a cell without blanks around it, and without what nobody sees. */
export function textOf(cell: Cell): string {
  if (cell === undefined) return "";
  if (typeof cell === "object") return cell.date;
  return typeof cell === "string" ? plain(cell) : String(cell);
}

const UNSEEN = /[\p{Cf}\p{Cc}]+/gu;

/** Line ends, tabs and marks of direction are no part of a name or a figure. */
function plain(text: string): string {
  return text
    .replace(/[\s\u00a0\u202f]+/g, " ")
    .replace(UNSEEN, "")
    .trim()
    .normalize("NFC");
}
