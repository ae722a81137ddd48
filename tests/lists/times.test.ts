/** Lists of designs in which things come and go: each is told as it stands last, and comes back as the same. */
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { beforeAll, describe, expect, test, vi } from "vitest";
import { type ListOptions, list } from "../../server/cli/commands/list.js";
import type { Imported } from "../../server/lists/import/import-lists.js";
import { type StateWord, stateWords } from "../../shared/design/state.js";
import { readState } from "../../shared/lists/stated-state.js";
import { CATALOGUE, designTextWithSwaps, fileOf, fresh, importInto } from "./support.js";

// How many rows were written is told to nobody here.
beforeAll(() => void vi.spyOn(process.stderr, "write").mockReturnValue(true));

const LONG = 240_000;
const TODAY = "2026-11-28";

function folderWith(text: string): string {
  const out = fresh("design");
  mkdirSync(out);
  writeFileSync(join(out, "network.hop"), CATALOGUE);
  writeFileSync(join(out, "all.hop"), text);
  return out;
}

/** As the command makes it; the path of the file. */
async function listTo(
  folder: string,
  subjects: string,
  format: ListOptions["format"],
  on?: string,
): Promise<string> {
  const out = fresh(`list.${format}`);
  await list(subjects, folder, { format, out, today: TODAY, on });
  return out;
}

/** Rows under their heads. */
async function rowsOf(folder: string, subject: string, on?: string): Promise<Record<string, unknown>[]> {
  return JSON.parse(readFileSync(await listTo(folder, subject, "json", on), "utf8")).lists[0].rows;
}

const ALL = ["sites", "hops", "ends"] as const;

const WAYS: Readonly<Record<string, (folder: string, on?: string) => Promise<string[]>>> = {
  CSV: (folder, on) => Promise.all(ALL.map((subject) => listTo(folder, subject, "csv", on))),
  XLSX: async (folder, on) => [await listTo(folder, "all", "xlsx", on)],
  GeoJSON: async (folder, on) => [await listTo(folder, "all", "geojson", on)],
  KML: async (folder, on) => [await listTo(folder, "all", "kml", on)],
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
  for (const subject of ALL) {
    const shown = (await rowsOf(folder, subject, "2026-12-01")).map(({ shown_on }) => shown_on);
    expect(new Set(shown), subject).toEqual(new Set(["2026-12-01"]));
    expect((await rowsOf(folder, subject)).some((row) => "shown_on" in row)).toBe(false);
  }
  for (const put of Object.values(WAYS)) {
    const files = await put(folder, "2026-12-01");
    const titled = files.map((file) =>
      fileOf("titled.csv", `Network of one day\n\n${readFileSync(file, "utf8")}`),
    );
    for (const file of files[0]!.endsWith(".csv") ? [...files, ...titled] : files) {
      const { plan, unreadable } = await importInto(folder, file);
      expect(plan, file).toBeUndefined();
      expect(unreadable.map(({ reason }) => reason)).toEqual([
        "it is a list of one day, 2026-12-01, and is not read back, since what stands on other days is not in it: make it without --on",
      ]);
    }
  }
});

