/** Lists that go out, held against what reads them elsewhere: RFC 7946, KML's own schema order, a second library for XLSX. */
import { readFileSync } from "node:fs";
import * as XLSX from "@e965/xlsx";
import { Ajv } from "ajv";
import fc from "fast-check";
import { SaxesParser } from "saxes";
import { describe, expect, test } from "vitest";
import { csvText } from "../../server/lists/csv-text.js";
import { readCsv } from "../../server/lists/read/csv.js";
import { geoJsonText } from "../../server/lists/write/geojson.js";
import { kmlText } from "../../server/lists/write/kml.js";
import { xlsxBytes } from "../../server/lists/write/xlsx.js";
import { withoutSteering } from "../../shared/format/steering.js";
import type { List, ListSubject } from "../../shared/lists/subjects/list.js";
import { CATALOGUE, csvOf, designText, listFrom, modelOf } from "./support.js";

const LONG = 120_000;
const RUNS = { numRuns: 30 };
const subjects: readonly ListSubject[] = [
  "sites",
  "hops",
  "ends",
  "parts",
  "ports",
  "channels",
  "line-up",
  "calibration",
  "findings",
];
const lists = designText.map((text) =>
  subjects.map((subject) => listFrom(modelOf(CATALOGUE + text), subject)),
);
const ofSubject = (all: readonly List[], ...wanted: ListSubject[]) =>
  all.filter(({ subject }) => wanted.includes(subject));

interface Geometry {
  readonly type: string;
  readonly coordinates: unknown;
}

/** RFC 7946 sections 3 and 4, as far as features of points and lines go. */
function checkGeoJson(text: string): { readonly geometry: Geometry | null }[] {
  const root = JSON.parse(text);
  expect(Object.keys(root).sort()).toEqual(["features", "type"]);
  expect(root.type).toBe("FeatureCollection");
  for (const feature of root.features) {
    expect(feature.type).toBe("Feature");
    expect(["string", "number"]).toContain(typeof feature.id);
    expect(typeof feature.properties).toBe("object");
    expect(Object.keys(feature).sort()).toEqual(["geometry", "id", "properties", "type"]);
    if (feature.geometry === null) continue;
    const { type, coordinates } = feature.geometry as { type: string; coordinates: never };
    const lines: [number, number][][] =
      type === "Point" ? [[coordinates]] : type === "LineString" ? [coordinates] : coordinates;
    expect(["Point", "LineString", "MultiLineString"]).toContain(type);
    for (const line of lines) {
      if (type !== "Point") expect(line.length).toBeGreaterThanOrEqual(2);
      for (const [longitude, latitude] of line) {
        expect(Math.abs(longitude)).toBeLessThanOrEqual(180);
        expect(Math.abs(latitude)).toBeLessThanOrEqual(90);
      }
      // Section 3.1.9: no line crosses the antimeridian.
      for (let i = 1; i < line.length; i++)
        expect(Math.abs(line[i]![0] - line[i - 1]![0])).toBeLessThanOrEqual(180);
    }
  }
  return root.features;
}

test("GeoJSON follows RFC 7946", { timeout: LONG }, () => {
  fc.assert(
    fc.property(lists, (all) => {
      const own = ofSubject(all, "sites", "hops", "ends");
      const features = checkGeoJson([...geoJsonText(own)].join(""));
      expect(features.length).toBe(own.reduce((sum, { rows }) => sum + rows.length, 0));
    }),
    RUNS,
  );
});

test("a hop over the antimeridian is cut where it crosses", () => {
  const model = modelOf(
    `site A { at -17 179.5 }\nsite B { at -16 -179.7 }\nhop A-B { A {}; B {} }\nhop B-A { B {}; A {} }`,
  );
  const features = checkGeoJson([...geoJsonText([listFrom(model, "hops")])].join(""));
  expect(features.map(({ geometry }) => geometry)).toEqual([
    {
      type: "MultiLineString",
      coordinates: [
        [
          [179.5, -17],
          [180, -16.375],
        ],
        [
          [-180, -16.375],
          [-179.7, -16],
        ],
      ],
    },
    {
      type: "MultiLineString",
      coordinates: [
        [
          [-179.7, -16],
          [-180, -16.375],
        ],
        [
          [180, -16.375],
          [179.5, -17],
        ],
      ],
    },
  ]);
});

/** Order of children as the schema of OGC KML has it (AbstractFeatureType, PlacemarkType). */
const ORDER: Readonly<Record<string, readonly string[]>> = {
  kml: ["Document"],
  Document: ["name", "Folder"],
  Folder: ["name", "Placemark"],
  Placemark: ["name", "ExtendedData", "Point", "LineString"],
  ExtendedData: ["Data"],
  Data: ["value"],
  Point: ["coordinates"],
  LineString: ["tessellate", "coordinates"],
};

