/** What maps hold, as sheets: points are sites, lines of two points hops; whatever else there is is told. */
import type { Cell, Sheet, SheetRow } from "../../../shared/lists/table.js";
import { MOST_ROWS } from "./bounds.js";

/** Longitude, latitude, and height where there is one. */
export type Coordinates = readonly number[];

export interface Feature {
  /** Number in the file, from 1. */
  readonly line: number;
  readonly shape: string;
  readonly points: readonly Coordinates[];
  readonly properties: ReadonlyMap<string, Cell>;
}

export function sheetsOf(
  name: string,
  how: string,
  features: readonly Feature[],
  told: readonly string[],
): Sheet[] {
  const points = features.filter(({ shape }) => shape === "Point");
  const lines = features.filter(
    ({ shape, points: corners }) => shape === "LineString" && corners.length === 2,
  );
  const others = features.filter((feature) => !points.includes(feature) && !lines.includes(feature));
  const notes = [...told, ...othersTold(others)];
  const sheets = [
    sheetOf(name, how, points.slice(0, MOST_ROWS), (at) => [
      ["latitude", at[0]?.[1]],
      ["longitude", at[0]?.[0]],
    ]),
    sheetOf(name, how, lines.slice(0, MOST_ROWS), (at) => [
      ["latitude a", at[0]?.[1]],
      ["longitude a", at[0]?.[0]],
      ["latitude b", at[1]?.[1]],
      ["longitude b", at[1]?.[0]],
    ]),
  ].filter(({ rows }) => rows.length > 1);
  if (sheets.length === 0) return [{ name, how, rows: [], notes, headed: true }];
  return sheets.map((sheet, i) => (i === 0 ? { ...sheet, notes } : sheet));
}

function othersTold(others: readonly Feature[]): string[] {
  const shapes = Map.groupBy(others, ({ shape, points }) =>
    shape === "LineString" ? `lines of ${points.length} points` : shape,
  );
  return [...shapes].map(
    ([shape, all]) =>
      `${all.length} × ${shape} (${all
        .slice(0, 5)
        .map(({ line }) => line)
        .join(
          ", ",
        )}${all.length > 5 ? ", …" : ""}) not taken: sites are points, hops are lines of two points`,
  );
}

function sheetOf(
  name: string,
  how: string,
  features: readonly Feature[],
  place: (points: readonly Coordinates[]) => readonly (readonly [string, Cell])[],
): Sheet {
  const heads = new Set<string>();
  for (const { properties } of features) for (const key of properties.keys()) heads.add(key);
  const placed = place([]).map(([key]) => key);
  for (const key of placed) heads.delete(key);
  // Degrees that a list states beside the geometry are the same ones.
  for (const key of [...heads]) if (/^(latitude|longitude)_deg$/.test(key)) heads.delete(key);
  const own = [...heads];
  const rows: SheetRow[] = features.map(({ line, points, properties }) => ({
    line,
    cells: [...place(points).map(([, cell]) => cell), ...own.map((key) => properties.get(key))],
  }));
  return { name, how, rows: [{ line: 0, cells: [...placed, ...own] }, ...rows], notes: [], headed: true };
}
