/** Widths of columns: as wide as what stands in them, the whole table as wide as its room. */

/** What a column holds at its longest, and what of it does not break. */
export interface ColumnNeed {
  readonly longest: number;
  readonly word: number;
}

/**
 * @param room of all columns together, > 0
 * @returns their widths, in sum the room; no figure breaks where there is room for it, and a word breaks only in a
 *   column that is wider than others
 */
export function columnWidths(needs: readonly ColumnNeed[], room: number): number[] {
  const wanted = sum(needs.map(({ longest }) => longest));
  const least = sum(needs.map(({ word }) => word));
  if (wanted <= 0) return needs.map(() => room / needs.length);
  if (wanted <= room) return needs.map(({ longest }) => longest + ((room - wanted) * longest) / wanted);
  if (least <= room) {
    const share = (room - least) / (wanted - least);
    return needs.map(({ longest, word }) => word + (longest - word) * share);
  }
  return shared(
    needs.map(({ word }) => word),
    room,
  );
}

/** Whoever needs less than an equal share has what is needed, the others what is left in equal parts. */
function shared(words: readonly number[], room: number): number[] {
  let left = room;
  let others = words.length;
  let equal = room / others;
  for (const word of words.toSorted((a, b) => a - b)) {
    if (word > equal) break;
    left -= word;
    others--;
    if (others > 0) equal = left / others;
  }
  return words.map((word) => Math.min(word, equal));
}

function sum(values: readonly number[]): number {
  return values.reduce((all, one) => all + one, 0);
}
