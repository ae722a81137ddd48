/**
 * Twice as much takes about twice as long; what grows with the square of its input would take four times. The clock is
 * the processor's, and the least of some runs counts.
 */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { FORMATS } from "../../server/cli/formats.js";
import { plain } from "../../server/cli/streams.js";
import { hopHistory } from "../../server/compare/hop-history.js";
import { slashed } from "../../server/files/slashed.js";
import { type JudgedFolder, judgeFolder } from "../../server/findings/judged-folder.js";
import type { PlacedFinding } from "../../server/findings/placed.js";
import { repositoryOf, revisionOf } from "../../server/git/repository.js";
import { Designs } from "../../server/lsp/designs.js";
import { Evaluation } from "../../server/lsp/evaluation.js";
import { TestRepository, TODAY } from "../compare/repository.js";
import { Watch } from "../fuzz/fuzzer.js";
import { networkText } from "./network/network.js";

const LONG = 900_000;
/** Half-way between twice, which is linear, and four times, which is the square. */
const MOST_TIMES = 3;
const RUNS = 2;
/** A hundred thousand findings in any format, of the processor; some 3 s on the machine that figures are from. */
const MOST_PRINT_MS = 30_000;

const base = slashed(mkdtempSync(join(tmpdir(), "hopwright-growth-")));
const repositories: TestRepository[] = [];
afterAll(() => {
  rmSync(base, { recursive: true, force: true });
  for (const repository of repositories) repository.remove();
});

type Prepared = () => Promise<unknown> | unknown;

/** @param prepare what is run and timed for a size; once for warming up */
async function expectLinear(n: number, prepare: (n: number) => Promise<Prepared> | Prepared): Promise<void> {
  const [one, two] = [await prepare(n), await prepare(2 * n)];
  await one();
  const [once, twice] = [await least(one), await least(two)];
  expect(twice, `${once.toFixed(0)} ms, and ${twice.toFixed(0)} ms for twice as much`).toBeLessThan(
    MOST_TIMES * once,
  );
}

async function least(run: Prepared): Promise<number> {
  const times: number[] = [];
  for (let i = 0; i < RUNS; i++) times.push((await Watch.time(run)).ms);
  return Math.min(...times);
}

function put(name: string, files: Iterable<readonly [string, string]>): string {
  const folder = `${base}/${name}`;
  for (const [path, text] of files) {
    mkdirSync(dirname(`${folder}/${path}`), { recursive: true });
    writeFileSync(`${folder}/${path}`, text);
  }
  return folder;
}

test(
  "hops of a design",
  () =>
    expectLinear(600, (n) => {
      const folder = put(`hops-${n}`, networkText(n, "terrain"));
      return () => judgeFolder(folder, { today: TODAY });
    }),
  LONG,
);

test(
  "hops with a survey each",
  () =>
    expectLinear(150, (n) => {
      const survey = `distance_m,height_m\n${Array.from({ length: 200 }, (_, i) => `${i * 20},${100 + (i % 9)}`).join("\n")}\n`;
      const files = Array.from({ length: n }, (_, i): (readonly [string, string])[] => [
        [`s${i}.csv`, survey],
        [
          `h${i}.hop`,
          `site A${i} {\n  at 47 ${(i / 1000).toFixed(3)}\n}\nsite B${i} {\n  at 47.0358 ${(i / 1000).toFixed(3)}\n}\nhop H${i} {\n  survey "s${i}.csv" from A${i} by field\n  A${i} {\n  }\n  B${i} {\n  }\n}\n`,
        ],
      ]).flat();
      const folder = put(`surveys-${n}`, [["network.hop", 'network "N" {\n}\n'], ...files]);
      return () => judgeFolder(folder, { today: TODAY });
    }),
  LONG,
);

