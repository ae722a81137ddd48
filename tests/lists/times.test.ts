/** Lists of designs in which things come and go: each is told as it stands last, and comes back as the same. */
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { listedDesign } from "../../server/cli/commands/list.js";
import { judgeFolder } from "../../server/findings/judged-folder.js";
import type { Imported } from "../../server/lists/import/import-lists.js";
import { geoJsonText } from "../../server/lists/write/geojson.js";
import { kmlText } from "../../server/lists/write/kml.js";
import { xlsxBytes } from "../../server/lists/write/xlsx.js";
import { makeList } from "../../shared/lists/subjects/index.js";
import type { List, ListSubject } from "../../shared/lists/subjects/list.js";
import { CATALOGUE, csvOf, designTextWithSwaps, fileOf, fresh, importInto } from "./support.js";

const LONG = 240_000;
const TODAY = "2026-11-28";

function folderWith(text: string): string {
  const out = fresh("design");
  mkdirSync(out);
  writeFileSync(join(out, "network.hop"), CATALOGUE);
  writeFileSync(join(out, "all.hop"), text);
  return out;
}

/** As `hopwright list` makes them. */
async function listsOf(folder: string, subjects: readonly ListSubject[], on?: string): Promise<List[]> {
  const judged = await judgeFolder(folder, { today: TODAY, times: { on } });
  const listed = listedDesign(judged.designs[0]!, { today: TODAY, on });
  return subjects.map((subject) => makeList(subject, listed));
}

const cell = ({ columns, rows }: List, row: number, head: string) =>
  rows[row]!.values[columns.findIndex((column) => column.head === head)];

const ALL = ["sites", "hops", "ends"] as const;
const ON_MAP = ["sites", "hops"] as const;

const WAYS: Readonly<Record<string, (folder: string) => Promise<string[]>>> = {
  CSV: async (folder) =>
    (await listsOf(folder, ALL)).map((list) => fileOf(`${list.subject}.csv`, csvOf(list))),
  XLSX: async (folder) => [fileOf("all.xlsx", xlsxBytes(await listsOf(folder, ALL)))],
  GeoJSON: async (folder) => [
    fileOf("all.geojson", [...geoJsonText(await listsOf(folder, ON_MAP))].join("")),
  ],
  KML: async (folder) => [fileOf("all.kml", [...kmlText("T", await listsOf(folder, ON_MAP))].join(""))],
};

function expectNothing({ plan, newFiles, changed, notChanged }: Imported): void {
  expect(plan?.changes).toEqual([]);
  expect(newFiles).toEqual([]);
  expect(changed).toEqual([]);
  expect(notChanged).toEqual([]);
  expect(plan?.told).toEqual([]);
}

describe.each(Object.entries(WAYS))("by %s", (_name, put) => {
  test("a list of a design whose sites, hops and parts come and go changes nothing in it", {
    timeout: LONG,
  }, async () => {
    await fc.assert(
      fc.asyncProperty(designTextWithSwaps, async (text) => {
        const folder = folderWith(text);
        const files = await put(folder);
        const imported = await importInto(folder, ...files);
        // A list without a row is none.
        if (imported.sheets.some(({ columns }) => columns.rows.length > 0)) expectNothing(imported);
      }),
      { numRuns: 25 },
    );
  });
});

test("a list of one day says so in each row, and is not read back, in whatever format", async () => {
  const folder = folderWith(GOING);
  const lists = await listsOf(folder, ALL, "2026-12-01");
  for (const list of lists) {
    expect(list.rows.length, list.subject).toBeGreaterThan(0);
    expect(new Set(list.rows.map((_, row) => cell(list, row, "shown_on")))).toEqual(new Set(["2026-12-01"]));
  }
  for (const list of await listsOf(folder, ALL))
    expect(list.columns.map(({ head }) => head)).not.toContain("shown_on");
  const files = [
    ...lists.map((list) => fileOf(`${list.subject}.csv`, csvOf(list))),
    fileOf("titled.csv", `Network of one day\n\n${csvOf(lists[0]!)}`),
    fileOf("all.xlsx", xlsxBytes(lists)),
    fileOf("all.geojson", [...geoJsonText(lists.slice(0, 2))].join("")),
    fileOf("all.kml", [...kmlText("T", lists.slice(0, 2))].join("")),
  ];
  for (const file of files) {
    const { plan, unreadable } = await importInto(folder, file);
    expect(plan, file).toBeUndefined();
    expect(unreadable.map(({ reason }) => reason)).toEqual([
      "it is a list of one day, 2026-12-01, and is not read back, since what stands on other days is not in it: make it without --on",
    ]);
  }
});

