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

export function readOthersFile(path: string, list: OthersList): Promise<OthersFile> {
  return told(async () => readOthers(await readBounded(path, MOST_FILE_BYTES), list));
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

/** @throws what the parser says of bytes that are no table */
export async function readOthers(bytes: Uint8Array, list: OthersList): Promise<OthersFile> {
  const text = textIn(bytes);
  const records = Readable.from(slices(text)).pipe(parseStream(optionsFor(text) as object));
  let reading: OthersReading | undefined;
  let beyond: true | undefined;
  for await (const { line, cells } of records as AsyncIterable<PatternRow>) {
    if (cells.every((cell) => cell.trim() === "")) continue;
    if (reading === undefined) reading = new OthersReading(list, cells);
    else if (reading.rows < MOST_ROWS) reading.take(line, cells);
    else {
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

/** As bytes, which a parser puts together across a cut. */
async function* slices(text: string): AsyncGenerator<Uint8Array> {
  const bytes = Buffer.from(text);
  for (let at = 0; at < bytes.length; at += SLICE) {
    yield bytes.subarray(at, at + SLICE);
    await new Promise<void>((resolve) => void setImmediate(resolve));
  }
}
