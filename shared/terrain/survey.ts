import { assembleProfile, intervalsFor, MOST_PROFILE_POINTS, type TerrainProfile } from "./profile.js";
import { UNCOVERED } from "./sample.js";

/** One point of a surveyed path. */
export interface SurveyRow {
  /** Metres from end 1. */
  readonly distanceM: number;
  /** Ground, metres above sea level. */
  readonly heightM: number;
  /** Trees or buildings on it, metres above ground; 0 where the survey says nothing. */
  readonly coverM?: number | undefined;
}

export interface SurveyProfile extends TerrainProfile {
  /** Metres above ground at each sample; undefined when no row tells of cover. */
  readonly coverM: Float64Array | undefined;
  /** One line each: what the survey does not agree with. */
  readonly warnings: readonly string[];
}

/** A survey whose length is off by more than this is not stretched to the path. */
const LENGTH_TOLERANCE = 0.01;
const COARSEST_STEP_M = 50;

/**
 * Brings a surveyed profile to equal spacing.
 *
 * Between surveyed points ground and cover run straight. No surveyed point is lowered by the resampling: the sample
 * nearest to it is raised to it where needed. A survey within 1 % of the path's length is stretched to it; beyond
 * that it is taken as measured, a warning says so, and what it does not reach is a gap.
 * @param pathLengthM length of the path that was surveyed, > 0
 * @param stepM at most this spacing; default: half the closest spacing of the survey, at most 50 m
 * @throws Error naming the row when distances do not rise or a value is not finite; with fewer than two rows
 */
export function surveyProfile(
  rows: readonly SurveyRow[],
  pathLengthM: number,
  file: string,
  stepM?: number,
): SurveyProfile {
  checkRows(rows, pathLengthM);
  const first = rows[0]!.distanceM;
  const last = rows.at(-1)!.distanceM;
  const off = last / pathLengthM - 1;
  const stretch = Math.abs(off) <= LENGTH_TOLERANCE ? pathLengthM / last : 1;
  const warnings: string[] = [];
  if (stretch === 1 && off !== 0) {
    const word = off > 0 ? "longer" : "shorter";
    warnings.push(
      `the survey ends at ${last.toFixed(0)} m, ${Math.abs(off * 100).toFixed(1)} % ${word} than the path of ${pathLengthM.toFixed(0)} m: distances are kept as surveyed`,
    );
  }
  if (first > pathLengthM * LENGTH_TOLERANCE) {
    warnings.push(`the survey begins ${first.toFixed(0)} m from end 1: no heights before`);
  }

  const intervals = intervalsFor(pathLengthM, stepM ?? defaultStepM(rows, pathLengthM));
  const count = intervals + 1;
  const spacingM = pathLengthM / intervals;
  const heightM = new Float64Array(count).fill(Number.NaN);
  const coverM = rows.some((r) => (r.coverM ?? 0) > 0) ? new Float64Array(count) : undefined;
  const origin = new Int16Array(count).fill(UNCOVERED);

  // A survey that begins a little late still speaks for the end itself.
  const reachFromM = first <= pathLengthM * LENGTH_TOLERANCE ? 0 : first * stretch;
  let k = 0;
  for (let i = 0; i < count; i++) {
    const d = i === intervals ? pathLengthM : i * spacingM;
    if (d < reachFromM || d > last * stretch * (1 + 1e-9)) continue;
    while (k < rows.length - 2 && rows[k + 1]!.distanceM * stretch < d) k++;
    const a = rows[k]!;
    const b = rows[k + 1]!;
    const f = Math.min(1, Math.max(0, (d / stretch - a.distanceM) / (b.distanceM - a.distanceM)));
    heightM[i] = a.heightM + f * (b.heightM - a.heightM);
    if (coverM) coverM[i] = (a.coverM ?? 0) + f * ((b.coverM ?? 0) - (a.coverM ?? 0));
    origin[i] = 0;
  }
  for (const row of rows) {
    const i = Math.round((row.distanceM * stretch) / spacingM);
    if (i >= count || origin[i] !== 0) continue;
    heightM[i] = Math.max(heightM[i]!, row.heightM);
    if (coverM) coverM[i] = Math.max(coverM[i]!, row.coverM ?? 0);
  }
  return { ...assembleProfile(pathLengthM, heightM, origin, [file]), coverM, warnings };
}

function checkRows(rows: readonly SurveyRow[], pathLengthM: number): void {
  if (!(pathLengthM > 0)) throw new RangeError("a surveyed path must have a length above 0");
  if (rows.length < 2) throw new Error("a surveyed profile needs at least two rows");
  rows.forEach((row, i) => {
    const previous = rows[i - 1];
    if (![row.distanceM, row.heightM, row.coverM ?? 0].every(Number.isFinite)) {
      throw new Error(`row ${i + 1} of the survey holds a value that is no number`);
    }
    if (row.distanceM < 0) throw new Error(`row ${i + 1} of the survey has a distance below 0`);
    if ((row.coverM ?? 0) < 0) throw new Error(`row ${i + 1} of the survey has a cover below 0`);
    if (previous && row.distanceM <= previous.distanceM) {
      throw new Error(
        `row ${i + 1} of the survey is at ${row.distanceM} m, not beyond ${previous.distanceM} m: distances must rise`,
      );
    }
  });
}

function defaultStepM(rows: readonly SurveyRow[], pathLengthM: number): number {
  let closestM = COARSEST_STEP_M * 2;
  for (let i = 1; i < rows.length; i++)
    closestM = Math.min(closestM, rows[i]!.distanceM - rows[i - 1]!.distanceM);
  return Math.max(closestM / 2, pathLengthM / (MOST_PROFILE_POINTS - 1));
}
