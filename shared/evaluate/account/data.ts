/** Plain data compared by content: remarks, lacks and inputs are told once. */

/** Whether two values made of plain data are the same. No figure of a result is NaN. */
export function sameData(a: unknown, b: unknown): boolean {
  if (a === b) return true;
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return false;
  for (const key in a)
    if (!sameData((a as Record<string, unknown>)[key], (b as Record<string, unknown>)[key])) return false;
  for (const key in b) if (!(key in a) && (b as Record<string, unknown>)[key] !== undefined) return false;
  return true;
}

/** Its codes, names and figures in one line, of figures six digits: the same for what is told alike. */
export function dataKey(value: unknown): string {
  if (typeof value === "number") return String(Number(value.toPrecision(6)));
  if (typeof value !== "object" || value === null) return String(value);
  return Object.values(value)
    .filter((one) => one !== undefined)
    .map(dataKey)
    .join(" ");
}
