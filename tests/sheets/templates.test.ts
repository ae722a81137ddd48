/** Templates of sheets: what they may leave out and add, whose logo they show, and what they cannot do. */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { deflateSync } from "node:zlib";
import fc from "fast-check";
import { afterAll, describe, expect, test } from "vitest";
import { judgeFolder } from "../../server/findings/judged-folder.js";
import { readLogo } from "../../server/sheets/logo.js";
import { SHEET_KINDS, sheetsOf } from "../../server/sheets/sheets.js";
import type { Page } from "../../shared/report/document/document.js";
import { printHtml } from "../../shared/report/document/html.js";
import { pictureOf } from "../../shared/report/picture.js";
import { SHEET_SECTIONS } from "../../shared/report/sheets/kinds.js";
import { templated } from "../../shared/report/sheets/template.js";
import { ENGLISH } from "../../shared/report/sheets/words/english.js";
import { EXAMPLE_PREAMBLE, exampleHop } from "../../shared/rules/example-preamble.js";
import { fixture } from "../support/fixture.js";

const FOLDERS: string[] = [];
afterAll(() => {
  for (const folder of FOLDERS) rmSync(folder, { recursive: true });
});

function folderWith(files: Record<string, string | Uint8Array>): string {
  const folder = mkdtempSync(join(tmpdir(), "sheets-"));
  FOLDERS.push(folder);
  for (const [name, content] of Object.entries(files)) {
    mkdirSync(join(folder, name, ".."), { recursive: true });
    writeFileSync(join(folder, name), content);
  }
  return folder;
}

/** A picture of one colour, by W3C PNG, section 11.2: its sizes are those of the header. */
function png(widthPx: number, heightPx: number): Uint8Array {
  const chunk = (type: string, data: Uint8Array) => {
    const length = Buffer.alloc(4);
    length.writeUInt32BE(data.length);
    return Buffer.concat([length, Buffer.from(type, "latin1"), data, Buffer.alloc(4)]);
  };
  const header = Buffer.alloc(13);
  header.writeUInt32BE(widthPx, 0);
  header.writeUInt32BE(heightPx, 4);
  header.set([8, 0, 0, 0, 0], 8);
  const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  const data = deflateSync(Buffer.alloc(Math.min(1e4, (widthPx + 1) * heightPx)));
  return Buffer.concat([
    signature,
    chunk("IHDR", header),
    chunk("IDAT", data),
    chunk("IEND", Buffer.alloc(0)),
  ]);
}

/** Start, an application segment, a frame header of 8 bits and one component (Rec. ITU-T T.81, Annex B.2.2). */
function jpeg(widthPx: number, heightPx: number): Uint8Array {
  const size = [heightPx >> 8, heightPx & 255, widthPx >> 8, widthPx & 255];
  return Uint8Array.from([
    0xff,
    0xd8,
    0xff,
    0xe0,
    0,
    4,
    0,
    0,
    0xff,
    0xc0,
    0,
    11,
    8,
    ...size,
    1,
    1,
    0x11,
    0,
    0xff,
    0xd9,
  ]);
}

const template = (text: string) => {
  const { model, file } = fixture(`sheets DESK {\n${text}\n}\n`);
  return { template: model.design().sheets?.[0], problems: model.problemsOf(file) };
};

