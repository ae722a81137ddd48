import type { SurveySource } from "../design/design.js";
import { HIGHEST_LAND_M, LOWEST_LAND_M } from "./plausible.js";
import type { ProfileGap, TerrainProfile } from "./profile.js";

/** One point of a surveyed path. */
export interface SurveyRow {
  /** Metres from the end that the survey counts from. */
  readonly distanceM: number;
  /** Ground, metres above sea level; undefined: the row has none. */
  readonly heightM?: number | undefined;
  /** Trees or buildings on it, metres above ground; 0 where the survey says nothing. */
  readonly coverM?: number | undefined;
  /** Line of the file, for messages. */
  readonly line?: number;
}

/** How a survey lies on its path. */
export interface SurveyFit {
  /** Distances of the first and of the last row as surveyed. */
  readonly beginsM: number;
  readonly endsM: number;
  /** What was added to the last distance to reach the far end, to the others in proportion; undefined: nothing. */
  readonly stretchedM?: number;
}

/** A survey ends where two positions of a map put the far end, or it is told; points are moved by no more than this. */
export const MOST_STRETCH_M = 25;

/** A first row so near to the site speaks for the site itself. */
export const AT_THE_SITE_M = 1;

/** In a survey made from a map, two rows further apart than so many usual steps leave a void between them. */
const VOID_STEPS = 3;

/** And so do two further apart than this: a few rows make any step the usual one, and nobody may bridge more. */
const WIDEST_STEP_M = 1000;

/** Nobody surveys so many points of one path: it is another file. */
const MOST_ROWS = 50_000;

/** No growth and no building counts as cover beyond it. */
const HIGHEST_COVER_M = 500;

/**
 * Puts a survey on its path. No surveyed point is moved but by the stretch that brings the last row to the far end
 * (25 m at most there); none is added but one at either end of the path, and one without a height in the middle of
 * what is a void between two rows. Between neighbours ground and the top of the cover run straight.
 *
 * Not known is what the survey does not reach, and in a survey from a map the stretch around a row without a height
 * and between rows more than three usual steps, or 1 km, apart; the usual step is the median.
 * @param pathLengthM length of the path that was surveyed, > 0
 * @throws Error naming the row when distances do not rise, a value cannot be, or a row of a field survey has no height
 */
export function surveyProfile(
  rows: readonly SurveyRow[],
  pathLengthM: number,
  file: string,
  source: SurveySource,
): { readonly profile: TerrainProfile; readonly fit: SurveyFit } {
  if (!(pathLengthM > 0)) throw new RangeError("a surveyed path must have a length above 0");
  checkRows(rows, source);
  const beginsM = rows[0]!.distanceM;
  const endsM = rows.at(-1)!.distanceM;
  const lacksM = pathLengthM - endsM;
  const fits = Math.abs(lacksM) <= MOST_STRETCH_M;
  const scale = fits ? pathLengthM / endsM : 1;
  const usualM = usualStepM(rows);
  const widestM = source === "map" ? Math.min(VOID_STEPS * usualM, WIDEST_STEP_M) : Number.POSITIVE_INFINITY;
  const points = pointsOf(rows, pathLengthM, scale, widestM);
  const heightM = Float64Array.from(points, (point) => point.heightM);
  const distanceM = Float64Array.from(points, (point) => point.distanceM);
  const coverM = points.some((point) => point.coverM > 0)
    ? Float64Array.from(points, (point) => point.coverM)
    : undefined;
  const gaps = gapsOf(distanceM, heightM);
  const unknownM = gaps.reduce((sum, { fromM, toM }) => sum + toM - fromM, 0);
  const sharePercent = 100 * (1 - unknownM / pathLengthM);
  return {
    profile: {
      distanceM,
      heightM,
      coverM,
      straight: true,
      stepM: usualM * scale,
      gaps,
      sources: sharePercent > 0 ? [{ file, sharePercent }] : [],
    },
    fit: { beginsM, endsM, stretchedM: fits && lacksM !== 0 ? lacksM : undefined },
  };
}

interface Point {
  readonly distanceM: number;
  /** NaN: not known. */
  readonly heightM: number;
  readonly coverM: number;
}

