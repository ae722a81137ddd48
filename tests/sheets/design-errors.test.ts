/** No paper hides an error of the design: it names those of what it is about, or says how many there are. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { type JudgedDesign, judgeFolder } from "../../server/findings/judged-folder.js";
import { SHEET_KINDS, sheetsOf } from "../../server/sheets/sheets.js";
import type { SheetTemplate } from "../../shared/design/sheets.js";
import { type Inline, type Page, spansOf, type Table } from "../../shared/report/document/document.js";
import { errorsSection } from "../../shared/report/sheets/design-errors.js";
import { ENGLISH } from "../../shared/report/sheets/words/english.js";
import { GERMAN } from "../../shared/report/sheets/words/german.js";
import type { SheetWords } from "../../shared/report/sheets/words/sheet-words.js";
import { equipped } from "../../shared/rules/equipment/example-equipment.js";
import { EXAMPLE_PREAMBLE } from "../../shared/rules/example-preamble.js";
import { fixture } from "../support/fixture.js";

const TODAY = "2026-06-01";
const FOLDERS: string[] = [];
afterAll(() => {
  for (const folder of FOLDERS) rmSync(folder, { recursive: true });
});

async function judged(text: string, only?: string): Promise<JudgedDesign> {
  const folder = mkdtempSync(join(tmpdir(), "hopwright-errors-"));
  FOLDERS.push(folder);
  writeFileSync(join(folder, "network.hop"), `${EXAMPLE_PREAMBLE}\n${text}`);
  const { designs } = await judgeFolder(folder, { today: TODAY, ...(only && { only }) });
  return designs[0]!;
}

const SERVED = 'chassis COPSE {\n  slot 2 MIST\n  slot 4 FERN\n}\nservice "mill" 8 GE';
const DEMAND = "demand SCHOOL {\n  from MOSS to TARN\n  committed 100 Mbit/s\n  E1 4\n}";
/** One error of the site MOSS, one of the demand at MOSS, and what the hop is short of. */
const WRONG = `${equipped(SERVED)}\n\n${DEMAND}`;

const ASKED = { kinds: SHEET_KINDS, folder: "", revision: { state: "not in git" } as const };
const pagesOf = (design: JudgedDesign, words: SheetWords = ENGLISH, template?: SheetTemplate) =>
  new Map([...sheetsOf(design, { ...ASKED, words, template })].map((page) => [page.name, page]));
const idsOf = (page: Page | undefined) => page!.sections.map(({ id }) => id);
const plain = (cell: Inline) =>
  spansOf(cell)
    .map((span) => (typeof span === "string" ? span : span.text))
    .join("");
const tablesIn = (page: Page | undefined, section: string) =>
  (page!.sections.find(({ id }) => id === section)?.blocks ?? []).filter(
    (block): block is Table => block.type === "table",
  );
const rowsOf = (table: Table | undefined) => table?.rows.map(({ cells }) => cells.map(plain));
const errorsOf = ({ findings }: JudgedDesign) =>
  findings.filter(({ severity, accepted }) => severity === "error" && !accepted);

let design: JudgedDesign;
beforeAll(async () => {
  design = await judged(WRONG);
});

