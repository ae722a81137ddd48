/** The design's own words for branches, arms and ports, said in the language of a sheet. */
import type { SheetWords } from "./words/sheet-words.js";

/**
 * Piece by piece between commas; a number behind a word stays, and so does what is no word of the design.
 * @example "first polarization, standby" -> "erste Polarisation, Reserve"
 */
export function said(text: string, { installation: { pieces } }: Pick<SheetWords, "installation">): string {
  return text
    .split(", ")
    .map((piece) => {
      const [, word = piece, number = ""] = /^(.*?)( \d+)?$/.exec(piece) ?? [];
      return Object.hasOwn(pieces, word) ? `${pieces[word]}${number}` : piece;
    })
    .join(", ");
}