function pointsOf(rows: readonly SurveyRow[], lengthM: number, scale: number, widestM: number): Point[] {
  const unknownAt = (distanceM: number): Point => ({ distanceM, heightM: Number.NaN, coverM: 0 });
  const last = rows.length - 1;
  const surveyed = rows.map(({ distanceM, heightM = Number.NaN, coverM = 0 }, i) => ({
    // Rounding must not leave a sliver at the far end.
    distanceM: scale !== 1 && i === last ? lengthM : distanceM * scale,
    heightM,
    coverM,
  }));
  const first = surveyed[0]!;
  const points: Point[] = [];
  if (first.distanceM > 0)
    points.push(first.distanceM <= AT_THE_SITE_M ? { ...first, distanceM: 0 } : unknownAt(0));
  for (const [i, point] of surveyed.entries()) {
    const before = surveyed[i - 1];
    if (before !== undefined && point.distanceM - before.distanceM > widestM * scale)
      points.push(unknownAt((before.distanceM + point.distanceM) / 2));
    if (point.distanceM > lengthM) break;
    points.push(point);
  }
  const beyond = surveyed.find(({ distanceM }) => distanceM > lengthM);
  while (points.at(-1)!.distanceM > lengthM) points.pop();
  const end = points.at(-1)!;
  if (end.distanceM < lengthM) {
    const isVoid = beyond === undefined || beyond.distanceM - end.distanceM > widestM * scale;
    points.push(isVoid ? unknownAt(lengthM) : between(end, beyond, lengthM));
  }
  return points;
}

function between(a: Point, b: Point, distanceM: number): Point {
  const share = (distanceM - a.distanceM) / (b.distanceM - a.distanceM);
  return {
    distanceM,
    heightM: a.heightM + share * (b.heightM - a.heightM),
    coverM: a.coverM + share * (b.coverM - a.coverM),
  };
}

/** Stretches without a height, each from known point to known point; what lies outside of all of them was not surveyed. */
function gapsOf(distanceM: Float64Array, heightM: Float64Array): ProfileGap[] {
  const gaps: ProfileGap[] = [];
  const last = distanceM.length - 1;
  for (let i = 0; i <= last; i++) {
    if (!Number.isNaN(heightM[i]!)) continue;
    const from = i - 1;
    while (i < last && Number.isNaN(heightM[i + 1]!)) i++;
    gaps.push({
      fromM: distanceM[Math.max(0, from)]!,
      toM: distanceM[Math.min(last, i + 1)]!,
      reason: from < 0 || i === last ? "uncovered" : "void",
    });
  }
  return gaps;
}

/** The median spacing of rows, the smaller of the middle two. */
function usualStepM(rows: readonly SurveyRow[]): number {
  const steps = new Float64Array(rows.length - 1);
  for (let i = 1; i < rows.length; i++) steps[i - 1] = rows[i]!.distanceM - rows[i - 1]!.distanceM;
  steps.sort();
  return steps[(steps.length - 1) >> 1]!;
}

function checkRows(rows: readonly SurveyRow[], source: SurveySource): void {
  if (rows.length < 2) throw new Error("a surveyed profile needs at least two rows");
  if (rows.length > MOST_ROWS)
    throw new Error(`a surveyed profile has at most ${MOST_ROWS} rows, not ${rows.length}`);
  rows.forEach((row, i) => {
    const name = row.line === undefined ? `row ${i + 1} of the survey` : `line ${row.line}`;
    const { distanceM, heightM, coverM = 0 } = row;
    const previous = rows[i - 1];
    if (![distanceM, heightM ?? 0, coverM].every(Number.isFinite))
      throw new Error(`${name} holds a value that is no number`);
    if (distanceM < 0) throw new Error(`${name} has a distance below 0`);
    if (heightM === undefined && source === "field")
      throw new Error(`${name} has no height; a survey in the field has one in every row`);
    if (heightM !== undefined && !(heightM >= LOWEST_LAND_M && heightM <= HIGHEST_LAND_M))
      throw new Error(
        `${name} has ground at ${heightM} m; land lies between ${LOWEST_LAND_M} and ${HIGHEST_LAND_M} m`,
      );
    if (!(coverM >= 0 && coverM <= HIGHEST_COVER_M))
      throw new Error(`${name} has a cover of ${coverM} m; it is 0 to ${HIGHEST_COVER_M} m`);
    if (previous && distanceM <= previous.distanceM)
      throw new Error(
        `${name} is at ${distanceM} m, not beyond ${previous.distanceM} m: distances must rise`,
      );
  });
}
