/** What the head of a comparison counts is what its lists hold, on the page and in the JSON alike. */
import fc from "fast-check";
import { afterAll, expect, test } from "vitest";
import { diffJson } from "../../server/cli/print/diff-json.js";
import { diffMarkdown } from "../../server/cli/print/diff-markdown.js";
import type { FolderComparison } from "../../server/compare/compare-folders.js";
import { files, hop } from "./network.js";
import { TestRepository } from "./repository.js";

/** The way round by PEAK carries 78 Mbit/s. */
const FILES: Readonly<Record<string, string>> = {
  ...files(),
  "hops/round.hop": `${hop("KELD-PEAK", "KELD", "PEAK", 10, { more: "mode 55 MHz QPSK" })}\n${hop("PEAK-TARN", "PEAK", "TARN", 12)}`,
  "demands.hop": `demand SCHOOL {
  from KELD to TARN
  committed 200 Mbit/s
  availability 99.99 %
  accept failure-overloads because "doubled next year"
}

demand HALL {
  from FELL to TARN
  committed 20 Mbit/s
  growth 10 % for 5 years
}
`,
  "others.hop": "",
};

type Edit = readonly [path: string, from: string | RegExp, to: string];

const EDITS: readonly Edit[] = [
  ["hops/round.hop", /hop KELD-PEAK[\s\S]*?\n}\n/, ""],
  ["hops/south.hop", /hop FELL-TARN[\s\S]*\n}\n/, ""],
  ["hops/south.hop", "at 40 m", "at 61 m"],
  ["hops/north.hop", "transmits high", "transmits high\n    extra-loss 35 dB"],
  ["hops/round.hop", "hop PEAK-TARN", "hop EAST"],
  ["demands.hop", "committed 200 Mbit/s", "committed 400 Mbit/s"],
  ["demands.hop", /^ {2}accept.*\n/m, ""],
  ["demands.hop", "from FELL to TARN", "from FELL to PEAK"],
  ["demands.hop", "20 Mbit/s", "70 Mbit/s"],
  // A site more, of which a remark is told, and a hop.
  ["sites.hop", /^/, "site AAA {\n  at 47.52 -30.45\n  structure mast 60 m\n}\n\n"],
  ["others.hop", /^/, hop("KELD-AAA", "KELD", "AAA", 14)],
  ["network.hop", "    objective trunk\n    polar", "    polar"],
  ["catalogue.hop", "overload -10 dBm", "overload -60 dBm"],
];

const repository = TestRepository.create();
afterAll(() => repository.remove());
repository.write(FILES);
const base = repository.commit("base");

async function comparedWith(edits: readonly Edit[], turned: boolean): Promise<FolderComparison> {
  const now: Record<string, string> = { ...FILES };
  for (const [path, from, to] of edits) now[path] = now[path]!.replace(from, to);
  repository.write(now);
  const edited = repository.commit("edited");
  const compared = await repository.compare(turned ? edited : base, turned ? base : edited);
  repository.git("reset", "-q", "--hard", base);
  return compared;
}

/** What the head line says of each, 0 where it says nothing. */
function headOf(page: string): Record<string, number> {
  const head = page.split("\n").find((line) => line.startsWith("From "))!;
  const count = (words: RegExp) => Number(new RegExp(`(\\d+) ${words.source}`).exec(head)?.[1] ?? 0);
  return {
    worse: count(/hops? worse/),
    demandsWorse: count(/demands? worse/),
    newFindings: count(/new finding/),
    fixedFindings: count(/fixed/),
    newlyAccepted: count(/newly accepted/),
    newRemarks: count(/new remark/),
    fixedRemarks: count(/remarks? gone/),
  };
}

const NEW = /^- (new|graver|no longer accepted) (error|warning) /;

function linesOf(page: string): Record<string, number> {
  const lines = page.split("\n");
  const count = (words: RegExp) => lines.filter((line) => words.test(line)).length;
  return {
    newFindings: count(NEW),
    fixedFindings: count(/^- fixed(?! info )/),
    newlyAccepted: count(/^- newly accepted/),
    newRemarks: count(/^- (new|graver|no longer accepted) info /),
    fixedRemarks: count(/^- fixed info /),
  };
}

interface Listed {
  readonly counts: Readonly<Record<string, number>>;
  readonly hops: readonly Owner[];
  readonly sites: readonly Owner[];
  readonly shared: readonly Owner[];
  readonly demands: readonly { readonly worse: boolean }[];
  readonly findings: readonly Told[];
}
interface Told {
  readonly status: string;
  readonly severity: string;
}
interface Owner {
  readonly worse?: boolean;
  readonly findings: readonly Told[];
}

function listedIn({ hops, sites, shared, findings, demands }: Listed): Record<string, number> {
  const all = [...[...hops, ...sites, ...shared].flatMap((one) => one.findings), ...findings];
  const count = (is: (one: Told) => boolean) => all.filter(is).length;
  const isNew = ({ status }: Told) => ["new", "graver", "no longer accepted"].includes(status);
  return {
    worse: hops.filter(({ worse }) => worse).length,
    demandsWorse: demands.filter(({ worse }) => worse).length,
    newFindings: count((one) => isNew(one) && one.severity !== "info"),
    newRemarks: count((one) => isNew(one) && one.severity === "info"),
    newlyAccepted: count(({ status }) => status === "newly accepted"),
  };
}

async function tallied(edits: readonly Edit[], turned: boolean): Promise<string> {
  const compared = await comparedWith(edits, turned);
  const page = [...(await diffMarkdown.print(compared))].join("");
  const json = JSON.parse([...(await diffJson.print(compared))].join(""));
  const [design] = json.designs as [Listed];
  const head = headOf(page);
  expect(design.counts).toMatchObject(head);
  expect(linesOf(page)).toEqual(
    Object.fromEntries(Object.keys(linesOf(page)).map((key) => [key, head[key]])),
  );
  expect(design.counts).toMatchObject(listedIn(design));
  const fixed = page.split("\n").filter((line) => line.startsWith("- fixed")).length;
  expect(fixed).toBe(design.counts.fixedFindings! + design.counts.fixedRemarks!);
  return page;
}

test("head, lists and JSON agree after any edits, seen from either side", async () => {
  const some = fc.uniqueArray(fc.integer({ min: 0, max: EDITS.length - 1 }), { minLength: 1, maxLength: 4 });
  await fc.assert(
    fc.asyncProperty(some, fc.boolean(), async (chosen, turned) => {
      await tallied(
        chosen.map((index) => EDITS[index]!),
        turned,
      );
    }),
    { numRuns: 15 },
  );
}, 300_000);

test("a remark on a site is counted once, and what was accepted and is gone is counted as fixed", async () => {
  const page = await tallied([EDITS[9]!], false);
  expect(page).toMatch(/^- new info AAA: /m);
  // Less than the way round carries.
  const gone = await tallied([["demands.hop", "committed 200 Mbit/s", "committed 20 Mbit/s"]], false);
  expect(gone).toMatch(/^- fixed \(was accepted\) demand SCHOOL/m);
}, 60_000);
