/** What a change does to the demands of a network, in the words of its text. */
import { afterAll, expect, test } from "vitest";
import type { ChangeSet } from "../../shared/compare/change-set.js";
import { files } from "./network.js";
import { TestRepository } from "./repository.js";

const DEMANDS = `demand SCHOOL "School" {
  from KELD to TARN
  committed 200 Mbit/s
  latency 5 ms
  route via KELD-MOSS, PEAK
}

demand HALL {
  from FELL to handover
  committed 20 Mbit/s
}
`;

const repository = TestRepository.create();
afterAll(() => repository.remove());
repository.write({ ...files(), "demands.hop": DEMANDS });
const base = repository.commit("base");

/** What is told of demands and of traffic, a line a decision. */
function told({ shared }: ChangeSet): string[] {
  return shared.flatMap(({ entry, status, decisions }) =>
    decisions.length === 0
      ? [`${entry} ${status}`]
      : decisions.map(
          ({ was, is, from }) => `${entry}: ${was ?? "–"} -> ${is ?? "–"}${from ? ` (${from})` : ""}`,
        ),
  );
}

async function changed(edited: Readonly<Record<string, string>>): Promise<string[]> {
  repository.write(edited);
  try {
    return told(await repository.changes(base, undefined));
  } finally {
    repository.git("checkout", "-q", "--", ".");
    repository.git("clean", "-fdq");
  }
}

const edit = (from: string, to: string) => ({ "demands.hop": DEMANDS.replace(from, to) });

test.each([
  ["200 Mbit/s", "300 Mbit/s", ["demand SCHOOL: committed 200 Mbit/s -> committed 300 Mbit/s"]],
  ["to TARN", "to MOSS", ["demand SCHOOL: from KELD to TARN -> from KELD to MOSS"]],
  ["to handover", "to KELD", ["demand HALL: from FELL to handover -> from FELL to KELD"]],
  [
    "KELD-MOSS, PEAK",
    "PEAK, KELD-MOSS",
    ["demand SCHOOL: route via KELD-MOSS, PEAK -> route via PEAK, KELD-MOSS"],
  ],
  ["  latency 5 ms\n", "", ["demand SCHOOL: latency 5 ms -> –"]],
  // The same, written otherwise.
  ["200 Mbit/s", "0.2 Gbit/s", []],
  ["latency 5 ms", "latency 5000us", []],
  ["KELD-MOSS, PEAK", "KELD-MOSS,PEAK", []],
])("%j for %j", async (from, to, expected) => {
  expect(await changed(edit(from, to))).toEqual(expected);
});

test("one that comes, one that goes", async () => {
  const found = await changed(
    edit(DEMANDS.slice(DEMANDS.indexOf("demand HALL")), "demand MILL {\n  from PEAK to KELD\n}\n"),
  );
  expect(found.filter((line) => !line.includes("->")).sort()).toEqual([
    "demand HALL removed",
    "demand MILL added",
  ]);
});

test("terms of the network, and defaults where a demand states nothing", async () => {
  expect(await changed({ "more.hop": "traffic {\n  switching 50 ms\n}\n" })).toContain("traffic added");
  const found = await changed({ "more.hop": "defaults demand {\n  latency 9 ms\n}\n" });
  expect(found.join("\n")).toContain("latency 9 ms");
  expect(found.join("\n")).not.toContain("demand SCHOOL: latency");
});