describe.each([
  ["English", ENGLISH, "site MOSS", "demand SCHOOL", "hop MOSS-TARN"],
  ["German", GERMAN, "Standort MOSS", "Bedarf SCHOOL", "Funkfeld MOSS-TARN"],
])("in %s", (_, words, site, demand, hop) => {
  test("a site's sheet names the errors of the site, of what demands lack there, and of its hops", () => {
    const pages = pagesOf(design, words);
    const page = pages.get("installation/MOSS");
    expect(idsOf(page).slice(0, 3)).toEqual(["safety", "errors", "place"]);
    const rows = rowsOf(tablesIn(page, "errors")[0])!;
    const hops = errorsOf(design).filter((one) => one.hop === "MOSS-TARN");
    expect(hops.length).toBeGreaterThan(0);
    expect(rows).toEqual([
      [site, "traffic-ports-short", "MOSS lacks 1 of 8 GE ports; there are 7"],
      [demand, "demand-ports", "MOSS has 0 E1 ports, and SCHOOL needs 4"],
      ...hops.map(({ rule, message }) => [hop, rule, message]),
    ]);
    // Of the far site its hop alone.
    expect(rowsOf(tablesIn(pages.get("installation/TARN"), "errors")[0])).toEqual(rows.slice(2));
  });

  test("a line-up sheet names those of its hop, right behind the cautions", () => {
    const page = pagesOf(design, words).get("line-up/MOSS-TARN");
    expect(idsOf(page).slice(0, 3)).toEqual(["safety", "errors", "hop"]);
    expect(rowsOf(tablesIn(page, "errors")[0])).toEqual(
      errorsOf(design)
        .filter((one) => one.hop === "MOSS-TARN")
        .map(({ rule, message }) => [rule, message]),
    );
  });

  test("sheets of the whole design say how many there are and what tells them", () => {
    const pages = pagesOf(design, words);
    for (const kind of ["licences", "frequencies", "parts", "book"]) {
      const [first] = pages.get(kind)!.sections;
      expect(first).toMatchObject({ id: "errors", title: words.errors.title });
      const text = first!.blocks.map((block) => (block.type === "paragraph" ? plain(block.text) : "")).join();
      expect(text).toContain(words.errors.counted(errorsOf(design).length));
      expect(text).toContain("hopwright check");
    }
  });

  test("the book has errors of a demand beside its verdict and below, and those of sites at the sites", () => {
    const book = pagesOf(design, words).get("book");
    const [demands, ofDemands] = tablesIn(book, "demands");
    const verdict = rowsOf(demands)![0]!.at(-1)!;
    expect(verdict).toMatch(new RegExp(`, ${words.errors.below}$`));
    expect(rowsOf(ofDemands)).toEqual([
      [demand, "demand-not-judged", expect.stringContaining("SCHOOL: rate is not judged")],
      [demand, "demand-ports", "MOSS has 0 E1 ports, and SCHOOL needs 4"],
    ]);
    expect(rowsOf(tablesIn(book, "sites")[1])!.map(([where, rule]) => [where, rule])).toEqual([
      [site, "traffic-ports-short"],
    ]);
  });
});

test("an accepted error and a warning stand on no sheet", async () => {
  const reason = 'accept traffic-ports-short because "a switch is there"\nservice';
  const one = await judged(equipped(SERVED.replace("service", reason)));
  const found = one.findings.filter(({ rule }) => rule === "traffic-ports-short");
  expect(found).toMatchObject([{ accepted: { reason: "a switch is there" } }]);
  const rows = rowsOf(tablesIn(pagesOf(one).get("installation/MOSS"), "errors")[0]) ?? [];
  expect(rows.filter(([where]) => where === "site MOSS")).toEqual([]);
  const said = { rule: "clearance", message: "trees" };
  const findings = [
    { ...said, severity: "error", accepted: { reason: "felled" } },
    { ...said, severity: "warning" },
  ] as const;
  expect(errorsSection([{ findings }], ENGLISH)).toEqual([]);
});

test("where nothing is wrong no sheet speaks of errors", async () => {
  const folder = "samples/eskerfold";
  const { designs } = await judgeFolder(folder, { today: TODAY });
  expect(errorsOf(designs[0]!)).toEqual([]);
  const pages = [...pagesOf(designs[0]!).values()];
  expect(pages.length).toBeGreaterThan(20);
  for (const page of pages) expect(idsOf(page), page.name).not.toContain("errors");
});

test("no template loses them or puts anything before them", () => {
  const { model, file } = fixture(
    "sheets DESK {\n  leave-out errors\n  leave-out errors of installation\n  first fields\n  first bill\n}\n",
  );
  const told = model.problemsOf(file).map(({ message }) => message);
  expect(told).toHaveLength(2);
  for (const message of told) expect(message).toContain("stay on every sheet");
  const [stated] = model.design().sheets!;
  const leftOut = [{ at: "x", section: "errors" }];
  const pages = pagesOf(design, ENGLISH, { ...stated!, leftOut });
  expect(idsOf(pages.get("installation/MOSS")).slice(0, 3)).toEqual(["safety", "errors", "fields"]);
  expect(idsOf(pages.get("parts")).slice(0, 2)).toEqual(["errors", "bill"]);
});

test("the sheet of one hop asked for alone has the same errors, those of its text among them", async () => {
  const text = WRONG.replace("antenna DISH60-18 at", "antenna LOST at");
  const all = await judged(text);
  const alone = await judged(text, "MOSS-TARN");
  const rows = (one: JudgedDesign) => rowsOf(tablesIn(pagesOf(one).get("line-up/MOSS-TARN"), "errors")[0])!;
  const names = rows(alone).map(([rule]) => rule);
  expect(names).toContain("unknown-name");
  expect(names.toSorted()).toEqual(
    rows(all)
      .map(([rule]) => rule)
      // Ports are judged for all hops of a site together.
      .filter((rule) => rule !== "if-ports-short" || names.includes(rule))
      .toSorted(),
  );
});
