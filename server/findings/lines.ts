/** From offsets in a text to lines and columns, for people (`placed.ts`) and for the protocol (`lsp/locations.ts`). */

/** Both counted from 0, columns in UTF-16 units as editors count them. */
export interface LinePosition {
  readonly line: number;
  readonly character: number;
}

/** The lines of a text; where they start is found once. Offsets and positions outside the text mean its nearest end. */
export class Lines {
  private readonly starts: number[] = [0];

  constructor(private readonly source: string) {
    for (let at = source.indexOf("\n"); at >= 0; at = source.indexOf("\n", at + 1)) this.starts.push(at + 1);
  }

  position(offset: number): LinePosition {
    const at = Math.max(0, Math.min(offset, this.source.length));
    let low = 0;
    let high = this.starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (this.starts[middle]! <= at) low = middle;
      else high = middle - 1;
    }
    return { line: low, character: at - this.starts[low]! };
  }

  offset({ line, character }: LinePosition): number {
    const start = this.starts[Math.max(0, Math.min(line, this.starts.length - 1))]!;
    const next = this.starts[line + 1] ?? this.source.length + 1;
    return Math.min(start + Math.max(0, character), next - 1);
  }

  range(start: number, end: number): { start: LinePosition; end: LinePosition } {
    return { start: this.position(start), end: this.position(end) };
  }

  /** Text of a line without its end. */
  text(line: number): string {
    const start = this.starts[line] ?? this.source.length;
    return this.source.slice(start, this.starts[line + 1] ?? this.source.length).replace(/\r?\n$/, "");
  }
}

const known = new WeakMap<{ readonly text: string }, Lines>();

/** Lines of a source file, worked out once for each state of it. */
export function linesOf(file: { readonly text: string }): Lines {
  let lines = known.get(file);
  if (!lines) known.set(file, (lines = new Lines(file.text)));
  return lines;
}
