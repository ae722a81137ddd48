/**
 * The long run of the fuzzers, by `npm run fuzz`:
 *
 *     npm run fuzz -- --designs 100000 --edits 1000000 --terrain 100000 --seed 1
 *     npm run fuzz -- --replay designs:4711           one case again, made small
 *     npm run fuzz -- --canary 1                      a failure, to see one
 *
 * Prints how many there were, the most that one command took of the processor, and the failures, each with its seed and the
 * smallest case found. What is at work stands in .cache/fuzz/NAME-now: after a hang, that is the case.
 */
import { mkdirSync, writeFileSync } from "node:fs";
import { parseArgs } from "node:util";
import { type Failure, type Fuzzer, runCase, smallestCase } from "./fuzzer.js";
import { FUZZERS } from "./fuzzers.js";

const NOW = (name: string) => `.cache/fuzz/${name}-now`;
/** Failures that are made small; what comes after is only counted. */
const MOST_FAILURES = 12;

const { values } = parseArgs({
  options: {
    ...Object.fromEntries([...FUZZERS.keys()].map((name) => [name, { type: "string" as const }])),
    seed: { type: "string", default: "1" },
    replay: { type: "string" },
    minutes: { type: "string" },
  },
});
const asked = values as Record<string, string | undefined>;
mkdirSync(".cache/fuzz", { recursive: true });

async function runMany(fuzzer: Fuzzer, wanted: number, seed: number, minutes: number): Promise<number> {
  const failures: Failure[] = [];
  const end = performance.now() + minutes * 60_000;
  let [counted, cases, failed, worst, worstSeed, told] = [0, 0, 0, 0, 0, 0];
  for (; counted < wanted && performance.now() < end; cases++) {
    const one = seed * 10_000_000 + cases;
    writeFileSync(NOW(fuzzer.name), `${fuzzer.name}:${one}\n`);
    const outcome = await runCase(fuzzer, one);
    counted += outcome.counts;
    if (outcome.cpuMs > worst) [worst, worstSeed] = [outcome.cpuMs, one];
    if (outcome.wrong.length > 0 && failed++ < MOST_FAILURES)
      failures.push(await smallestCase(fuzzer, outcome));
    if (process.stderr.isTTY && performance.now() - told > 500) {
      told = performance.now();
      process.stderr.write(`\r\x1b[2K${counted} of ${wanted} ${fuzzer.name}, ${failed} failures`);
    }
  }
  if (process.stderr.isTTY) process.stderr.write("\r\x1b[2K");
  fuzzer.end?.();
  for (const failure of failures) print(fuzzer, failure);
  const most = `at most ${(worst / 1000).toFixed(2)} s of processor (--replay ${fuzzer.name}:${worstSeed})`;
  console.log(`${counted} ${fuzzer.name} in ${cases} cases from seed ${seed}: ${failed} failures, ${most}`);
  return failed;
}

function print({ name }: Fuzzer, { seed, wrong, smallest }: Failure): void {
  console.log(`\n${name} ${seed} fails; --replay ${name}:${seed}`);
  for (const one of wrong.slice(0, 5)) console.log(`  ${one}`);
  console.log(smallest.replace(/^/gm, "    "));
}

async function replay(name: string, seed: number): Promise<number> {
  const fuzzer = FUZZERS.get(name);
  if (!fuzzer) throw new Error(`${name}: no such fuzzer; there are ${[...FUZZERS.keys()].join(", ")}`);
  const outcome = await runCase(fuzzer, seed);
  console.log(
    `${name} ${seed}: ${outcome.wrong.length} faults, ${(outcome.cpuMs / 1000).toFixed(2)} s of processor`,
  );
  if (outcome.wrong.length > 0) print(fuzzer, await smallestCase(fuzzer, outcome));
  fuzzer.end?.();
  return outcome.wrong.length;
}

let failures = 0;
if (asked.replay !== undefined) {
  const [name = "", seed = ""] = asked.replay.split(":");
  failures = await replay(name, Number(seed));
} else {
  for (const [name, fuzzer] of FUZZERS)
    if (asked[name] !== undefined)
      failures += await runMany(
        fuzzer,
        Number(asked[name]),
        Number(asked.seed),
        Number(asked.minutes ?? Infinity),
      );
}
process.exitCode = failures > 0 ? 1 : 0;
