/** Kinds of sheets with their sections, by the identifiers that templates name them by; those of one hop each are one. */

export const SHEET_SECTIONS = {
  "line-up": ["hop", "levels", "less", "order", "fields"],
  acceptance: ["hop", "promised", "levels", "built", "exceptions", "open", "checks", "signatures"],
  installation: ["structure", "place", "load", "antennas", "rack", "cables", "earth", "order", "fields"],
  licences: ["licences", "hop", "open"],
  frequencies: ["raster", "halves"],
  parts: ["bill", "missing", "totals", "runs", "boxes"],
  book: ["contents", "objectives", "demands", "exceptions", "licences", "map", "topology", "hops", "sites"],
} as const satisfies Readonly<Record<string, readonly string[]>>;

export type SheetKind = keyof typeof SHEET_SECTIONS;

export function isSheetKind(kind: string): kind is SheetKind {
  return Object.hasOwn(SHEET_SECTIONS, kind);
}

/** No template parts a sheet from them. */
export const CAUTIONS = "safety";

/** Nor from the errors of the design, on the sheets of what has some. */
export const ERRORS = "errors";

export function staysOnSheets(section: string): boolean {
  return section === CAUTIONS || section === ERRORS;
}
