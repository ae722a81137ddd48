/**
 * Tries the tests: each mutant is one small change to the core that some test should fail on. Prints the share that one
 * does, with the interval in which it lies for all mutants, and those that none finds.
 *
 *     npm run mutate                      100 mutants, drawn by a seed, of each folder
 *     npm run mutate -- rules             all of this folder
 *     npm run mutate -- --most 20         so many of each
 *     npm run mutate -- rules --most 20   so many of this folder
 *     npm run mutate -- --seed 2          others
 */
import { mkdirSync, writeFileSync } from "node:fs";
import { join, relative } from "node:path";
import { parseArgs } from "node:util";
import type { MutantResult } from "@stryker-mutator/api/core";
import { Stryker } from "@stryker-mutator/core";
import { EXCLUDED_MUTATIONS, FOLDERS, type Folder, isFolder, MUTATED } from "./folders.js";
import { filesOf, mutantsOf, slashed } from "./mutants.js";
import { CHOSEN, type Chosen, HERE, WORK } from "./places.js";
import { drawn, keyOf, type Mutant } from "./sample.js";
import { scoreOf } from "./score.js";

/** What a mutant came to where tests could be asked at all. */
const JUDGED: ReadonlySet<string> = new Set(["Killed", "Timeout", "Survived", "NoCoverage"]);

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: { most: { type: "string" }, seed: { type: "string", default: "1" } },
});
const wrong = positionals.find((name) => !isFolder(name));
if (wrong !== undefined) throw new Error(`${wrong}: choose from ${FOLDERS.join(", ")}`);
const folders = positionals.length > 0 ? positionals.filter(isFolder) : FOLDERS;
const whole = positionals.length > 0 && values.most === undefined;
const most = whole ? Number.POSITIVE_INFINITY : Number(values.most ?? 100);
if (!(most >= 1)) throw new Error(`--most ${values.most}: a count, for example 20`);

process.chdir(HERE);
mkdirSync(WORK, { recursive: true });
let [allKilled, allOf] = [0, 0];
for (const folder of folders) {
  const all = drawn(await mutantsOf(folder), Number(values.seed));
  const found = await tried(folder, all);
  if (found.size > 0 && !all.some((mutant) => found.has(keyOf(mutant))))
    throw new Error("no mutant that was drawn is among the results");
  const judged = all
    .map((mutant) => ({ mutant, status: found.get(keyOf(mutant))?.status }))
    .filter(({ status }) => status !== undefined && JUDGED.has(status))
    .slice(0, most);
  const killed = judged.filter(({ status }) => status === "Killed" || status === "Timeout").length;
  allKilled += killed;
  allOf += judged.length;
  console.log(`${folder}: ${scoreWords(killed, judged.length)}, drawn from ${all.length}`);
  for (const { mutant, status } of judged)
    if (status === "Survived" || status === "NoCoverage")
      console.log(
        `  ${status === "Survived" ? "not found" : "not run by any test"}: ${mutant.file}:${mutant.location.start.line + 1}:${mutant.location.start.column + 1} ${mutant.mutatorName}: ${mutant.replacement.replace(/\s+/g, " ").slice(0, 80)}`,
      );
}
console.log(`all: ${scoreWords(allKilled, allOf)}`);

/** Runs the mutants of a folder that are wanted. @returns results by what a mutant is known by */
async function tried(folder: Folder, all: readonly Mutant[]): Promise<ReadonlyMap<string, MutantResult>> {
  // Some of those drawn turn out to be static when tests run; others stand in for them.
  const inOrder = whole ? all : all.slice(0, Math.ceil(most * 1.6));
  const chosen: Chosen = { most: whole ? null : most, inOrder: inOrder.map(keyOf) };
  writeFileSync(CHOSEN, JSON.stringify(chosen));
  process.env[MUTATED] = folder;
  const results = await new Stryker({
    // Only these lines are made ready for mutants: with all of the core ready, a look at the tests takes many times as long.
    mutate: whole ? [...filesOf(folder)] : [...new Set(inOrder.map(linesOf))],
    mutator: { excludedMutations: EXCLUDED_MUTATIONS },
    plugins: ["@stryker-mutator/vitest-runner", join(WORK, "chosen-checker.mjs")],
    checkers: ["chosen"],
    testRunner: "vitest",
    vitest: { configFile: "tests/mutation/vitest.config.ts", related: false },
    coverageAnalysis: "perTest",
    ignoreStatic: true,
    concurrency: 2,
    disableTypeChecks: false,
    tempDirName: ".cache/mutation/copies",
    ignorePatterns: ["dist", "out", ".cache", "*.vsix"],
    reporters: ["progress-append-only"],
    clearTextReporter: { allowColor: false },
    allowEmpty: true,
    dryRunTimeoutMinutes: 30,
    timeoutMS: 30_000,
  }).runMutationTest();
  return new Map(results.map((one) => [keyOf(mutantOf(one)), one]));
}

/** Results count lines and columns from 1, everything before from 0. */
function mutantOf({
  fileName,
  location: { start, end },
  mutatorName,
  replacement = "",
}: MutantResult): Mutant {
  const before = ({ line, column }: Mutant["location"]["start"]) => ({ line: line - 1, column: column - 1 });
  const file = slashed(relative(HERE, fileName));
  return { file, location: { start: before(start), end: before(end) }, mutatorName, replacement };
}

function linesOf({ file, location: { start, end } }: Mutant): string {
  return `${file}:${start.line + 1}-${end.line + 1}`;
}

function scoreWords(killed: number, of: number): string {
  if (of === 0) return "no mutant judged";
  const { share, low, high } = scoreOf(killed, of);
  const percent = (value: number) => `${(100 * value).toFixed(0)} %`;
  return `${killed} of ${of} found, ${percent(share)} (95 %: ${percent(low)} to ${percent(high)})`;
}
