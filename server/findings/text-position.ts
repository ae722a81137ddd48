/** Line and column of offsets in a text, both counted from 1; the line starts are found once a text. */
export interface LineIndex {
  /** Line and column, counted from 1, columns in UTF-16 units as editors count them. */
  at(offset: number): { readonly line: number; readonly column: number };
  /** Text of a line (from 1) without its end. */
  text(line: number): string;
}

export function lineIndex(text: string): LineIndex {
  const starts = [0];
  for (let at = text.indexOf("\n"); at >= 0; at = text.indexOf("\n", at + 1)) starts.push(at + 1);
  return {
    at(offset) {
      const bounded = Math.max(0, Math.min(offset, text.length));
      let low = 0;
      let high = starts.length - 1;
      while (low < high) {
        const middle = (low + high + 1) >> 1;
        if (starts[middle]! <= bounded) low = middle;
        else high = middle - 1;
      }
      return { line: low + 1, column: bounded - starts[low]! + 1 };
    },
    text(line) {
      const start = starts[line - 1] ?? text.length;
      return text.slice(start, starts[line] ?? text.length).replace(/\r?\n$/, "");
    },
  };
}
