import { parse } from "csv-parse/sync";
import type { Sheet, SheetRow } from "../../../shared/lists/table.js";
import { unguarded } from "../formula-guard.js";
import { LONGEST_CELL, LONGEST_LINE, MOST_COLUMNS, MOST_ROWS, UnfitList } from "./bounds.js";
import { decode } from "./decode.js";

const DELIMITERS: Readonly<Record<string, string>> = {
  ";": "semicolon",
  "\t": "tab",
  ",": "comma",
  "|": "vertical bar",
};

/** @throws UnfitList where it is no CSV */
export function readCsv(name: string, bytes: Uint8Array): Sheet {
  const { text: decoded, encoding, notes: told } = decode(bytes);
  const { text, notes: long } = withoutLongLines(decoded.replaceAll("\0", ""));
  const delimiter = delimiterOf(text);
  const notes = [...told, ...long];
  let unread: true | undefined = long.length > 0 ? true : undefined;
  const kept = new Map<string, string>();
  let rows: SheetRow[];
  try {
    // Its types know rows of texts alone, not what on_record makes of them.
    const options = {
      bom: true,
      delimiter,
      relax_column_count: true,
      relax_quotes: true,
      skip_empty_lines: false,
      record_delimiter: ["\r\n", "\n", "\r"],
      to: MOST_ROWS + 1,
      on_record: (cells: string[], { lines }: { lines: number }): SheetRow => ({
        line: lines,
        cells: shortened(cells, kept),
      }),
    };
    rows = parse(text, options as object) as unknown as SheetRow[];
  } catch (error) {
    throw new UnfitList((error instanceof Error ? error.message : String(error)).split("\n")[0]!);
  }
  if (rows.length > MOST_ROWS) {
    rows.length = MOST_ROWS;
    unread = true;
    notes.push(`only the first ${MOST_ROWS} rows are read: part the list`);
  }
  return { name, rows, how: `CSV, ${DELIMITERS[delimiter]}, ${encoding}`, notes, unread };
}

function shortened(cells: string[], kept: Map<string, string>): string[] {
  if (cells.length > MOST_COLUMNS) cells.length = MOST_COLUMNS;
  return cells.map((cell) =>
    once(cell.length > LONGEST_CELL ? cell.slice(0, LONGEST_CELL) : unguarded(cell), kept),
  );
}

const MOST_KEPT = 200_000;

/** Long lists say few things many times: each is held once. */
function once(cell: string, kept: Map<string, string>): string {
  const known = kept.get(cell);
  if (known !== undefined) return known;
  if (kept.size < MOST_KEPT) kept.set(cell, cell);
  return cell;
}

function withoutLongLines(text: string): { readonly text: string; readonly notes: readonly string[] } {
  const kept: string[] = [];
  const long: number[] = [];
  let [start, line, from] = [0, 1, 0];
  for (let end = text.indexOf("\n"); ; end = text.indexOf("\n", start)) {
    const stop = end < 0 ? text.length : end;
    if (stop - start > LONGEST_LINE) {
      kept.push(text.slice(from, start));
      from = stop;
      long.push(line);
    }
    if (end < 0) break;
    start = end + 1;
    line++;
  }
  if (long.length === 0) return { text, notes: [] };
  kept.push(text.slice(from));
  return {
    text: kept.join(""),
    notes: long.map((at) => `line ${at} is longer than ${LONGEST_LINE} characters and is not read`),
  };
}

const SAMPLED_LINES = 50;

/** The one that most lines hold, and hold alike; decimal commas are no delimiters where semicolons stand. */
export function delimiterOf(text: string): string {
  const lines = text
    .slice(0, 200_000)
    .replace(/"(?:[^"]|"")*"/g, "")
    .split(/\r\n|\n|\r/)
    .slice(0, SAMPLED_LINES)
    .filter((line) => line.trim() !== "");
  const scored = Object.keys(DELIMITERS).map((delimiter) => {
    const counts = lines.map((line) => line.split(delimiter).length - 1);
    const usual = counts.toSorted((a, b) => a - b)[Math.floor(counts.length / 2)] ?? 0;
    const alike = counts.filter((count) => count === usual).length;
    return {
      delimiter,
      score: usual === 0 ? Math.max(0, ...counts) / 1000 : alike / counts.length + usual / 1000,
    };
  });
  return scored.reduce((best, one) =>
    one.score > best.score + (best.delimiter === ";" && best.score > 0.01 ? 0.3 : 0) ? one : best,
  ).delimiter;
}
