import { readFile } from "node:fs/promises";
import { parse } from "csv-parse/sync";
import { type SurveyProfile, type SurveyRow, surveyProfile } from "../../shared/terrain/survey.js";
import { reasonOf } from "../files/hop-files.js";
import { TerrainFileError } from "./raster-file.js";

/** Header names of the columns, any letter case: the unit is part of the name, so that it is never guessed. */
const COLUMNS: Readonly<Record<string, { field: keyof SurveyRow; scale: number }>> = {
  distance_m: { field: "distanceM", scale: 1 },
  distance_km: { field: "distanceM", scale: 1000 },
  height_m: { field: "heightM", scale: 1 },
  cover_m: { field: "coverM", scale: 1 },
};
const EXAMPLE =
  "begin the file with the line distance_m,height_m,cover_m (distance_km also serves; cover_m may be left out)";

/**
 * Reads a surveyed profile: a CSV with a header line and one row a point, in order from end 1.
 * The delimiter is the comma, the semicolon or the tab, whichever the header line holds; with a semicolon or a tab
 * numbers may have a decimal comma.
 * @throws TerrainFileError saying the line and the remedy
 */
export function parseSurvey(text: string): SurveyRow[] {
  const headerLine = text.replace(/^\uFEFF/, "").split(/\r?\n/, 1)[0]!;
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
  for (const field of ["distanceM", "heightM"] as const) {
    const found = columns.filter((c) => c?.field === field).length;
    if (found !== 1) {
      throw new TerrainFileError(
        `has ${found === 0 ? "no" : "two"} ${field === "heightM" ? "height" : "distance"} column`,
        EXAMPLE,
      );
    }
  }
  return table.map(({ record, info }) => {
    const row: { -readonly [K in keyof SurveyRow]?: number } = {};
    columns.forEach((column, i) => {
      if (!column) return;
      const cell = record[i] ?? "";
      if (cell === "" && column.field === "coverM") return;
      const value = cell === "" ? Number.NaN : Number(delimiter === "," ? cell : cell.replace(",", "."));
      if (!Number.isFinite(value)) {
        throw new TerrainFileError(
          `line ${info.lines}: "${cell.slice(0, 20)}" is no number`,
          "correct that line",
        );
      }
      row[column.field] = value * column.scale;
    });
    return row as SurveyRow;
  });
}

/**
 * Reads a survey from disk and brings it to the equal spacing of a profile.
 * @param shownAs the file as it is to be named in `sources`
 * @throws TerrainFileError when the file cannot be read or used
 */
export async function readSurvey(
  path: string,
  shownAs: string,
  pathLengthM: number,
  stepM?: number,
): Promise<SurveyProfile> {
  let text: string;
  try {
    text = await readFile(path, "utf8");
  } catch (error) {
    const remedies: Readonly<Record<string, string>> = {
      EACCES: "mend its rights",
      EPERM: "mend its rights",
      EISDIR: "name the file in it",
    };
    const remedy = remedies[(error as { code?: string }).code ?? ""] ?? "correct the name";
    throw new TerrainFileError(reasonOf(error), remedy);
  }
  const rows = parseSurvey(text);
  try {
    return surveyProfile(rows, pathLengthM, shownAs, stepM);
  } catch (error) {
    throw new TerrainFileError(error instanceof Error ? error.message : String(error), "correct the survey");
  }
}