describe("a picture", () => {
  test("is known by its first bytes, with its size", () => {
    expect(pictureOf(png(40, 12))).toEqual({ type: "image/png", widthPx: 40, heightPx: 12 });
    expect(pictureOf(jpeg(300, 70))).toEqual({ type: "image/jpeg", widthPx: 300, heightPx: 70 });
    for (const [bytes, why] of [
      [png(5000, 10), "5000 x 10 dots"],
      [png(0, 10), "no width"],
      [png(40, 12).subarray(0, -1), "cut off"],
      [jpeg(300, 70).subarray(0, -2), "cut off"],
      [
        Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>'),
        "no PNG or JPEG",
      ],
      [Buffer.from("GIF89a"), "no PNG or JPEG"],
      [new Uint8Array(0), "no PNG or JPEG"],
    ] as const)
      expect(pictureOf(bytes)).toMatchObject({ unusable: expect.stringContaining(why) });
  });

  test("of any bytes has a size within bounds, or is none", () => {
    const begun = fc.constantFrom<readonly number[]>([], [...png(3, 3).slice(0, 20)], [0xff, 0xd8, 0xff]);
    fc.assert(
      fc.property(begun, fc.uint8Array({ maxLength: 80 }), (head, rest) => {
        const read = pictureOf(Uint8Array.from([...head, ...rest]));
        if ("unusable" in read) return;
        for (const px of [read.widthPx, read.heightPx]) {
          expect(px).toBeGreaterThan(0);
          expect(px).toBeLessThanOrEqual(4000);
        }
      }),
    );
  });

  test("is read within the design's folder alone, and only up to a bound", async () => {
    const outside = folderWith({ "logo.png": png(4, 4) });
    const folder = folderWith({ "logo.png": png(4, 4), "large.png": new Uint8Array(600 * 1024) });
    symlinkSync(join(outside, "logo.png"), join(folder, "link.png"));
    expect(await readLogo(join(folder, "logo.png"), folder)).toMatchObject({ widthPx: 4 });
    for (const [path, why] of [
      [join(outside, "logo.png"), "outside"],
      [join(folder, "link.png"), "outside"],
      [join(folder, "large.png"), "600 kB are more than the 512 kB"],
      [join(folder, "none.png"), "no such file"],
      [folder, "folder"],
    ] as const)
      expect(await readLogo(path, folder)).toMatchObject({ unusable: expect.stringContaining(why) });
  });
});

describe("a template", () => {
  const page: Page = {
    name: "line-up/a",
    title: "T",
    keyFigures: [],
    sections: ["safety", "hop", "levels", "less", "order", "fields"].map((id) => ({
      id,
      title: id,
      blocks:
        id === "order"
          ? [
              {
                type: "table",
                columns: [{ title: "" }, { title: "What" }, { title: "Done" }],
                rows: [{ cells: ["1", "a", ""] }],
              },
            ]
          : [],
    })),
    colophon: "",
  };
  const made = (text: string, own: { label: string; value: string; at?: string }[] = []) =>
    templated(page, { template: template(text).template, kind: "line-up", own, words: ENGLISH });

  test("leaves out and puts first what it names, of its kind", () => {
    const { sections } = made(
      "leave-out less of line-up\nleave-out levels of acceptance\nfirst fields\nfirst order",
    );
    expect(sections.map(({ id }) => id)).toEqual(["safety", "fields", "order", "hop", "levels"]);
  });

  test("cannot leave out cautions: that is told, and they stay", () => {
    const { problems, template: read } = template("leave-out safety\nleave-out safety of line-up");
    expect(problems.map(({ message }) => message).join("\n")).toContain("cautions stay on every sheet");
    expect(problems).toHaveLength(2);
    const forced = { ...read!, leftOut: [{ at: "x", section: "safety" }] };
    const { sections } = templated(page, { template: forced, kind: "line-up", own: [], words: ENGLISH });
    expect(sections[0]!.id).toBe("safety");
  });

  test("adds lines to the order of the work, and shows fields as stated or as boxes", () => {
    const made1 = made(
      'instruction "Photograph labels." of line-up\nfield "Order"\nfield "Lot" "7"\nfield "Weather"\npaper Letter\ncompany "E"\nfoot "F"',
      [
        { label: "Order", value: "4711" },
        { label: "Key", value: "B12", at: "KELD" },
      ],
    );
    const text = printHtml(made1).text;
    expect(text).toContain("<td>Photograph labels.</td>");
    // By the last step the site is left.
    const steps = made1.sections
      .find(({ id }) => id === "order")!
      .blocks.flatMap((block) => (block.type === "table" ? block.rows.map(({ cells }) => cells) : []));
    expect(steps.at(-2)![1]).toBe("Photograph labels.");
    expect(steps.map(([number]) => number)).toEqual(steps.map((_, at) => String(at + 1)));
    for (const [label, value] of [
      ["Order", "4711"],
      ["Lot", "7"],
      ["Key, KELD", "B12"],
    ])
      expect(text).toContain(`<dt>${label}</dt><dd>${value}</dd>`);
    expect(text).toMatch(/<dt>Weather<\/dt><dd><span class="box"><\/span>/);
    expect(text).toContain("@page{size:Letter}");
    expect(text).toContain('<div class="foot"><p>F</p></div>');
  });

  test("without one, what a hop states of its own is shown all the same", () => {
    const { sections } = templated(page, {
      kind: "line-up",
      own: [{ label: "A", value: "1" }],
      words: ENGLISH,
    });
    expect(sections.at(-1)).toMatchObject({ id: "own" });
  });
});

