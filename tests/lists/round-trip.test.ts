/** What goes out as a list comes in again as the same design; what is edited in it, and nothing else, is changed. */
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { formatText } from "../../language/format/format.js";
import { geoJsonText } from "../../server/lists/write/geojson.js";
import { kmlText } from "../../server/lists/write/kml.js";
import { xlsxBytes } from "../../server/lists/write/xlsx.js";
import { loadProject } from "../../server/session/load.js";
import type { Design } from "../../shared/design/design.js";
import type { List } from "../../shared/lists/subjects/list.js";
import { CATALOGUE, csvOf, designText, fileOf, fresh, importInto, listFrom, modelOf } from "./support.js";

const RUNS = { numRuns: 40 };
const LONG = 240_000;

/** A folder with the catalogue, and with a design where one is given. */
function folderWith(text = ""): string {
  const out = fresh("design");
  mkdirSync(out);
  writeFileSync(join(out, "network.hop"), CATALOGUE);
  if (text !== "") writeFileSync(join(out, "all.hop"), formatted(text));
  return out;
}

function formatted(text: string): string {
  const done = formatText(text);
  if (!done.ok) throw new Error(done.problems[0]!.message);
  return done.text;
}

function designIn(out: string): Design {
  return loadProject(out).project.designs()[0]!.design();
}

/** What lists carry, without what is not decided in them. */
function carried({ sites, hops }: Design) {
  const rounded = (value: unknown): unknown =>
    JSON.parse(
      JSON.stringify(value, (_, part) => (typeof part === "number" ? Number(part.toPrecision(12)) : part)),
    );
  return rounded({
    sites: [...sites.values()].sort((a, b) => (a.name < b.name ? -1 : 1)),
    hops: [...hops.values()].sort((a, b) => (a.name < b.name ? -1 : 1)),
  });
}

const WAYS: Readonly<Record<string, (lists: readonly List[]) => Promise<string[]>>> = {
  CSV: async (lists) => lists.map((list) => fileOf(`${list.subject}.csv`, csvOf(list))),
  XLSX: async (lists) => [fileOf("all.xlsx", await xlsxBytes(lists))],
};

describe.each(Object.entries(WAYS))("by %s", (_name, put) => {
  test("design, list, import: the same design, in the one layout", { timeout: LONG }, async () => {
    await fc.assert(
      fc.asyncProperty(designText, async (text) => {
        const model = modelOf(CATALOGUE + text);
        const lists = (["sites", "hops", "ends"] as const).map((subject) => listFrom(model, subject));
        const out = folderWith();
        const imported = await importInto(out, ...(await put(lists)));
        expect(imported.sheets.flatMap(({ list }) => list.unclear)).toEqual([]);
        expect(imported.plan?.told).toEqual([]);
        for (const { path, text: written } of imported.newFiles) {
          expect(formatted(written), path).toBe(written);
          writeFileSync(join(out, path), written);
        }
        expect(carried(designIn(out))).toEqual(carried(model.design()));
      }),
      RUNS,
    );
  });

  test("a list of a design into that design changes nothing", { timeout: LONG }, async () => {
    await fc.assert(
      fc.asyncProperty(designText, async (text) => {
        const lists = (["sites", "hops", "ends"] as const).map((subject) =>
          listFrom(modelOf(CATALOGUE + text), subject),
        );
        const imported = await importInto(folderWith(text), ...(await put(lists)));
        expect(imported.plan?.changes).toEqual([]);
        expect(imported.newFiles).toEqual([]);
        expect(imported.plan?.told).toEqual([]);
      }),
      RUNS,
    );
  });
});

test("a title that a list cannot carry whole is not changed by it", async () => {
  const text = 'site A "two  blanks and a\u2028separator" {\n  at 1 2\n}\n';
  const imported = await importInto(
    folderWith(text),
    fileOf("sites.csv", csvOf(listFrom(modelOf(text), "sites"))),
  );
  expect(imported.changed).toEqual([]);
});

test("an end with an arrangement of its own: told in the list of ends, and untouched by the lists", async () => {
  const design = (own: string) => `site KELD { at 47.5 -30.5 }
site TARN { at 47.55 -30.4 }
hop KELD-TARN {
  objective trunk
  radio R18
  KELD { antenna DISH60-18 at 20 m; ${own}coupler H18 direct }
  TARN { antenna DISH60-18 at 20 m }
}
`;
  const builtAs = (text: string) => {
    const { columns, rows } = listFrom(modelOf(CATALOGUE + text), "ends");
    const at = columns.findIndex(({ head }) => head === "built_as");
    return rows.flatMap(({ values }) => values[at] ?? []);
  };
  expect(builtAs(design(""))).toEqual([]);
  const text = design("arrangement 1+1 hot-standby; ");
  expect(builtAs(text)).toEqual(["1+1 hot-standby", "1+0"]);
  const model = modelOf(CATALOGUE + text);
  const files = (["sites", "hops", "ends"] as const).map((subject) =>
    fileOf(`${subject}.csv`, csvOf(listFrom(model, subject))),
  );
  const imported = await importInto(folderWith(text), ...files);
  expect(imported.plan?.changes).toEqual([]);
  expect(imported.newFiles).toEqual([]);
});

