import { parse } from "csv-parse/sync";
import type { SurveySource } from "../../shared/design/design.js";
import { type SurveyRow, surveyProfile } from "../../shared/terrain/survey.js";
import { plainDecimal } from "../../shared/units/decimal.js";
import { reasonOf } from "../files/hop-files.js";
import { readBounded, UnfitFile } from "../files/read-bounded.js";
import { TerrainFileError } from "./raster-file.js";

type Figure = "distanceM" | "heightM" | "coverM";

/**
 * Header names of the columns, any letter case: the unit is part of the name, so that it is never guessed. `ground_m` is
 * what `hopwright profile --format csv` calls the height.
 */
const COLUMNS: Readonly<Record<string, { field: Figure; scale: number }>> = {
  distance_m: { field: "distanceM", scale: 1 },
  distance_km: { field: "distanceM", scale: 1000 },
  height_m: { field: "heightM", scale: 1 },
  ground_m: { field: "heightM", scale: 1 },
  cover_m: { field: "coverM", scale: 1 },
};
const EXAMPLE =
  "begin the file with the line distance_m,height_m,cover_m (distance_km also serves; cover_m may be left out)";

/**
 * Reads a surveyed profile: a CSV with a header line and one row a point, in order from the end that it counts from.
 * The delimiter is the comma, the semicolon or the tab, whichever the header line holds; with a semicolon or a tab
 * numbers may have a decimal comma. Numbers are plain decimals. A cell without a height leaves it undefined.
 * @throws TerrainFileError saying the line and the remedy
 */
export function parseSurvey(text: string): SurveyRow[] {
  const headerLine = text.replace(/^\uFEFF/, "").split(/\r\n|\n|\r/, 1)[0]!;
  const delimiter = headerLine.includes(";") ? ";" : headerLine.includes("\t") ? "\t" : ",";
  let table: { record: string[]; info: { lines: number } }[];
  try {
    table = parse(text, { bom: true, delimiter, info: true, skip_empty_lines: true, trim: true }) as never;
  } catch (error) {
    throw new TerrainFileError(
      error instanceof Error ? error.message.split("\n")[0]! : String(error),
      "correct that line",
    );
  }
  const columns = (table.shift()?.record ?? []).map((name) => COLUMNS[name.toLowerCase()]);
  for (const [field, name] of [
    ["distanceM", "distance"],
    ["heightM", "height"],
    ["coverM", "cover"],
  ] as const) {
    const found = columns.filter((c) => c?.field === field).length;
    if (found > 1 || (found === 0 && field !== "coverM"))
      throw new TerrainFileError(
        `has ${found === 0 ? "no" : "two"} ${name} column${found > 1 ? "s" : ""}`,
        EXAMPLE,
      );
  }
  return table.map(({ record, info }) => {
    const row: { -readonly [K in keyof SurveyRow]?: SurveyRow[K] } = { line: info.lines };
    columns.forEach((column, i) => {
      if (!column) return;
      const cell = record[i] ?? "";
      if (cell === "" && column.field !== "distanceM") return;
      const value = plainDecimal(delimiter === "," ? cell : cell.replace(",", "."));
      if (value === undefined) {
        throw new TerrainFileError(
          `line ${info.lines}: "${cell.slice(0, 20)}" is no number in plain decimals`,
          "correct that line",
        );
      }
      row[column.field] = value * column.scale;
    });
    return row as SurveyRow;
  });
}

/** A survey is some hundred kilobytes at most; a larger file is something else, and not read. */
const MOST_BYTES = 16 * 2 ** 20;

/**
 * Reads a survey from disk and puts it on its path.
 * @param shownAs the file as it is to be named in `sources`
 * @throws TerrainFileError when the file cannot be read or used
 */
export async function readSurvey(
  path: string,
  shownAs: string,
  pathLengthM: number,
  source: SurveySource,
): Promise<ReturnType<typeof surveyProfile>> {
  let bytes: Uint8Array;
  try {
    bytes = await readBounded(path, MOST_BYTES);
  } catch (error) {
    throw new TerrainFileError(reasonOf(error), remedyFor(error));
  }
  if (bytes.includes(0)) throw new TerrainFileError("it is no text in UTF-8", "save it as CSV in UTF-8");
  const text = new TextDecoder().decode(bytes);
  const rows = parseSurvey(text);
  try {
    return surveyProfile(rows, pathLengthM, shownAs, source);
  } catch (error) {
    throw new TerrainFileError(error instanceof Error ? error.message : String(error), "correct the survey");
  }
}

function remedyFor(error: unknown): string {
  const { code } = error as { code?: string };
  if (code === "EACCES" || code === "EPERM") return "mend its rights";
  return error instanceof UnfitFile ? "name the survey of this path" : "correct the name";
}