test("a design's sheets by its template: language, kinds, logo, findings, and nothing runs", async () => {
  const hostile = "<script>alert(1)</script>";
  const text = (logo: string) => `${EXAMPLE_PREAMBLE}
${exampleHop({ hop: `polarization vertical\n  radio R18\n  mode 55 MHz 128QAM\n  arrangement 1+0\n  field "${hostile}" "${hostile}"` })}
sheets DESK {
  make line-up, parts
  company "${hostile}"
  logo "${logo}" alt "${hostile}"
  head "${hostile}"
  foot "${hostile}"
  instruction "${hostile}"
  language de
}
sheets DESK { leave-out bill of line-up }
`;
  const good = folderWith({ "network.hop": text("logo.png"), "logo.png": png(30, 10) });
  const revision = { state: "not in git" } as const;
  const sheets = async (folder: string) => {
    const { designs } = await judgeFolder(folder, { today: "2026-06-01" });
    const [design] = designs;
    const [stated] = design!.model.lookup.sheets()!;
    const { logos } = await design!.session.readListed();
    const logo = logos.get(stated!.logo!.file);
    const pages = [
      ...sheetsOf(design!, {
        kinds: SHEET_KINDS,
        words: ENGLISH,
        folder: "",
        revision,
        template: stated,
        ...(logo && !("unusable" in logo) && { logo }),
      }),
    ];
    return { findings: design!.findings.map(({ rule, message }) => `${rule}: ${message}`), pages, stated };
  };
  const { findings, pages, stated } = await sheets(good);
  expect(stated).toMatchObject({ kinds: ["line-up", "parts"], language: "de" });
  expect(findings.filter((one) => one.startsWith("sheet"))).toEqual([
    expect.stringContaining("sheets-doubled: sheets DESK are stated twice"),
    expect.stringContaining("sheet-section: sheets for line-up have no section bill; they have hop, levels"),
  ]);
  expect(pages.length).toBeGreaterThan(4);
  for (const page of pages) {
    const { text } = printHtml(page);
    expect(text).not.toContain(hostile);
    expect(text).toContain(
      `src="data:image/png;base64,${readFileSync(join(good, "logo.png")).toString("base64")}"`,
    );
  }
  for (const [logo, why] of [
    ["none.png", "no such file"],
    ["../logo.png", "outside"],
    ["network.hop", "no PNG or JPEG"],
  ] as const) {
    const bad = await sheets(folderWith({ "network.hop": text(logo) }));
    expect(bad.findings.find((one) => one.startsWith("sheet-logo"))).toContain(why);
    for (const page of bad.pages) expect(printHtml(page).text).not.toContain("<img");
  }
});

test("the sections that templates name are those of the sheets", async () => {
  const folder = folderWith({ "network.hop": `${EXAMPLE_PREAMBLE}\n${exampleHop()}` });
  const { designs } = await judgeFolder(folder, { today: "2026-06-01" });
  const revision = { state: "not in git" } as const;
  const pages = [...sheetsOf(designs[0]!, { kinds: SHEET_KINDS, words: ENGLISH, folder: "", revision })];
  for (const page of pages) {
    const kind = page.name.split("/")[0]!;
    const known: readonly string[] = SHEET_SECTIONS[kind as keyof typeof SHEET_SECTIONS];
    const ids = page.sections.map(({ id }) => id).filter((id) => id !== "safety" && id !== "errors");
    for (const id of ids)
      expect(known.some((one) => id === one || id.startsWith(`${one}-`)) ? id : known).toBe(id);
  }
  expect(Object.keys(SHEET_SECTIONS).sort()).toEqual([...SHEET_KINDS].sort());
});
