/** Lists of strangers: nothing executes, nothing is fetched, nothing grows without end, and nothing is swallowed. */
import { deflateRawSync } from "node:zlib";
import { strToU8, zipSync } from "fflate";
import { describe, expect, test } from "vitest";
import { readSource } from "../../language/model/source-file.js";
import { readListFile } from "../../server/lists/read/read-file.js";
import { readSheets } from "../../server/lists/read/sheets.js";
import { fileOf, fresh, importInto } from "./support.js";

const LONG = 240_000;
const utf8 = (text: string) => new TextEncoder().encode(text);

async function told(content: string | Uint8Array, name = "a.csv") {
  const imported = await importInto(fresh("out"), fileOf(name, content));
  const rows = imported.plan?.told.map(({ from, reason }) => `${from.line}: ${reason}`) ?? [];
  return {
    imported,
    rows,
    notes: imported.sheets.flatMap(({ sheet, list }) => [...sheet.notes, ...list.remarks]),
  };
}

test("formulas, markup, quotes and marks of direction become plain names and titles", async () => {
  const names = [
    '=HYPERLINK("http://x")',
    "<script>alert(1)</script>",
    'a"b\\c',
    "\u202eDLEK",
    "@SUM(A1)",
    "a {\n} network",
    "// x",
    "objective",
    "кeld",
    "__proto__",
    "constructor",
  ];
  const csv = ["site,latitude,longitude,structure,polarization,title"];
  for (const [i, name] of names.entries())
    csv.push(
      `"${name.replaceAll('"', '""')}",${47 + i / 10},-30,constructor,__proto__,"${name.replaceAll('"', '""')}"`,
    );
  const { imported } = await told(csv.join("\n"));
  expect(imported.plan?.newSites.length).toBe(names.length);
  for (const { path, text } of imported.newFiles) {
    expect(readSource(path, text).problems, text).toEqual([]);
    expect(text).not.toMatch(/[\u202a-\u202e\u2066-\u2069]/);
  }
  const titles = imported.plan!.newSites.map(({ title }) => title);
  expect(titles).toContain('=HYPERLINK("http://x")');
});

describe("encodings", () => {
  const rows = "site;latitude;longitude;title\nKELD;47,5;-30,5;Größe\n";
  test.each([
    ["UTF-8", utf8(rows)],
    ["UTF-8 with a mark", utf8(`\ufeff${rows}`)],
    ["windows-1252", Uint8Array.from(Buffer.from(rows, "latin1"))],
    ["UTF-16LE", Uint8Array.from(Buffer.from(`\ufeff${rows}`, "utf16le"))],
    ["UTF-16LE without a mark", Uint8Array.from(Buffer.from(rows, "utf16le"))],
    ["UTF-16BE", Uint8Array.from(Buffer.from(`\ufeff${rows}`, "utf16le").swap16())],
  ])("%s", async (_name, bytes) => {
    const { imported } = await told(bytes);
    expect(imported.plan?.newSites).toMatchObject([{ name: "KELD", title: "Größe" }]);
  });

  test("zero bytes are told and passed over", async () => {
    const { imported, notes } = await told("site,latitude,longitude\nKE\0LD,47.5,-30.5\n");
    expect(notes).toContain("it holds zero bytes, which are passed over");
    expect(imported.plan?.newSites[0]?.name).toBe("KELD");
  });
});

test("a row of 10 MB is told, and the others are read", async () => {
  const { imported, notes } = await told(
    `site,latitude,longitude\nA,47,-30\n${"x".repeat(10_000_000)},48,-30\nB,47.5,-30\n`,
  );
  expect(notes).toContain("line 3 is longer than 1000000 characters and is not read");
  expect(imported.plan?.newSites.map(({ name }) => name)).toEqual(["A", "B"]);
});

test("a quote that is not closed refuses the file and names the line", async () => {
  const { imported } = await told('site,latitude,longitude\n"A,47,-30\nB,48,-30\n');
  expect(imported.unreadable[0]?.reason).toMatch(/Quote Not Closed.*line \d/);
});

test("a million rows are bounded and told", { timeout: LONG }, () => {
  const line = "KELD,47.5,-30.5\n";
  const [sheet] = readSheets("a.csv", utf8(`site,latitude,longitude\n${line.repeat(1_000_000)}`));
  expect(sheet?.rows.length).toBe(400_000);
  expect(sheet?.unread).toBe(true);
  expect(sheet?.notes).toEqual(["only the first 400000 rows are read: part the list"]);
});

/** An archive with one file, whose directory may state another size than there is. */
function archive(name: string, content: Uint8Array, statedBytes?: number): Uint8Array {
  const bytes = zipSync({ [name]: content });
  if (statedBytes === undefined) return bytes;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  for (let at = 0; at < bytes.length - 4; at++)
    if (view.getUint32(at, true) === 0x02014b50) view.setUint32(at + 24, statedBytes, true);
  return bytes;
}