test("sites and hops by GeoJSON and KML into their design change nothing", { timeout: LONG }, async () => {
  await fc.assert(
    fc.asyncProperty(designText, async (text) => {
      const model = modelOf(CATALOGUE + text);
      const lists = (["sites", "hops"] as const).map((subject) => listFrom(model, subject));
      for (const [ending, pieces] of [
        ["geojson", geoJsonText(lists)],
        ["kml", kmlText("Test", lists)],
      ] as const) {
        const imported = await importInto(folderWith(text), fileOf(`all.${ending}`, [...pieces].join("")));
        // Where everything is removed there is nothing on the map, and so nothing to plan.
        const planned = imported.sheets.length === 0 ? [] : imported.plan?.changes;
        expect(planned, ending).toEqual([]);
        expect(imported.newFiles, ending).toEqual([]);
      }
    }),
    RUNS,
  );
});

/** Columns that can be edited, with another value than stands there. */
const EDITS: readonly (readonly ["sites" | "hops" | "ends", string, (was: string) => string])[] = [
  ["sites", "title", (was) => `${was} anew`.trim()],
  ["sites", "latitude_deg", (was) => String(Number((Number(was) + 0.25).toFixed(9)))],
  ["sites", "ground_m", (was) => String(Number((Number(was) + 7.5).toFixed(4)))],
  ["sites", "structure", (was) => (was === "pole" ? "chimney" : "pole")],
  ["hops", "polarization", (was) => (was === "vertical" ? "horizontal" : "vertical")],
  ["hops", "radio", (was) => (was === "R18" ? "R7" : "R18")],
  ["hops", "arrangement", (was) => (was === "1+0" ? "2+0 xpic" : "1+0")],
  ["ends", "antenna", (was) => (was === "DISH60-18" ? "DISH120-7" : "DISH60-18")],
  ["ends", "antenna_height_m", (was) => String(Number((Number(was) + 1.5).toFixed(4)))],
  ["ends", "power_dBm", (was) => String(Number((Number(was) + 2).toFixed(4)))],
  ["ends", "extra_loss_dB", (was) => String(Number((Number(was) + 1).toFixed(4)))],
];

test("one cell edited changes that fact alone, and every other line of the text stays", {
  timeout: LONG,
}, async () => {
  await fc.assert(
    fc.asyncProperty(
      designText,
      fc.constantFrom(...EDITS),
      fc.nat(),
      async (text, [subject, head, edit], pick) => {
        const model = modelOf(CATALOGUE + text);
        const list = listFrom(model, subject);
        const at = list.columns.findIndex((column) => column.head === head);
        fc.pre(list.rows.length > 0);
        const row = pick % list.rows.length;
        const was = list.rows[row]!.values[at];
        // A structure of no height is none; the kind alone cannot be stated.
        fc.pre(head !== "structure" || was !== undefined);
        const values = list.rows[row]!.values.with(at, edit(String(was ?? "")));
        const edited: List = { ...list, rows: list.rows.with(row, { values }) };
        const out = folderWith(text);
        const before = designIn(out);
        const imported = await importInto(out, fileOf(`${subject}.csv`, csvOf(edited)));
        expect(imported.plan?.told).toEqual([]);
        expect(imported.newFiles).toEqual([]);
        expect(imported.changed.length).toBe(1);
        const [{ path, before: textBefore, after }] = imported.changed as [(typeof imported.changed)[0]];
        expect(readFileSync(path, "utf8")).toBe(textBefore);
        writeFileSync(path, after);
        const lines = textBefore.split("\n");
        expect(after.split("\n").filter((line) => !lines.includes(line)).length).toBeLessThanOrEqual(1);
        // The list of the changed design is the edited one.
        const now = loadProject(out).project.designs()[0]!;
        const found = listFrom(now, subject).rows.map((one) => one.values[at]);
        const wanted = edited.rows.map((one) => one.values[at]);
        expect(found.map(String)).toEqual(wanted.map(String));
        expect(before.sites.size).toBe(now.design().sites.size);
      },
    ),
    { numRuns: 120 },
  );
});

test("a state that is edited in a list is changed in its line, with its date; what is no state is told", {
  timeout: LONG,
}, async () => {
  const site = (state: string) => `site KELD {\n  at 47.5 -30.5\n${state}}\n`;
  const after = async (cell: string, state: string) => {
    const out = folderWith(site(state));
    const list = fileOf("sites.csv", `site,state\nKELD,${cell}\n`);
    const told = await importInto(out, list);
    const [changed] = told.changed;
    return { text: changed?.after ?? readFileSync(join(out, "all.hop"), "utf8"), told: JSON.stringify(told) };
  };
  const line = (text: string) => /state .*/.exec(text)?.[0];
  expect(line((await after("planned 2027-04-01", "  state planned 2027-03-01\n")).text)).toBe(
    "state planned 2027-04-01",
  );
  expect(line((await after("built", "  state planned 2027-03-01\n")).text)).toBe("state built");
  expect(line((await after("existing", "")).text)).toBe("state built");
  expect(line((await after("", "  state planned 2027-03-01\n")).text)).toBe("state planned 2027-03-01");
  const other = await after("Vermont", "  state planned 2027-03-01\n");
  expect(line(other.text)).toBe("state planned 2027-03-01");
  expect(other.told).toContain("a state is built, planned or removed");
});
