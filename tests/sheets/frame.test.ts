/** No word of a sheet runs over the frame of its side, however long names are, and no side is empty. */
import { cp, mkdtemp, readdir, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, beforeAll, expect, test } from "vitest";
import { type JudgedDesign, judgeFolder } from "../../server/findings/judged-folder.js";
import { makePdf } from "../../server/pdf/make.js";
import { SHEET_KINDS, SHEET_LANGUAGES, sheetsOf } from "../../server/sheets/sheets.js";
import { outside, placedTexts } from "../report/pdf/frame.js";
import { PAGE } from "../report/pdf/random-pages.js";

const SAMPLES = join(import.meta.dirname, "../../samples");

/** The widest letter there is, and words that break nowhere. */
const LONG = "W".repeat(280);

let folder: string;
let design: JudgedDesign;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "hopwright-frame-"));
  await cp(SAMPLES, folder, { recursive: true });
  const root = join(folder, "eskerfold");
  for (const name of await readdir(root, { recursive: true })) {
    if (!name.endsWith(".hop")) continue;
    const text = await readFile(join(root, name), "utf8");
    const longer = text
      .replaceAll("OSTREL", `OSTREL${LONG}`)
      .replaceAll('"Ostrel ridge"', `"${LONG}"`)
      .replaceAll('"Ring"', `"${LONG}"`);
    await writeFile(join(root, name), longer);
  }
  [design] = (await judgeFolder(root, { today: "2026-06-01" })).designs as [JudgedDesign];
}, 60_000);
afterAll(() => rm(folder, { recursive: true }));

test.each(["en", "de"] as const)(
  "every text of every sheet lies within its side, of names of 300 letters too (%s)",
  { timeout: 120_000 },
  async (language) => {
    let count = 0;
    for (const page of sheetsOf(design, {
      kinds: SHEET_KINDS,
      words: SHEET_LANGUAGES[language],
      folder: "",
      revision: { state: "not in git" },
    })) {
      if (page.name.includes("/") && !page.name.includes("OSTREL")) continue;
      const placed = await placedTexts((await makePdf(page)).bytes);
      expect(outside(placed), page.name.slice(0, 60)).toEqual([]);
      count++;
    }
    expect(count).toBeGreaterThan(10);
  },
);

test.each([
  ["en", "A4"],
  ["de", "Letter"],
] as const)(
  "sheets of the samples take few sides, and no heading or caption stays behind (%s, %s)",
  { timeout: 120_000 },
  async (language, size) => {
    const [sample] = (await judgeFolder(join(SAMPLES, "eskerfold"), { today: "2026-06-01" })).designs;
    const words = SHEET_LANGUAGES[language];
    const revision = { state: "not in git" } as const;
    const sides = new Map<string, number>();
    for (const page of sheetsOf(sample!, { kinds: ["installation", "book"], words, folder: "", revision })) {
      const placed = await placedTexts((await makePdf({ ...page, paper: { ...page.paper, size } })).bytes);
      sides.set(page.name, placed.sides);
      const titles = page.sections.flatMap(({ title, blocks }) => [
        title,
        ...blocks.flatMap((block) => (block.type === "table" ? (block.caption ?? []) : [])),
      ]);
      for (let side = 1; side < placed.sides; side++) {
        const body = placed.texts.filter((one) => one.side === side && one.bottom > 40);
        const lowest = body.toSorted((a, b) => a.bottom - b.bottom)[0]!;
        expect(titles, `${page.name}, side ${side}`).not.toContain(lowest.text.trim());
      }
    }
    // Two antennas and all that belongs to them fit on two sides of A4, which is higher; four on four.
    const two = size === "A4" ? 2 : 3;
    const counted = (...sites: string[]) => sites.map((site) => sides.get(`installation/${site}`));
    expect(counted("ANSELBAY", "DUNLIN", "MERROW", "RUDDOCK", "SIFTLAW", "WICKSAND")).toEqual([
      two,
      two,
      two,
      two,
      two,
      two,
    ]);
    expect(counted("OSTREL", "LARKHOWE", "GULLSCAR")).toEqual([4, 4, 4]);
    expect(sides.get("book")).toBe(4);
  },
);

test("a word that breaks, with blanks behind it, stays within its side where figures stand right", async () => {
  const cells = [[{ text: `${"x".repeat(23)} \u0007  `, mark: "strong" as const }, "y".repeat(400)]];
  for (let letters = 1; letters < 40; letters += 3) {
    const columns = [{ title: "a" }, { title: "b", align: "right" as const }];
    const rows = [{ cells: ["w".repeat(letters * 8), ...cells] }];
    const blocks = [{ type: "table" as const, columns, rows }];
    const sections = [{ id: "s", title: "S", blocks }];
    const page = { name: "p", title: "T", keyFigures: [], sections, colophon: "end" };
    expect(outside(await placedTexts((await makePdf(page)).bytes))).toEqual([]);
  }
});

test("every text of a random page lies within its side, and no side but for the foot is empty", async () => {
  await fc.assert(
    fc.asyncProperty(PAGE, async (page) => {
      const placed = await placedTexts((await makePdf(page)).bytes);
      expect(outside(placed)).toEqual([]);
      const filled = new Set(placed.texts.filter(({ bottom }) => bottom > 40).map(({ side }) => side));
      const drawn = page.sections.some(({ blocks }) => JSON.stringify(blocks).includes('"figure"'));
      if (!drawn) expect(filled.size).toBe(placed.sides);
    }),
    { numRuns: 60, endOnFailure: true },
  );
});
