/** Rows of cells set below each other. */
import type { Paint } from "../streams.js";
import { safe } from "./safe.js";

export interface SetColumn {
  readonly head: string;
  readonly align?: "right";
}

/** A line a row behind the heads, each with its end. @param below lines under a row, by its index */
export function* setInColumns(
  columns: readonly SetColumn[],
  rows: readonly (readonly string[])[],
  paint: Paint,
  below: (index: number) => Iterable<string> = () => [],
): Iterable<string> {
  const heads = columns.map(({ head }) => head);
  const widths = heads.map((head, k) => Math.max(head.length, ...rows.map((row) => row[k]!.length)));
  const line = (row: readonly string[]) =>
    safe(
      row
        .map((cell, k) =>
          columns[k]!.align === "right" ? cell.padStart(widths[k]!) : cell.padEnd(widths[k]!),
        )
        .join("  ")
        .trimEnd(),
    );
  yield `${paint("bold", line(heads))}\n`;
  for (const [index, row] of rows.entries()) {
    yield `${line(row)}\n`;
    yield* below(index);
  }
}
