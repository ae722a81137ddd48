/** A list of others that differs is told by its rows, and is the cause where one of these rows does something. */
import { afterEach, describe, expect, test } from "vitest";
import { diffMarkdown } from "../../server/cli/print/diff-markdown.js";
import { rowChanges } from "../../shared/compare/other-lists.js";
import type { OthersList } from "../../shared/design/interference.js";
import { OthersReading } from "../../shared/others/reading.js";
import { files } from "./network.js";
import { TestRepository } from "./repository.js";

const OTHERS = `others "lists/register.csv" {
  name "name"
  latitude "lat"
  longitude "lon"
  frequency "frequency" in MHz
  emission "emission"
  eirp "eirp" in dBm
}
`;
const HEADS = "name,lat,lon,frequency,emission,eirp,remark";
const FAR = "FAR,46.1,-30.4,18930,55M0D7W,60,";
const WIDE = "WIDE,46.2,-30.4,18930,55M0D7W,60,";
/** At TARN, on what KELD-TARN is received on there. */
const NEAR = "NEAR,47.55,-30.4,18930,55M0D7W,60,";

const made: TestRepository[] = [];
afterEach(() => {
  for (const repository of made.splice(0)) repository.remove();
});

async function compared(before: readonly string[], after: readonly string[]) {
  const repository = TestRepository.create();
  made.push(repository);
  const write = (rows: readonly string[]) =>
    repository.write({ "lists/register.csv": `${[HEADS, ...rows].join("\n")}\n` });
  repository.write({ ...files(), "others.hop": OTHERS });
  write(before);
  repository.commit("before");
  write(after);
  return repository.compare("HEAD", undefined);
}

test("a row that comes is the cause where it is heard, and nowhere else", async () => {
  const found = await compared([FAR], [NEAR, FAR]);
  const [{ changes }] = found.designs as [(typeof found.designs)[number]];
  expect(changes.hops.map(({ hop, causes }) => [hop, causes.map(({ text }) => text)])).toEqual([
    ["KELD-TARN", ["others lists/register.csv"]],
  ]);
  expect(changes.shared).toMatchObject([
    {
      entry: "others lists/register.csv",
      usedBy: 3,
      affects: 1,
      decisions: [{ was: "1 row", is: "2 rows, 1 more: NEAR" }],
    },
  ]);
  const page = [...(await diffMarkdown.print(found))].join("");
  expect(page).toContain("| KELD-TARN | lists/register.csv |");
});

test("one that harms nobody is told with the list alone; another order, or another remark, is no change", async () => {
  const far = await compared([FAR], [FAR, WIDE]);
  expect(far.designs[0]!.changes.hops).toEqual([]);
  expect(far.designs[0]!.changes.shared).toMatchObject([{ entry: "others lists/register.csv", affects: 0 }]);
  const same = await compared([FAR, WIDE], [`${WIDE}seen`, FAR]);
  expect(same.designs[0]!.changes.shared).toEqual([]);
});

describe("rows", () => {
  const list = {
    at: "others",
    file: "register.csv",
    columns: [
      ["name", "name"],
      ["latitude", "lat"],
      ["longitude", "lon"],
      ["frequency", "frequency", "MHz"],
      ["emission", "emission"],
      ["eirp", "eirp", "dBm"],
    ].map(([key, head, unit]) => ({ key, head, unit })),
  } as unknown as OthersList;
  test("that came, went or say something else are counted, and three of each named", () => {
    const table = (rows: readonly string[]) => {
      const reading = new OthersReading(list, HEADS.split(","));
      for (const [index, row] of rows.entries()) reading.take(index + 2, row.split(","));
      return reading.finish().table;
    };
    const numbered = (count: number) => Array.from({ length: count }, (_, k) => FAR.replace("FAR", `R${k}`));
    const decision = (was: readonly string[], is: readonly string[]) =>
      rowChanges(table(was), table(is))?.decision.is;
    expect(decision([FAR], [FAR, ...numbered(4)])).toBe("5 rows, 4 more: R0, R1, R2 and others");
    expect(decision([FAR, WIDE], [FAR])).toBe("1 row, 1 gone: WIDE");
    expect(decision([FAR, WIDE], [FAR.replace(",60,", ",61,"), WIDE])).toBe("2 rows, 1 changed: FAR");
    expect(decision([",46,-30,18930,55M0D7W,60,"], [",46,-30,18930,55M0D7W,61,"])).toBe(
      "1 row, 1 more: line 2, 1 gone: line 2",
    );
    expect(decision([FAR, WIDE], [WIDE, FAR])).toBeUndefined();
  });
});
