/** Keeps labels from lying over each other. */

/** Width of a label at 12 units, near enough for placing: no font is at hand to measure with. */
export function textWidth(text: string, bold = false): number {
  return text.length * (bold ? 7.3 : 6.4);
}

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
