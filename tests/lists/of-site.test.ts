/** Lists of one site: rows that name it, in each list that names sites. */
import { expect, test } from "vitest";
import { listOf, text } from "../../shared/lists/subjects/list.js";
import { ofSite } from "../../shared/lists/subjects/of-site.js";

interface Row {
  readonly a: string;
  readonly b: string;
}

const rows: readonly Row[] = [
  { a: "KELD", b: "TARN" },
  { a: "MOSS", b: "KELD" },
  { a: "MOSS", b: "TARN" },
];

test("a hop is of both of its sites, an end of the one where it stands", () => {
  const hops = listOf<Row>("hops", [text("site_a", ({ a }) => a), text("site_b", ({ b }) => b)], rows);
  expect(ofSite(hops, "KELD")!.rows).toHaveLength(2);
  const ends = listOf<Row>("ends", [text("site", ({ a }) => a), text("far_site", ({ b }) => b)], rows);
  expect(ofSite(ends, "KELD")!.rows).toHaveLength(1);
  expect(ofSite(ends, "FELL")!.rows).toEqual([]);
});

test("a list without sites is told as such", () => {
  const findings = listOf<Row>("findings", [text("rule", ({ a }) => a)], rows);
  expect(ofSite(findings, "KELD")).toBeUndefined();
});