const GOING = `site KELD {
  at 47.5 -30.5
}

site TARN {
  at 47.6 -30.5
}

site DUNLIN "Dunlin hill" {
  at 47.7 -30.5
  state removed 2027-04-01
}

site BRENT {
  at 47.7 -30.5
  state planned 2027-04-01
}

site NEVER {
  at 47.8 -30.5
  state removed
}

hop OLD {
  state removed 2027-04-01
  KELD {
    antenna DISH60-18 at 20 m
  }
  TARN {
    antenna DISH60-18 at 20 m
  }
}

hop NEW {
  state planned 2027-04-01
  KELD {
    antenna DISH120-7 at 20 m state planned 2027-02-01
  }
  TARN {
    antenna DISH60-18 at 18 m
  }
}

hop KELD-DUNLIN {
  KELD {}
  DUNLIN {
    antenna DISH60-18 at 20 m
  }
}
`;

describe("what is taken down", () => {
  const changedBy = async (csv: string) => {
    const imported = await importInto(folderWith(GOING), fileOf("list.csv", csv));
    const [changed] = imported.changed;
    const before = GOING.split("\n");
    return {
      ...imported,
      lines: (changed?.after ?? GOING).split("\n").filter((line, i) => line !== before[i]),
    };
  };

  test("is listed with its state as long as it stands on a day from today on, as it stands last", async () => {
    const [sites, hops, ends] = (await listsOf(folderWith(GOING), ALL)) as [List, List, List];
    expect(sites.rows.map(({ values }) => values.slice(0, 3))).toEqual([
      ["KELD", undefined, undefined],
      ["TARN", undefined, undefined],
      ["DUNLIN", "Dunlin hill", "removed 2027-04-01"],
      ["BRENT", undefined, "planned 2027-04-01"],
    ]);
    expect(hops.rows.map(({ values }) => values[0])).toEqual(["OLD", "NEW", "KELD-DUNLIN"]);
    expect(ends.rows.map((_, row) => [cell(ends, row, "hop"), cell(ends, row, "figures_until")])).toEqual([
      ["OLD", "2027-04-01"],
      ["OLD", "2027-04-01"],
      ["NEW", undefined],
      ["NEW", undefined],
      ["KELD-DUNLIN", "2027-04-01"],
      ["KELD-DUNLIN", "2027-04-01"],
    ]);
  });

  test("is edited in its place, whether it is named or lies there", async () => {
    expect((await changedBy("site,title\nDUNLIN,Dunlin top\n")).lines).toEqual([
      'site DUNLIN "Dunlin top" {',
    ]);
    expect((await changedBy("site,title\nNEVER,Never\n")).lines).toEqual(['site NEVER "Never" {']);
    expect((await changedBy("hop,site,antenna height\nOLD,TARN,24\n")).lines).toEqual([
      "    antenna DISH60-18 at 24 m",
    ]);
    expect((await changedBy("hop,site,antenna height\nKELD-DUNLIN,DUNLIN,24\n")).lines).toEqual([
      "    antenna DISH60-18 at 24 m",
    ]);
    expect((await changedBy("lat,lon,title\n47.8,-30.5,Never\n")).lines).toEqual(['site NEVER "Never" {']);
  });

  test("gives way to what stays where a row names neither", async () => {
    const hop = await changedBy("site a,site b,polarization\nKELD,TARN,V\n");
    expect(hop.plan?.changes.map(({ at }) => at)).toEqual(["hop NEW"]);
    const site = await changedBy("lat,lon,title\n47.7,-30.5,Brent hill\n");
    expect(site.plan?.changes.map(({ at }) => at)).toEqual(["site BRENT"]);
  });
});
