import type { List } from "./list.js";

/** Columns that name the sites of a row. */
const SITE_HEADS: readonly string[] = ["site", "site_a", "site_b", "low_at", "high_at", "measured_at"];

/** Rows of one site alone; undefined: the list names no sites. */
export function ofSite(list: List, site: string): List | undefined {
  const places = list.columns.flatMap(({ head }, index) => (SITE_HEADS.includes(head) ? [index] : []));
  if (places.length === 0) return undefined;
  return { ...list, rows: list.rows.filter(({ values }) => places.some((index) => values[index] === site)) };
}
