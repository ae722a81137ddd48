/** What gets better is not told as worse: what is left of an overload, and trifles far on the safe side. */
import { afterAll, expect, test } from "vitest";
import { diffMarkdown } from "../../server/cli/print/diff-markdown.js";
import { figureChanges } from "../../shared/compare/consequences.js";
import { isBehindGraver } from "../../shared/compare/demands.js";
import { makeHop } from "../evaluate/builders.js";
import { judgedOnLevelGround } from "../evaluate/carrier-hops.js";
import { files, hop } from "./network.js";
import { TestRepository } from "./repository.js";

const repository = TestRepository.create();
afterAll(() => repository.remove());

test("growth that outgrows a hop which a failure overloaded already is what is left of that", async () => {
  const school = (committed: string) =>
    `demand SCHOOL {\n  from KELD to TARN\n  committed ${committed}\n  growth 10 % for 5 years\n}\n`;
  repository.write({
    ...files(),
    // Round by PEAK 78 Mbit/s are carried; 60 grow to 97 Mbit/s in five years.
    "hops/round.hop": `${hop("KELD-PEAK", "KELD", "PEAK", 10, { more: "mode 55 MHz QPSK" })}\n${hop("PEAK-TARN", "PEAK", "TARN", 12)}`,
    "demands.hop": school("100 Mbit/s"),
  });
  const before = repository.commit("overloaded");
  repository.write({ "demands.hop": school("60 Mbit/s") });
  const less = repository.commit("less");
  const changes = await repository.changes(before, less);
  const statuses = changes.shared.flatMap(({ findings }) =>
    findings.map(({ rule, status }) => `${status} ${rule}`),
  );
  expect(statuses.sort()).toEqual(["fixed failure-overloads", "milder failure-growth"]);
  expect([changes.worse, changes.counts.newFindings, changes.counts.demandsWorse]).toEqual([false, 0, 0]);
  const compared = await repository.compare(before, less);
  const page = [...(await diffMarkdown.print(compared))].join("");
  expect(page).toContain(
    "milder (left of a graver one) demand SCHOOL, because of its own committed: without",
  );
  // Back again the graver one is new, and the other only not judged.
  const back = await repository.changes(less, before);
  expect(back.shared.flatMap(({ findings }) => findings.map(({ status }) => status)).sort()).toEqual([
    "new",
    "no longer judged",
  ]);
});

test("of a hop of which it was not known what it carries, growth is new", () => {
  const load = { hop: "A-B", demands: ["X"], committedBps: 3e6, peakBps: 3e6 };
  expect(isBehindGraver("demand-growth", load)).toBe(false);
  expect(isBehindGraver("demand-growth", { ...load, carriedBps: 2e6 })).toBe(true);
  expect(isBehindGraver("demand-growth", { ...load, carriedBps: 4e6 })).toBe(false);
});

test.each([
  // Asked is 1 F1; of note is a tenth.
  [22.83, 22.77, "changed"],
  [22.77, 22.83, "changed"],
  [22.83, 22.73, "worse"],
  [1.12, 1.1, "changed"],
  [1.12, 1.09, "worse"],
  [1.02, 0.99, "worse"],
  [0.95, 0.98, "better"],
])("a clearance of %d F1 that becomes %d F1 is %s", (was, is, verdict) => {
  const judged = judgedOnLevelGround(makeHop());
  const clearing = (fraction: number) => ({
    ...judged,
    result: {
      ...judged.result,
      clearance: [
        { fraction, requiredFraction: 1, kFactor: 4 / 3 },
      ] as unknown as typeof judged.result.clearance,
    },
  });
  expect(figureChanges(clearing(was), clearing(is), (site) => site)).toMatchObject([
    { kind: "clearance", verdict, difference: `${is > was ? "+" : ""}${(is - was).toFixed(2)} F1` },
  ]);
});
