/** Places in text as the editor features give them out: offsets in UTF-16 units, `end` behind the last one. */
export interface TextRange {
  readonly start: number;
  readonly end: number;
}

export interface FileRange extends TextRange {
  readonly file: string;
}

/** A change of text; `start` equal to `end` inserts. */
export interface TextEdit extends FileRange {
  readonly newText: string;
}

/** The end counts as inside: a caret behind the last letter of a word is still on the word. */
export function touches(range: TextRange, offset: number): boolean {
  return range.start <= offset && offset <= range.end;
}

export function overlap(a: TextRange, b: TextRange): boolean {
  return a.start <= b.end && b.start <= a.end;
}

/** @returns the text with the edits of one file applied; they must not overlap */
export function applyEdits(text: string, edits: readonly TextEdit[]): string {
  let result = text;
  for (const edit of edits.toSorted((a, b) => b.start - a.start)) {
    result = result.slice(0, edit.start) + edit.newText + result.slice(edit.end);
  }
  return result;
}

/** Number of the line, counted from 1 as people do. */
export function lineNumber(text: string, offset: number): number {
  let line = 1;
  for (let at = text.indexOf("\n"); at >= 0 && at < offset; at = text.indexOf("\n", at + 1)) line++;
  return line;
}

/** Spaces and tabs that the line of `offset` begins with. */
export function indentationAt(text: string, offset: number): string {
  const start = text.lastIndexOf("\n", offset - 1) + 1;
  return /^[ \t]*/.exec(text.slice(start, offset))![0];
}