describe("archives that unpack without end", () => {
  const much = new Uint8Array(60_000_000);
  test.each([
    ["its directory says so", "doc.kml", "a.kmz", 3_000_000_000, /unpacks to 2862 MB, more than the 256 MB/],
    ["its directory lies", "doc.kml", "a.kmz", 1000, /unpacks to more than the directory says/],
    [
      "a workbook whose directory lies",
      "xl/workbook.xml",
      "a.xlsx",
      1000,
      /unpacks to more than the directory says/,
    ],
  ])("%s", async (_name, inner, name, stated, reason) => {
    const { imported } = await told(archive(inner, much, stated), name);
    expect(imported.unreadable[0]?.reason).toMatch(reason);
  });

  test("what is no archive, or none of these", async () => {
    for (const [bytes, name] of [
      [Uint8Array.of(0x50, 0x4b, 3, 4, 0, 0), "a.xlsx"],
      [archive("other.txt", utf8("x")), "a.xlsx"],
      [archive("other.txt", utf8("x")), "a.kmz"],
      [Uint8Array.of(0xd0, 0xcf, 0x11, 0xe0, 0, 0, 0, 0), "a.xls"],
      [deflateRawSync(utf8("x".repeat(1000))), "a.bin"],
    ] as const)
      expect((await told(bytes, name)).imported.plan, name).toBeUndefined();
  });
});

describe("XML and JSON", () => {
  const kml = (inner: string, doctype = "") =>
    `<?xml version="1.0"?>${doctype}<kml xmlns="http://www.opengis.net/kml/2.2"><Document>${inner}</Document></kml>`;
  const place = (name: string) =>
    `<Placemark><name>${name}</name><Point><coordinates>-30.5,47.5</coordinates></Point></Placemark>`;

  test.each([
    ["an external entity", kml(place("&x;"), '<!DOCTYPE kml [<!ENTITY x SYSTEM "file:///etc/hostname">]>')],
    [
      "entities of entities",
      kml(place("&c;"), '<!DOCTYPE kml [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;"><!ENTITY c "&b;&b;">]>'),
    ],
    ["elements deep in each other", kml("<Folder>".repeat(100_000))],
    ["a document cut short", kml(place("A")).slice(0, -20)],
    ["no KML", "<html><body>x</body></html>"],
  ])("%s is refused", async (_name, text) => {
    const { imported } = await told(text, "a.kml");
    expect(imported.plan).toBeUndefined();
    expect(imported.unreadable[0]?.reason).toBeTruthy();
  });

  test("links of a document are told and not followed", async () => {
    const { notes } = await told(
      kml(`${place("A")}<NetworkLink><Link><href>http://x</href></Link></NetworkLink>`),
      "a.kml",
    );
    expect(notes).toContain("1 links to other documents are not followed");
  });

  test.each([
    ["lists deep in each other", `${"[".repeat(100_000)}`],
    ["no features", '{"type":"Topology"}'],
    ["cut short", '{"type":"FeatureCollection","features":['],
  ])("JSON: %s", async (_name, text) => {
    const { imported } = await told(
      text.startsWith("{") ? text : `{"type":"FeatureCollection","features":${text}`,
      "a.geojson",
    );
    expect(imported.unreadable[0]?.reason).toMatch(/JSON/);
  });

  test("features without sense cost themselves", async () => {
    const features = [
      { type: "Feature", properties: null, geometry: null },
      { type: "Feature", properties: { name: "A" }, geometry: { type: "Point", coordinates: ["x", 500] } },
      { type: "Feature", properties: { name: "B" }, geometry: { type: "Point", coordinates: [] } },
      { type: "Feature", properties: { name: "C" }, geometry: { type: "Polygon", coordinates: [] } },
      {
        type: "Feature",
        properties: { name: "D", __proto__: 1 },
        geometry: { type: "Point", coordinates: [-30.5, 47.5] },
      },
      7,
    ];
    const { imported, rows, notes } = await told(
      JSON.stringify({ type: "FeatureCollection", features }),
      "a.geojson",
    );
    expect(imported.plan?.newSites.map(({ name }) => name)).toEqual(["D"]);
    expect(rows.length).toBe(2);
    expect(notes.join()).toContain("Polygon");
  });
});

test("a formula of a workbook counts by its last value, a date for a figure is told", async () => {
  const sheet = `<worksheet xmlns="x"><sheetData>
<row r="1"><c r="A1" t="inlineStr"><is><t>site</t></is></c><c r="B1" t="inlineStr"><is><t>latitude</t></is></c><c r="C1" t="inlineStr"><is><t>longitude</t></is></c><c r="D1" t="inlineStr"><is><t>ground_m</t></is></c></row>
<row r="2"><c r="A2" t="str"><f>CONCAT("K","ELD")</f><v>KELD</v></c><c r="B2"><v>47.5</v></c><c r="C2"><v>-30.5</v></c><c r="D2" s="1"><v>46143</v></c></row>
</sheetData></worksheet>`;
  const files = {
    "xl/workbook.xml": '<workbook xmlns:r="r"><sheets><sheet name="a" r:id="r1"/></sheets></workbook>',
    "xl/_rels/workbook.xml.rels":
      '<Relationships><Relationship Id="r1" Target="worksheets/sheet1.xml"/></Relationships>',
    "xl/styles.xml": '<styleSheet><cellXfs><xf numFmtId="0"/><xf numFmtId="14"/></cellXfs></styleSheet>',
    "xl/worksheets/sheet1.xml": sheet,
  };
  const bytes = zipSync(
    Object.fromEntries(Object.entries(files).map(([name, text]) => [name, strToU8(text)])),
  );
  const { imported, rows, notes } = await told(bytes, "a.xlsx");
  expect(notes).toContain("1 cell is a formula: taken by the value last saved");
  expect(rows).toEqual(["2: ground level holds the date 2026-05-01: a spreadsheet has made one of a figure"]);
  expect(imported.plan?.newSites).toMatchObject([{ name: "KELD" }]);
});

test("what is no file, or too large, is one clause", async () => {
  await expect(readListFile(fresh("none"), "none")).rejects.toThrow(/no such file/);
});
