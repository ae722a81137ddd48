/** A PDF holds all that its page says, runs nothing, and is the same each time. Read back by another library. */
import { deflateSync } from "node:zlib";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { makePdf } from "../../../server/pdf/make.js";
import type { Page } from "../../../shared/report/document/document.js";
import { plain } from "../../../shared/report/document/pdf/spans.js";
import { PAGE, textsOf } from "./random-pages.js";
import { dense, readPdf } from "./read-pdf.js";

const RUNS = { numRuns: 12, endOnFailure: true };

const EMPTY: Page = { name: "p", title: "Title", keyFigures: [], sections: [], colophon: "End" };

/** How often each sign stands in a text. */
function counted(texts: readonly string[]): Map<string, number> {
  const counts = new Map<string, number>();
  for (const sign of dense(texts.join(""))) counts.set(sign, (counts.get(sign) ?? 0) + 1);
  return counts;
}

test("every sign of a page is in the text of its PDF, short texts in one piece, and nothing acts", async () => {
  await fc.assert(
    fc.asyncProperty(PAGE, async (page) => {
      const { bytes, missing } = await makePdf(page);
      const { sides, active } = await readPdf(bytes);
      // At the foot, which is cut where it is long.
      const { running: _foot, ...told } = page;
      const texts = textsOf(told).map(plain).map(dense);
      const read = dense(sides.join(""));
      const found = counted(sides);
      expect(missing).toEqual([]);
      expect(active).toEqual([]);
      for (const [sign, count] of counted(texts))
        expect(found.get(sign) ?? 0, sign).toBeGreaterThanOrEqual(count);
      for (const text of texts.filter(({ length }) => length < 6)) expect(read).toContain(text);
    }),
    RUNS,
  );
});

test("a heading stands on the side of what it heads", async () => {
  await fc.assert(
    fc.asyncProperty(PAGE, async (page) => {
      const { sides } = await readPdf((await makePdf(page)).bytes);
      const word = page.language === "de" ? "Seite" : "Page";
      for (const [at, side] of sides.entries()) {
        const foot = `${word}${at + 1}${word === "Page" ? "of" : "von"}${sides.length}`;
        const text = dense(side);
        expect(text.endsWith(foot), foot).toBe(true);
        const heading = [...text.matchAll(/Head\dx/g)].at(-1);
        if (heading === undefined) continue;
        const behind = text.slice(heading.index + heading[0].length, -foot.length);
        const running = dense(plain([page.title, page.running].filter((one) => one !== undefined).join("·")));
        const left = behind.replace(running.slice(0, 20), "");
        const isFigure = page.sections[Number(heading[0][4])]!.blocks[0]!.type === "figure";
        expect(left.length > 0 || isFigure, heading[0]).toBe(true);
      }
    }),
    RUNS,
  );
});

test("the same page is the same bytes, whatever was made before", async () => {
  const [one, two] = fc.sample(PAGE, { numRuns: 2, seed: 7 });
  const first = await makePdf(one!);
  await makePdf(two!);
  expect(Buffer.compare((await makePdf(one!)).bytes, first.bytes)).toBe(0);
});

test("title, subject, language and contents are told to the reader; paper is A4 unless another is asked for", async () => {
  const page: Page = {
    ...EMPTY,
    title: "Höhe <b>",
    subtitle: "Sub",
    language: "de",
    running: "Netz, Stand 1",
    sections: [{ id: "map", title: "Karte", blocks: [{ type: "paragraph", text: "-43.5 dBm" }] }],
  };
  const read = await readPdf((await makePdf(page)).bytes);
  expect(read.info).toMatchObject({ Title: "Höhe <b>", Subject: "Sub", Language: "de" });
  expect(read.outline).toEqual(["Karte"]);
  expect(dense(read.sides[0]!)).toContain("−43.5dBm");
  expect(read.sides[0]).toContain("Höhe <b> · Netz, Stand 1");
  expect(read.sides[0]).toContain("Seite 1 von 1");
  const sizeOf = async (paper: Page["paper"]) => {
    const [width, height] = (await readPdf((await makePdf({ ...EMPTY, paper })).bytes)).size;
    return [Math.round(width!), Math.round(height!)];
  };
  // ISO 216: 210 by 297 mm; letter: 8.5 by 11 inches.
  expect(await sizeOf(undefined)).toEqual([595, 842]);
  expect(await sizeOf({ size: "Letter" })).toEqual([612, 792]);
  expect(await sizeOf({ size: "A4", landscape: true })).toEqual([842, 595]);
});

