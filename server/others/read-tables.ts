/** Tables that a design names for interference, others' transmissions and patterns: from bytes to what the core knows. */
import { Readable } from "node:stream";
import { parse as parseStream } from "csv-parse";
import { parse } from "csv-parse/sync";
import type { OthersList } from "../../shared/design/interference.js";
import { decimalMarkOf } from "../../shared/lists/figures.js";
import type { OthersFile } from "../../shared/others/listed.js";
import { OthersReading } from "../../shared/others/reading.js";
import { type PatternFile, type PatternRow, readPattern } from "../../shared/radio/pattern-table.js";
import { reasonOf } from "../files/hop-files.js";
import { readBounded } from "../files/read-bounded.js";
import { LONGEST_LINE, MOST_COLUMNS, MOST_FILE_BYTES, MOST_ROWS } from "../lists/read/bounds.js";
import { delimiterOf } from "../lists/read/csv.js";
import { decode } from "../lists/read/decode.js";

/** A slice that is parsed without letting other work in: some milliseconds. */
const SLICE = 64 * 2 ** 10;
const NO_ROWS = "it has no rows below a line of heads";
/** A pattern has some hundred points. */
const MOST_PATTERN_BYTES = 4 * 2 ** 20;

/** @param stamp of the state of the file: lists of one file that are read at the same time share its text */
export function readOthersFile(path: string, list: OthersList, stamp = ""): Promise<OthersFile> {
  return told(() => withText(path, stamp, (text) => rowsOf(text, list)));
}

export function readPatternFile(path: string): Promise<PatternFile> {
  return told(async () => patternIn(await readBounded(path, MOST_PATTERN_BYTES)));
}

/** What the system or the parser says of a file that is not there, or no table. */
async function told<T>(read: () => Promise<T>): Promise<T | { readonly unusable: string }> {
  try {
    return await read();
  } catch (error) {
    return { unusable: reasonOf(error).split("\n", 1)[0]! };
  }
}

/** A text as bytes in UTF-8, and what a parser of it has to know. */
interface TableText {
  readonly bytes: Uint8Array;
  readonly options: ReturnType<typeof optionsFor>;
}

const open = new Map<string, { users: number; readonly text: Promise<TableText> }>();

/** Held as long as anybody reads it: a large list takes a hundred megabytes. */
async function withText<T>(path: string, stamp: string, read: (text: TableText) => Promise<T>): Promise<T> {
  const key = `${stamp} ${path}`;
  let shared = open.get(key);
  if (shared === undefined) {
    shared = { users: 0, text: readBounded(path, MOST_FILE_BYTES).then(tableText) };
    open.set(key, shared);
  }
  shared.users++;
  try {
    return await read(await shared.text);
  } finally {
    if (--shared.users === 0) open.delete(key);
  }
}

function tableText(file: Uint8Array): TableText {
  const text = textIn(file);
  return { bytes: Buffer.from(text), options: optionsFor(text) };
}

/** @throws what the parser says of bytes that are no table */
async function rowsOf({ bytes, options }: TableText, list: OthersList): Promise<OthersFile> {
  const records = Readable.from(slices(bytes)).pipe(parseStream(options as object));
  let reading: OthersReading | undefined;
  let beyond: true | undefined;
  let columns = 0;
  for await (const { line, cells } of records as AsyncIterable<PatternRow>) {
    if (cells.every((cell) => cell.trim() === "")) continue;
    if (reading === undefined) {
      reading = new OthersReading(list, cells);
      columns = cells.length;
    } else if (reading.rows < MOST_ROWS) {
      const lost = rowsWithin(cells, options.delimiter, columns);
      if (lost > 0) reading.swallowed(line - lost, lost);
      reading.take(line, cells);
    } else {
      beyond = true;
      break;
    }
  }
  return reading === undefined || reading.rows === 0 ? { unusable: NO_ROWS } : reading.finish(beyond);
}

/** @throws what the parser says of bytes that are no table */
export function patternIn(bytes: Uint8Array): PatternFile {
  const text = textIn(bytes);
  const options = optionsFor(text);
  const rows = parse(text, options as object) as unknown as PatternRow[];
  const { mark } = decimalMarkOf(rows.flatMap(({ cells }) => cells));
  return readPattern(rows, options.delimiter === "," ? "." : mark);
}

/** Cells of the first line. @param bytes the beginning of a table @throws what the parser says of them */
export function headsIn(bytes: Uint8Array): readonly string[] {
  const text = textIn(bytes);
  const [first] = parse(text, { ...optionsFor(text), to: 1 } as object) as unknown as PatternRow[];
  return (first?.cells ?? []).map((cell) => cell.trim()).filter((cell) => cell !== "");
}

function textIn(bytes: Uint8Array): string {
  return decode(bytes)
    .text.replaceAll("\0", "")
    .replace(/^\uFEFF/, "");
}

/** What the parser's types do not know: a record is what `on_record` makes of its cells. */
function optionsFor(text: string) {
  return {
    delimiter: delimiterOf(text),
    relax_column_count: true,
    relax_quotes: true,
    record_delimiter: ["\r\n", "\n", "\r"],
    max_record_size: LONGEST_LINE,
    on_record: (cells: string[], { lines }: { lines: number }): PatternRow => {
      if (cells.length > MOST_COLUMNS) cells.length = MOST_COLUMNS;
      return { line: lines, cells };
    },
  };
}

/**
 * Lines that stand in one cell and look like rows, with as many delimiters as half of the columns: a quotation mark that
 * was none began it. An address over several lines has not as many.
 */
function rowsWithin(cells: readonly string[], delimiter: string, columns: number): number {
  const least = Math.max(1, (columns - 1) / 2);
  let count = 0;
  for (const cell of cells) {
    if (!/[\r\n]/.test(cell)) continue;
    const [, ...further] = cell.split(/\r\n|\n|\r/);
    // What follows the mark that ends it is outside of the last line.
    const isRows = further.slice(0, -1).some((line) => line.split(delimiter).length - 1 >= least);
    if (isRows || (further.at(-1)?.split(delimiter).length ?? 0) - 1 >= least) count += further.length;
  }
  return count;
}

/** As bytes, which a parser puts together across a cut. */
async function* slices(bytes: Uint8Array): AsyncGenerator<Uint8Array> {
  for (let at = 0; at < bytes.length; at += SLICE) {
    yield bytes.subarray(at, at + SLICE);
    await new Promise<void>((resolve) => void setImmediate(resolve));
  }
}