test(
  "edits of a file in the server",
  async () => {
    const files = networkText(600, "terrain");
    const folder = put("edits", files);
    const path = [...files.keys()].find((name) => name.startsWith("hops/"))!;
    const text = files.get(path)!;
    await expectLinear(30, (n) => async () => {
      const designs = new Designs([folder], { today: TODAY });
      const evaluation = new Evaluation(designs, {
        publish: () => undefined,
        changed: () => undefined,
        status: () => undefined,
        failed: (error) => {
          throw error;
        },
      });
      designs.load();
      for (let i = 0; i < n; i++) {
        designs.edit(`${folder}/${path}`, text.replace(/( at )(\d+)( m)/, `$1${20 + (i % 30)}$3`));
        evaluation.touch();
        await evaluation.settled();
      }
    });
  },
  LONG,
);

test(
  "hops that differ between two commits",
  () =>
    expectLinear(600, async (n) => {
      const repository = TestRepository.create();
      repositories.push(repository);
      const files = networkText(n, "terrain");
      repository.write(Object.fromEntries(files));
      repository.commit("base");
      for (const [path, text] of files)
        if (path.startsWith("hops/"))
          repository.write({
            [path]: text.replaceAll(
              /(antenna \S+ at )(\d+)/g,
              (_all, before, m) => `${before}${Number(m) + 3}`,
            ),
          });
      repository.commit("second");
      return () => repository.compare("HEAD~1", "HEAD");
    }),
  LONG,
);

test(
  "commits of a history",
  () =>
    expectLinear(12, async (n) => {
      const repository = TestRepository.create();
      repositories.push(repository);
      repository.write(Object.fromEntries(networkText(600, "terrain")));
      const path = "hops/area-000.hop";
      const found = [...networkText(600, "terrain").keys()].find((name) => name.startsWith("hops/")) ?? path;
      const hop = /^hop (\S+)/m.exec(repository.read(found))![1]!;
      for (let i = 0; i < n; i++) {
        repository.write({ [found]: repository.read(found).replace(/( at )(\d+)( m)/, `$1${20 + i}$3`) });
        repository.commit(`step ${i}`);
      }
      return async () => {
        const at = await repositoryOf(repository.root);
        const from = await revisionOf(at, "HEAD");
        const entries = await hopHistory(at, repository.root, hop, from, { today: TODAY, limit: 1000 });
        expect(entries.length).toBeGreaterThan(n - 2);
      };
    }),
  LONG,
);

const CHECKED = {
  paint: plain,
  cwd: "/elsewhere",
  columns: 80,
  show: "info",
  counts: ({ severity }: PlacedFinding) => severity === "error",
} as const;

/** No two of them alike, or they were told once and counted. */
function withFindings(name: string, n: number): Promise<JudgedFolder> {
  const lines = Array.from(
    { length: n / 2 },
    (_, i) => `site S${i} { mast${i} 20 m }\nhop H${i} { radi${i} X }\n`,
  );
  const folder = put(`${name}-${n}`, [["a.hop", `network "N" {\n}\n${lines.join("")}`]]);
  return judgeFolder(folder, { today: TODAY });
}

test("findings, read and judged", () => expectLinear(4_000, (n) => () => withFindings("judged", n)), LONG);

test(
  "findings in every format, a hundred thousand of them",
  async () => {
    const judged = new Map<number, JudgedFolder>();
    for (const n of [10_000, 20_000, 100_000]) judged.set(n, await withFindings("printed", n));
    expect(judged.get(100_000)!.designs[0]!.findings.length).toBeGreaterThanOrEqual(100_000);
    for (const { name, print: printed } of FORMATS.check) {
      const print = (n: number) => async () => {
        let bytes = 0;
        for (const piece of await printed({ judged: judged.get(n)!, ...CHECKED })) bytes += piece.length;
        expect(bytes, name).toBeGreaterThan(50 * n);
      };
      await expectLinear(10_000, print);
      expect((await Watch.time(print(100_000))).ms, name).toBeLessThan(MOST_PRINT_MS);
    }
  },
  LONG,
);
