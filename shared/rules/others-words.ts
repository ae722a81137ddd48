/** What rules about files of others and of patterns have in common. */

/** `lines 4, 9 and 12 more` */
export function linesWords(lines: readonly number[], rows: number): string {
  const more = rows - lines.length;
  return `line${rows === 1 ? "" : "s"} ${lines.join(", ")}${more > 0 ? ` and ${more} more` : ""}`;
}

/** A list that the examples of rules name; the file is invented. */
export const OTHERS_EXAMPLE = `others "register.csv" {
  latitude "lat"
  longitude "lon"
  frequency "frequency" in MHz
  emission "emission"
  eirp "eirp" in dBm
}`;