describe("states in cells", () => {
  const day = fc
    .date({ min: new Date("1990-01-01"), max: new Date("2090-12-31"), noInvalidDate: true })
    .map((date) => date.toISOString().slice(0, 10));
  const parts = (iso: string) => iso.split("-") as [string, string, string];

  test("every state is read as it is written", () => {
    fc.assert(
      fc.property(
        fc.record(
          { word: fc.constantFrom<StateWord>("built", "planned", "removed"), date: day, until: day },
          { requiredKeys: ["word"] },
        ),
        (state) => {
          expect(readState(stateWords(state))).toEqual({ ok: true, state });
        },
      ),
    );
  });

  test("a day in another spelling is read where it has one reading, else both are told", () => {
    fc.assert(
      fc.property(day, (iso) => {
        const [year, month, date] = parts(iso);
        const planned = { ok: true, state: { word: "planned", date: iso } };
        for (const spelt of [
          `${date}.${month}.${year}`,
          `${Number(date)}.${Number(month)}.${year}`,
          `${year}-${Number(month)}-${Number(date)}`,
          `${year}/${month}/${date}`,
          `${iso} 00:00:00`,
          `${iso}T00:00:00Z`,
          new Date(iso).toLocaleDateString("en-GB", {
            day: "numeric",
            month: "short",
            year: "numeric",
            timeZone: "UTC",
          }),
          new Date(iso).toLocaleDateString("en-US", { dateStyle: "long", timeZone: "UTC" }),
        ])
          expect(readState(`planned ${spelt}`), spelt).toEqual(planned);
        const either = readState(`planned ${date}/${month}/${year}`);
        if (Number(date) > 12 || date === month) expect(either).toEqual(planned);
        else
          expect(either).toEqual({
            ok: false,
            reason: `${date}/${month}/${year} may be ${iso} and ${year}-${date}-${month}: write the one that is meant`,
          });
      }),
    );
  });

  test.each([
    ["planned 2027-02-30", "2027-02-30 is not a day of the calendar"],
    ["planned 2027", '"2027" is no day that can be read'],
    ["planned 01.03.27", '"01.03.27" is no day that can be read'],
    ["built until 31.04.2027", "31.04.2027 is not a day of the calendar"],
    ["2027-03-01", "2027-03-01 is a day; whether it is built, planned or removed then, it does not say"],
  ])("%s costs the row, which is told with its line", async (state, reason) => {
    const csv = `site,latitude,longitude,state\nA,47.5,-30.5,built\nB,47.6,-30.5,${state}\n`;
    const { plan } = await importInto(fresh("out"), fileOf("sites.csv", csv));
    expect(plan?.newSites.map(({ name }) => name)).toEqual(["A"]);
    expect(plan?.told).toMatchObject([{ from: { line: 3 }, what: "row" }]);
    expect(plan?.told[0]?.reason).toContain(reason);
    const hops = `hop,site a,site b,state\nA-B,A,B,${state}\n`;
    const sites = "site,latitude,longitude\nA,47.5,-30.5\nB,47.6,-30.5\n";
    const both = await importInto(fresh("out"), fileOf("sites.csv", sites), fileOf("hops.csv", hops));
    expect(both.plan?.newHops).toEqual([]);
    expect(both.plan?.told).toMatchObject([{ from: { line: 2 }, what: "row" }]);
  });

  test("a word that is no state is told by its line where others in the column are, else once", async () => {
    const told = async (...states: string[]) => {
      const rows = states.map((state, i) => `S${i},${47 + i / 10},-30.5,${state}\n`).join("");
      return importInto(fresh("out"), fileOf("sites.csv", `site,latitude,longitude,state\n${rows}`));
    };
    const mixed = await told("built", "on hold", "New York");
    expect(mixed.plan?.newSites).toHaveLength(3);
    expect(mixed.plan?.told).toMatchObject([
      { from: { line: 3 }, what: "cell" },
      { from: { line: 4 }, what: "cell" },
    ]);
    const other = await told("Vermont", "New York");
    expect(other.plan?.told).toEqual([]);
    expect(other.sheets[0]?.list.remarks).toEqual([
      expect.stringContaining(
        'a state is built, planned or removed, with a date as 2027-03-01; others, such as "Vermont"',
      ),
    ]);
  });
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
    const folder = folderWith(GOING);
    expect((await rowsOf(folder, "sites")).map(({ site, state }) => [site, state])).toEqual([
      ["KELD", undefined],
      ["TARN", undefined],
      ["DUNLIN", "removed 2027-04-01"],
      ["BRENT", "planned 2027-04-01"],
    ]);
    expect((await rowsOf(folder, "hops")).map(({ hop }) => hop)).toEqual(["OLD", "NEW", "KELD-DUNLIN"]);
    const ends = await rowsOf(folder, "ends");
    expect(ends.map(({ hop, figures_until, antenna }) => [hop, figures_until, antenna])).toEqual([
      ["OLD", "2027-04-01", "DISH60-18"],
      ["OLD", "2027-04-01", "DISH60-18"],
      ["NEW", undefined, "DISH120-7"],
      ["NEW", undefined, "DISH60-18"],
      ["KELD-DUNLIN", "2027-04-01", undefined],
      ["KELD-DUNLIN", "2027-04-01", "DISH60-18"],
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
