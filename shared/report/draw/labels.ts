/** Keeps labels from lying over each other. */

/**
 * Width of a label at 12 units. No font is at hand to measure with: these are the widths of a broad one, so that a label
 * takes up rather less room than more.
 */
export function textWidth(text: string, bold = false): number {
  let sum = 0;
  for (const sign of text) sum += WIDTHS.find(([signs]) => signs.test(sign))?.[1] ?? 7.4;
  return bold ? sum * 1.12 : sum;
}

const WIDTHS: readonly (readonly [RegExp, number])[] = [
  [/[MWmw@]/, 11],
  [/[\s.,:;'"|()[\]ijlIft]/, 4.6],
  [/\p{Lu}/u, 8.6],
  [/[\p{Ll}\d-]/u, 7.4],
];

/** Rows of labels along a line: each goes into the first row where it has room. */
export class LabelRows {
  private readonly ends: { from: number; to: number }[][] = [];

  constructor(
    private readonly from: number,
    private readonly to: number,
  ) {}

  get count(): number {
    return this.ends.length;
  }

  /** @returns the row, and where in it the label's middle stands */
  place(middle: number, text: string, bold = false): { readonly row: number; readonly x: number } {
    const half = textWidth(text, bold) / 2;
    const x = Math.max(this.from + half, Math.min(this.to - half, middle));
    let row = this.ends.findIndex((taken) =>
      taken.every(({ from, to }) => x + half + 8 < from || x - half - 8 > to),
    );
    if (row < 0) row = this.ends.push([]) - 1;
    this.ends[row]!.push({ from: x - half, to: x + half });
    return { row, x };
  }
}
