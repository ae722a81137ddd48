/** Transmissions whose way back is in no list: no hops, and kept whole for a register of others' transmissions. */
import { existsSync, readFileSync } from "node:fs";
import { basename } from "node:path";
import type { ImportPlan } from "../../../shared/lists/plan.js";
import { textOf } from "../../../shared/lists/table.js";
import { type CsvCell, csvText } from "../csv-text.js";
import type { ReadSheet } from "./read-sheet.js";

/** A file a sheet, with its own columns. What is there already with the same content is not written again. */
export function singlesCsv(
  { transmissions: { single } }: ImportPlan,
  sheets: readonly ReadSheet[],
  at: (path: string) => string,
): { readonly path: string; readonly text: string; readonly what: string }[] {
  const bySheet = Map.groupBy(single, ({ sheet }) => sheet);
  return sheets.flatMap(({ sheet, columns }) => {
    const lines = new Set((bySheet.get(sheet.name) ?? []).map(({ line }) => line));
    if (lines.size === 0) return [];
    const head = sheet.rows.find(({ line }) => line === columns.line)?.cells ?? [];
    const rows = columns.rows.filter(({ line }) => lines.has(line));
    const plain = (cells: readonly unknown[]): CsvCell[] =>
      cells.map((cell) => (typeof cell === "number" ? cell : textOf(cell as never)));
    const text = csvText([plain(head), ...rows.map(({ cells }) => plain(cells))]);
    const base = `others/${basename(sheet.name.split(" [")[0]!)
      .replace(/\.[^.]*$/, "")
      .replace(/[^\p{L}\p{N}_.-]+/gu, "-")}`;
    for (let number = 1; ; number++) {
      const path = `${base}${number === 1 ? "" : `-${number}`}.csv`;
      if (!existsSync(at(path)))
        return [{ path, text, what: `${lines.size} single transmission${lines.size === 1 ? "" : "s"}` }];
      if (readFileSync(at(path), "utf8") === text) return [];
    }
  });
}
