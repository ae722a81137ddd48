/** The list for line-up goes out empty, comes back filled in, and then says nothing new. */
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { formatText } from "../../language/format/format.js";
import { DesignModel } from "../../language/model/design-model.js";
import { readSource } from "../../language/model/source-file.js";
import type { ChangedText } from "../../server/lists/import/changed-texts.js";
import { xlsxBytes } from "../../server/lists/write/xlsx.js";
import type { Measurement } from "../../shared/design/as-built.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { makeList } from "../../shared/lists/subjects/index.js";
import type { List, Value } from "../../shared/lists/subjects/list.js";
import { measuredHop, measuredStandby } from "../../shared/rules/as-built/example-reading.js";
import { EXAMPLE_PREAMBLE } from "../../shared/rules/example-preamble.js";
import { csvOf, fileOf, fresh, importInto } from "../lists/support.js";
import { exampleGround } from "../rules/example-design.js";

function designOf(text: string) {
  const model = new DesignModel("/example");
  model.setFile(readSource("/example/all.hop", text));
  return model.design();
}

function listFor(text: string): List {
  const design = designOf(text);
  const results = new Map(
    [...design.hops].map(([name, hop]) => [name, { hop, result: evaluateHop(hop, exampleGround(hop)) }]),
  );
  return makeList("line-up", {
    design,
    last: design,
    hopNames: [...design.hops.keys()],
    results,
    findings: [],
  });
}

/** The list with cells of its rows put in place of what stands there. */
function filledIn(
  list: List,
  fill: (row: Readonly<Record<string, Value>>) => Readonly<Record<string, Value>>,
): List {
  const heads = list.columns.map(({ head }) => head);
  return {
    ...list,
    rows: list.rows.map(({ values }) => {
      const cells = fill(Object.fromEntries(heads.map((head, at) => [head, values[at]])));
      return { values: heads.map((head, at) => (head in cells ? cells[head] : values[at])) };
    }),
  };
}

function folderWith(text: string): { readonly out: string; readonly read: () => string } {
  const out = fresh("line-up");
  mkdirSync(out);
  const formatted = formatText(text);
  if (!formatted.ok) throw new Error(formatted.problems[0]!.message);
  const file = join(out, "all.hop");
  writeFileSync(file, formatted.text);
  return { out, read: () => readFileSync(file, "utf8") };
}

function write(changed: readonly ChangedText[]): void {
  for (const { path, after } of changed) writeFileSync(path, after);
}

const STANDBY = EXAMPLE_PREAMBLE + measuredStandby();
const put = {
  CSV: async (list: List) => fileOf("line-up.csv", csvOf(list)),
  XLSX: async (list: List) => fileOf("line-up.xlsx", await xlsxBytes([list])),
};

test("a row for every way through the branches, with what is promised there and nothing filled in", () => {
  const list = listFor(STANDBY);
  const at = (head: string) => list.columns.findIndex((column) => column.head === head);
  expect(list.rows.length).toBe(8);
  expect(list.rows.map(({ values }) => values[at("promised_dBm")])).toEqual([
    -44.2, -49, -49, -53.8, -43.6, -48.4, -48.4, -53.2,
  ]);
  expect(list.rows.every(({ values }) => values[at("measured_dBm")] === undefined)).toBe(true);
});

describe.each(Object.entries(put))("by %s", (_, file) => {
  test("empty it changes nothing", async () => {
    const { out, read } = folderWith(STANDBY);
    const before = read();
    const imported = await importInto(out, await file(listFor(before)));
    expect(imported.changed).toEqual([]);
    expect(imported.plan!.told).toEqual([]);
  });

  test("filled in it comes back as the readings that were written, and once more it changes nothing", async () => {
    const level = fc.integer({ min: -1200, max: -200 }).map((tenths) => tenths / 10);
    const word = fc
      .string({ unit: "grapheme", maxLength: 12 })
      .map((text) => text.replace(/\s+/g, " ").trim());
    const filled = fc.record({
      measured_dBm: fc.option(level, { nil: undefined }),
      measured_on: fc.constantFrom("2026-05-02", "2026-05-03", "2024-02-29"),
      power_control: fc.constantFrom("active", "off", undefined),
      measured_by: fc.option(word, { nil: undefined }),
      remark: fc.option(word, { nil: undefined }),
    });
    await fc.assert(
      fc.asyncProperty(fc.array(filled, { minLength: 8, maxLength: 8 }), async (cells) => {
        const { out, read } = folderWith(STANDBY);
        let row = 0;
        const list = filledIn(listFor(read()), () => cells[row++]!);
        const first = await importInto(out, await file(list));
        expect(first.unreadable).toEqual([]);
        expect(first.notChanged).toEqual([]);
        write(first.changed);
        const wanted = cells.filter((one) => one.measured_dBm !== undefined);
        const measured = (designOf(read()).hops.get("KELD-TARN")!.measured ?? []) as readonly Measurement[];
        expect(measured.map(({ levelDbm, on, powerControl }) => [levelDbm, on, powerControl])).toEqual(
          wanted.map((one) => [one.measured_dBm, one.measured_on, one.power_control]),
        );
        const again = await importInto(out, await file(list));
        expect(again.changed).toEqual([]);
        // What it carries now goes out, and comes in as what is there.
        const third = await importInto(out, await file(listFor(read())));
        expect(third.changed).toEqual([]);
        expect(third.plan!.told.filter(({ what }) => what !== "remark")).toEqual([]);
      }),
      { numRuns: 25 },
    );
  }, 120_000);
});

