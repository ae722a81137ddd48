/** Letters of a table stay of a size that somebody reads on a structure: a word that is longer than its room breaks. */
import fc from "fast-check";
import { expect, test } from "vitest";
import type { Table } from "../../../shared/report/document/document.js";
import type { Node } from "../../../shared/report/document/pdf/nodes.js";
import { SIZE } from "../../../shared/report/document/pdf/spans.js";
import { tableNode } from "../../../shared/report/document/pdf/tables.js";

const ROOM = {
  width: 515,
  height: 770,
  measure: (text: string) => text.length * 0.55,
  language: "en",
} as const;

const table = (words: readonly string[]): Pick<Table, "columns" | "rows"> => ({
  columns: words.map((_, at) => ({ title: `T${at}` })),
  rows: [{ cells: words }],
});

function sizesOf(node: Node): number[] {
  if ("fontSize" in node) return [node.fontSize];
  return "table" in node ? node.table.body.flat().flatMap(sizesOf) : [];
}

test("no table is set smaller than 6.5 points, and never wider than its room", () => {
  fc.assert(
    fc.property(
      fc.array(
        fc.oneof(
          fc.string({ maxLength: 12 }),
          fc.integer({ min: 20, max: 800 }).map((n) => "W".repeat(n)),
        ),
        {
          minLength: 1,
          maxLength: 14,
        },
      ),
      (words) => {
        const node = tableNode(table(words), ROOM);
        for (const size of sizesOf(node)) expect(size).toBeGreaterThanOrEqual(6.5);
        expect(node.table.widths.reduce((sum, width) => sum + width, 0)).toBeLessThanOrEqual(
          ROOM.width + 1e-6,
        );
      },
    ),
  );
});

test("one long word does not make the others small", () => {
  const [size] = sizesOf(tableNode(table(["A", "W".repeat(500), "B"]), ROOM));
  expect(size).toBe(SIZE.table);
});
