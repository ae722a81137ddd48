/** A list that goes out: rows of one subject under typed heads, whatever it is printed as. */
import type { LatLon } from "../../geodesy/coordinates.js";

export const SUBJECTS = [
  "sites",
  "hops",
  "ends",
  "parts",
  "ports",
  "channels",
  "line-up",
  "calibration",
  "findings",
] as const;
export type ListSubject = (typeof SUBJECTS)[number];

export type Value = string | number | undefined;

export interface ListColumn<Row> {
  /** With the unit behind it, as reading a list understands it again: `ground_m`. */
  readonly head: string;
  readonly type: "text" | "number" | "date";
  readonly of: (row: Row) => Value;
}

export interface List {
  readonly subject: ListSubject;
  readonly columns: readonly { readonly head: string; readonly type: ListColumn<unknown>["type"] }[];
  readonly rows: readonly ListRow[];
}

export interface ListRow {
  readonly values: readonly Value[];
  /** Where it lies: one place of a site, two of a hop; undefined: nowhere. */
  readonly places?: readonly LatLon[];
}

/** Head of the day that a list tells of where it is one day alone: such a list is not read back. */
export const SHOWN_ON = "shown_on";

/** Lists of what follows from the design: they tell, and nothing of them is decided there. */
export const TOLD_ONLY: ReadonlyMap<ListSubject, readonly string[]> = new Map([
  ["parts", ["site", "for", "kind", "part", "pieces"]],
  ["ports", ["site", "port", "port_type", "use"]],
  ["channels", ["hop", "carrier", "far_site", "emission"]],
  ["calibration", ["group_by", "group", "bias_dB", "spread_dB"]],
  ["findings", ["severity", "rule", "message"]],
]);

export function listOf<Row>(
  subject: ListSubject,
  columns: readonly ListColumn<Row>[],
  rows: readonly Row[],
  placesOf?: (row: Row) => readonly LatLon[] | undefined,
): List {
  return {
    subject,
    columns: columns.map(({ head, type }) => ({ head, type })),
    rows: rows.map((row) => ({ values: columns.map(({ of }) => of(row)), places: placesOf?.(row) })),
  };
}

/** A list of one day says in each row which: what stands on other days is not in it. */
export function shownOnColumn(day: string | undefined): readonly ListColumn<unknown>[] {
  return day === undefined ? [] : [{ head: SHOWN_ON, type: "date", of: () => day }];
}

export function text<Row>(head: string, of: (row: Row) => string | undefined): ListColumn<Row> {
  return { head, type: "text", of };
}

/** @param digits decimals at most: more than anybody writes of a decision, and what is meant of a result */
export function number<Row>(
  head: string,
  digits: number,
  of: (row: Row) => number | undefined,
): ListColumn<Row> {
  return {
    head,
    type: "number",
    of: (row) => {
      const value = of(row);
      // Adding 0 turns -0 into 0.
      return value === undefined || !Number.isFinite(value) ? undefined : Number(value.toFixed(digits)) + 0;
    },
  };
}