test("the text that is written stands in the one layout, with what was promised", async () => {
  const { out, read } = folderWith(EXAMPLE_PREAMBLE + measuredHop());
  const list = filledIn(listFor(read()), ({ measured_at }) =>
    measured_at === "TARN"
      ? { measured_dBm: -41.6, measured_on: "2026-05-02", measured_by: 'M. "K" \\', remark: "{light} rain" }
      : {},
  );
  write((await importInto(out, fileOf("line-up.csv", csvOf(list)))).changed);
  const line =
    'measured -41.6 dBm at TARN promised -41 dBm on 2026-05-02 by "M. \\"K\\" \\\\" "{light} rain"';
  expect(
    read()
      .split("\n")
      .filter((one) => one.includes("measured")),
  ).toEqual([`  ${line}`]);
  expect(formatText(read())).toMatchObject({ ok: true, text: read() });
});

describe("rows that cannot be taken are told with the reason, and the others are", () => {
  const HEADS = "hop,measured_at,branch,carrier,mode,promised_dBm,measured_dBm,measured_on,power_control";
  const importing = async (...rows: readonly string[]) => {
    const { out } = folderWith(EXAMPLE_PREAMBLE + measuredHop());
    return importInto(out, fileOf("line-up.csv", `${[HEADS, ...rows].join("\n")}\n`));
  };
  const GOOD = "KELD-TARN,TARN,main,,128QAM,-41,-41.6,2026-05-02,off";

  test.each([
    ["KELD-TARN,TARN,main,,,-41,-41.6,,", "has a level and no day"],
    ["KELD-TARN,TARN,main,,,-41,-41.6,30.2.2026,", "is no day"],
    ["KELD-TARN,TARN,main,,,-41,-41.6,03/04/2026,", "may be 2026-04-03 or 2026-03-04"],
    ["KELD-TARN,TARN,main,,,-41,weak,2026-05-02,", "is no figure"],
    ["KELD-TARN,TARN,main,,,-41,-416,2026-05-02,", "is no received level"],
    ["KELD-TARN,TARN,middle,,,-41,-41.6,2026-05-02,", "none of its words"],
    ["KELD-TARN,TARN,main,99,,-41,-41.6,2026-05-02,", "no number of a carrier"],
    ['KELD-TARN,TARN,main,,"x } hop Y {",-41,-41.6,2026-05-02,', "is no mode of a radio"],
    ["NOWHERE,TARN,main,,,-41,-41.6,2026-05-02,", "there is no hop NOWHERE"],
    ["KELD-TARN,MIRE,main,,,-41,-41.6,2026-05-02,", "MIRE is no end of KELD-TARN"],
  ])("%s", async (row, reason) => {
    const { plan, changed } = await importing(row, GOOD);
    expect(plan!.told.map((one) => one.reason).join()).toContain(reason);
    expect(changed.length).toBe(1);
    expect(changed[0]!.after.match(/measured /g)?.length).toBe(1);
  });
});

test("a list filled in with decimal commas is read", async () => {
  const { out, read } = folderWith(EXAMPLE_PREAMBLE + measuredHop());
  const text = "hop;measured_at;promised_dBm;measured_dBm;measured_on\nKELD-TARN;TARN;-41,0;−41,6;2.5.2026\n";
  write((await importInto(out, fileOf("line-up.csv", text))).changed);
  expect(read()).toContain("measured -41.6 dBm at TARN promised -41 dBm on 2026-05-02");
});
