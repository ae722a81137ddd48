/** From paths and offsets of the language to URIs and positions of the protocol. */
import type { Location, Position, Range } from "vscode-languageserver";
import { URI } from "vscode-uri";

/** Documents that are no files (`untitled:`) keep their URI as their name. */
export function pathOf(uri: string): string {
  const parsed = URI.parse(uri);
  return parsed.scheme === "file" ? parsed.fsPath.replaceAll("\\", "/") : uri;
}

export function uriOf(path: string): string {
  return /^[a-z-]{2,}:/.test(path) ? path : URI.file(path).toString();
}

/** Start offsets of the lines of a text. */
export class Lines {
  private readonly starts: number[] = [0];

  constructor(private readonly text: string) {
    for (let at = text.indexOf("\n"); at >= 0; at = text.indexOf("\n", at + 1)) this.starts.push(at + 1);
  }

  position(offset: number): Position {
    const at = Math.max(0, Math.min(offset, this.text.length));
    let low = 0;
    let high = this.starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (this.starts[middle]! <= at) low = middle;
      else high = middle - 1;
    }
    return { line: low, character: at - this.starts[low]! };
  }

  offset({ line, character }: Position): number {
    const start = this.starts[Math.max(0, Math.min(line, this.starts.length - 1))]!;
    const next = this.starts[line + 1] ?? this.text.length + 1;
    return Math.min(start + Math.max(0, character), next - 1);
  }

  range(start: number, end: number): Range {
    return { start: this.position(start), end: this.position(end) };
  }
}

const known = new WeakMap<{ readonly text: string }, Lines>();

/** Lines of a source file, worked out once for each state of it. */
export function linesOf(file: { readonly text: string }): Lines {
  let lines = known.get(file);
  if (!lines) known.set(file, (lines = new Lines(file.text)));
  return lines;
}

export function locationOf(
  file: { readonly path: string; readonly text: string },
  start: number,
  end: number,
): Location {
  return { uri: uriOf(file.path), range: linesOf(file).range(start, end) };
}
