/** The ground under a hop: a surveyed profile where the design names one, otherwise the terrain. */
import { readFileSync } from "node:fs";
import { parse as parseCsv } from "csv-parse/sync";
import type { Hop } from "../../shared/design/design.js";
import type { GroundInput } from "../../shared/evaluate/ground.js";
import { inverse } from "../../shared/geodesy/geodesic.js";
import type { TerrainProfile } from "../../shared/terrain/profile.js";
import { type SurveyRow, surveyProfile } from "../../shared/terrain/survey.js";
import { reasonOf } from "../files/hop-files.js";
import type { TerrainStore } from "../terrain/store.js";

/** The ground from what is in memory; undefined when a raster has to be read first. */
export function groundNow(hop: Hop, terrain: TerrainStore | undefined): GroundInput | undefined {
  const [from, to] = positionsOf(hop);
  if (!from || !to) return { groundM: [undefined, undefined], profileKind: "terrain", problem: "the sites' positions are not known" };
  if (hop.surveyFile !== undefined) return surveyGround(hop, hop.surveyFile, from, to);
  if (!terrain) return { groundM: [undefined, undefined], profileKind: "terrain", problem: "the network names no terrain" };
  const profile = terrain.profileSync(from, to);
  return profile && terrainGround(profile);
}

export async function ground(hop: Hop, terrain: TerrainStore | undefined): Promise<GroundInput> {
  const now = groundNow(hop, terrain);
  if (now) return now;
  const [from, to] = positionsOf(hop);
  return terrainGround(await terrain!.profile(from!, to!));
}

function positionsOf(hop: Hop) {
  return [hop.ends[0].site.position, hop.ends[1].site.position] as const;
}

/** Ground levels of the sites are the ends of the profile; a gap there leaves them unknown. */
function terrainGround(profile: TerrainProfile): GroundInput {
  return { profile, groundM: endHeights(profile), profileKind: "terrain" };
}

function endHeights(profile: TerrainProfile): readonly [number | undefined, number | undefined] {
  const known = (heightM: number | undefined) => (heightM !== undefined && Number.isFinite(heightM) ? heightM : undefined);
  return [known(profile.heightM[0]), known(profile.heightM.at(-1))];
}

type Position = { readonly latitudeDeg: number; readonly longitudeDeg: number };

function surveyGround(hop: Hop, file: string, from: Position, to: Position): GroundInput {
  try {
    const { distanceM } = inverse({ from, to });
    const rows = readSurvey(file);
    const profile = surveyProfile(hop.surveyReversed ? reversed(rows, distanceM) : rows, distanceM, file);
    return { profile, groundM: endHeights(profile), profileKind: "survey" };
  } catch (error) {
    const problem = `the survey ${file} cannot be used: ${reasonOf(error)}`;
    return { groundM: [undefined, undefined], profileKind: "survey", problem };
  }
}

/**
 * Rows of `distance, height` or `distance, height, cover` in metres, with or without a heading line.
 * Comma, semicolon or tab part the columns; the decimal sign is a point.
 */
export function readSurvey(file: string): SurveyRow[] {
  const text = readFileSync(file, "utf8");
  const delimiter = [";", "\t", ","].find((sign) => text.includes(sign)) ?? ",";
  const records = parseCsv(text, { delimiter, trim: true, skip_empty_lines: true, comment: "#", bom: true, relax_column_count: true }) as string[][];
  const numbers = records.map((record) => record.map(Number));
  const rows = Number.isNaN(numbers[0]?.[0]) ? numbers.slice(1) : numbers;
  return rows.map((row, index) => {
    const [distanceM, heightM, coverM] = row;
    if (distanceM === undefined || heightM === undefined || row.some(Number.isNaN)) {
      throw new Error(`row ${index + 1} is not "distance, height" in metres`);
    }
    return { distanceM, heightM, coverM };
  });
}

function reversed(rows: readonly SurveyRow[], lengthM: number): SurveyRow[] {
  return rows.map((row) => ({ ...row, distanceM: lengthM - row.distanceM })).reverse();
}
