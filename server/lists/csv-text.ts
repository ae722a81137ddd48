/** CSV (RFC 4180) that stays what it is in a spreadsheet: no text of it is ever taken for a formula. */

import { withoutSteering } from "../../shared/format/steering.js";
import { guarded } from "./formula-guard.js";

export type CsvCell = string | number | boolean | undefined;

/** Texts that would be formulas have an apostrophe before them, which reading takes away; figures stay figures. */
export function csvText(rows: Iterable<readonly CsvCell[]>): string {
  return [...rows].map((cells) => `${cells.map(cellText).join(",")}\r\n`).join("");
}

function cellText(cell: CsvCell): string {
  if (cell === undefined) return "";
  if (typeof cell !== "string") return String(cell);
  const plain = withoutSteering(cell, (sign) => (/[\t\n\r]/.test(sign) ? sign : "\ufffd"));
  const safe = guarded(plain);
  return /[",\r\n]|^\s|\s$/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