test("KML is well formed, in the order of its schema, in its namespace", { timeout: LONG }, () => {
  fc.assert(
    fc.property(lists, fc.string(), (all, title) => {
      const own = ofSubject(all, "sites", "hops");
      const stack: { name: string; last: number }[] = [];
      let placemarks = 0;
      const parser = new SaxesParser({ xmlns: true });
      parser.on("error", (error) => {
        throw error;
      });
      parser.on("opentag", ({ name, uri }) => {
        expect(uri).toBe("http://www.opengis.net/kml/2.2");
        const parent = stack.at(-1);
        if (parent) {
          const place = ORDER[parent.name]!.indexOf(name);
          expect(place, `${name} in ${parent.name}`).toBeGreaterThanOrEqual(parent.last);
          parent.last = place;
        }
        if (name === "Placemark") placemarks++;
        stack.push({ name, last: 0 });
      });
      parser.on("closetag", () => void stack.pop());
      parser.write([...kmlText(title, own)].join("")).close();
      expect(placemarks).toBe(own.reduce((sum, { rows }) => sum + rows.length, 0));
    }),
    RUNS,
  );
});

test("a workbook, read by another library: types, values, no formula, the same bytes each time", {
  timeout: LONG,
}, () => {
  fc.assert(
    fc.property(lists, (all) => {
      const bytes = xlsxBytes(all);
      expect(Buffer.from(xlsxBytes(all)).equals(bytes)).toBe(true);
      const book = XLSX.read(bytes, { cellFormula: true });
      expect(book.SheetNames).toEqual(all.map(({ subject }) => subject));
      for (const { subject, columns, rows } of all) {
        const sheet = book.Sheets[subject]!;
        for (const cell of Object.values(sheet)) if (cell?.t !== undefined) expect(cell.f).toBeUndefined();
        const read = XLSX.utils.sheet_to_json<(string | number | undefined)[]>(sheet, {
          header: 1,
          raw: true,
        });
        expect(read[0]).toEqual(columns.map(({ head }) => head));
        for (const [i, { values }] of rows.entries())
          for (const [j, value] of values.entries()) expect(read[i + 1]?.[j]).toBe(value);
      }
    }),
    RUNS,
  );
});

describe("CSV", () => {
  test("no text that a spreadsheet would compute; figures stay figures; all of it reads back", () => {
    const cell = fc.oneof(
      fc.constantFrom(
        "=1+1",
        "+1",
        "-1",
        "@a",
        "'=1",
        "\tx",
        'a"b',
        "a,b",
        "a\nb",
        " a ",
        "=cmd|' /C calc'!A0",
        "toString",
      ),
      fc.string({ unit: "grapheme" }),
      fc.double({ noNaN: true, noDefaultInfinity: true }),
    );
    fc.assert(
      fc.property(
        fc.array(fc.array(cell, { minLength: 2, maxLength: 5 }), { minLength: 1, maxLength: 8 }),
        (rows) => {
          // A head of two columns and more decides which sign parts cells, as in every list of ours.
          const text = csvText([["site", "title", "hops", "rule", "line"], ...rows]);
          const read = readCsv("a.csv", new TextEncoder().encode(text)).rows.slice(1);
          const shown = (value: string | number) =>
            typeof value === "number"
              ? String(value)
              : withoutSteering(value, (sign) => (/[\t\n\r]/.test(sign) ? sign : "\ufffd"));
          fc.pre(!rows.flat().some((value) => typeof value === "string" && /\ufeff|\p{Cs}|\0/u.test(value)));
          // Which sign parts cells is guessed from all lines; a list of ours has a head that decides it.
          fc.pre(!rows.flat().some((value) => typeof value === "string" && /[;|\t\r]/.test(value)));
          expect(read.map(({ cells }) => cells.map(String))).toEqual(rows.map((cells) => cells.map(shown)));
        },
      ),
      { numRuns: 300 },
    );
  });

  test("cells of lists", { timeout: LONG }, () => {
    fc.assert(
      fc.property(lists, (all) => {
        for (const list of all)
          for (const { cells } of readRaw(csvOf(list)))
            for (const cell of cells)
              if (/^[=+\-@\t\r]/.test(cell)) expect(Number.isFinite(Number(cell)), cell).toBe(true);
      }),
      RUNS,
    );
  });
});

/** Cells as a spreadsheet sees them, guards and all. */
function readRaw(text: string): { cells: string[] }[] {
  const book = XLSX.read(text, { type: "string", raw: true });
  return XLSX.utils
    .sheet_to_json<string[]>(book.Sheets[book.SheetNames[0]!]!, { header: 1, raw: true })
    .map((cells) => ({ cells: cells.map(String) }));
}

test("the schema of the JSON is one", () => {
  const schema = JSON.parse(
    readFileSync(new URL("../../server/cli/schema/list.schema.json", import.meta.url), "utf8"),
  );
  const validate = new Ajv({ allErrors: true }).compile(schema);
  expect(
    validate({
      schema: "hopwright-list/1",
      version: "0",
      lists: [
        { subject: "sites", columns: [{ name: "site", type: "text" }], rows: [{ site: "A", ground_m: 3 }] },
      ],
    }),
  ).toBe(true);
  expect(
    validate({
      schema: "hopwright-list/1",
      version: "0",
      lists: [{ subject: "bugs", columns: [], rows: [] }],
    }),
  ).toBe(false);
});