test("it is of the day of the commit that it tells all of, else of no day", async () => {
  const made = async (commitDay?: string) => {
    const { bytes } = await makePdf({ ...EMPTY, ...(commitDay !== undefined && { commitDay }) });
    expect(
      Buffer.compare(
        (await makePdf({ ...EMPTY, ...(commitDay !== undefined && { commitDay }) })).bytes,
        bytes,
      ),
    ).toBe(0);
    return (await readPdf(bytes)).info.CreationDate;
  };
  expect(await made("2026-05-02")).toMatch(/^D:20260502000000/);
  for (const none of [undefined, "2026-13-77", "yesterday"])
    expect(await made(none)).toMatch(/^D:19700101000000/);
});

test("signs that the font lacks are told", async () => {
  const { missing } = await makePdf({ ...EMPTY, title: "山 Müller → λ", colophon: "\u{1f4e1}" });
  expect([...missing].sort()).toEqual(["山", "\u{1f4e1}"].sort());
});

describe("the picture of a letterhead", () => {
  const chunk = (kind: string, content: Buffer) => {
    const length = Buffer.alloc(4);
    length.writeUInt32BE(content.length);
    return Buffer.concat([length, Buffer.from(kind, "latin1"), content, Buffer.alloc(4)]);
  };
  /** With colours and alpha, so that it is unpacked. */
  const png = (rows: Buffer, width = 2, height = 2, interlace = 0) => {
    const head = Buffer.alloc(13);
    head.writeUInt32BE(width, 0);
    head.writeUInt32BE(height, 4);
    head.set([8, 6, 0, 0, interlace], 8);
    return Buffer.concat([
      Buffer.from([137, 80, 78, 71, 13, 10, 26, 10]),
      chunk("IHDR", head),
      chunk("IDAT", deflateSync(rows)),
      chunk("IEND", Buffer.alloc(0)),
    ]);
  };
  const made = (bytes: Uint8Array, type: "image/png" | "image/jpeg" = "image/png") =>
    makePdf({
      ...EMPTY,
      letterhead: {
        name: "Dunlin Radio",
        head: ["Quay 3"],
        foot: ["Last line"],
        logo: { type, bytes, widthPx: 2, heightPx: 2, alt: "two gulls" },
      },
    });

  test("stands beside name and lines", async () => {
    const whole = await made(png(Buffer.alloc(2 * 9)));
    expect(whole.unread).toBeUndefined();
    const [side] = (await readPdf(whole.bytes)).sides;
    for (const said of ["Dunlin Radio", "Quay 3", "Last line"]) expect(side).toContain(said);
    expect(Buffer.from(whole.bytes).toString("latin1")).toContain("/Subtype /Image");
  });

  test.each([
    ["more than its size says", png(Buffer.alloc(4000)), "not what its head says"],
    ["less than its size says", png(Buffer.alloc(3)), "not what its head says"],
    ["a filter that there is not", png(Buffer.alloc(2 * 9, 9)), "not what its head says"],
    ["a size beyond all", png(Buffer.alloc(18), 2 ** 30, 2 ** 30), "more dots"],
    ["rows in several passes", png(Buffer.alloc(2 * 9), 2, 2, 1), "interlaced"],
    ["half of it", png(Buffer.alloc(2 * 9)).subarray(0, 50), "cut off"],
    ["nothing", Buffer.alloc(0), "no PNG or JPEG"],
    ["a page of the web", Buffer.from("<html>"), "no PNG or JPEG"],
  ])("gives way to its words, and says why, where its file holds %s", async (_, bytes, why) => {
    for (const type of ["image/png", "image/jpeg"] as const) {
      const { unread, unreadReason, bytes: pdf } = await made(bytes, type);
      expect([unread, unreadReason]).toEqual(["two gulls", expect.stringContaining(why)]);
      expect((await readPdf(pdf)).sides[0]).toContain("two gulls");
    }
  });
});
