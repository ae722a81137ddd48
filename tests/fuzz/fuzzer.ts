/** What a fuzzer is, how a case of it is run, and how a case that fails is made small. */
import { Chance } from "./chance.js";

/** A case is a list of parts, any of which may be left out: so every case that fails can be made smaller. */
interface FuzzCase {
  readonly parts: number;
  /** What the case counts as: designs, edits or files. */
  readonly counts: number;
  /**
   * @param watch times what a case runs one after the other, where that is more than one command
   * @returns what is wrong, a line each
   */
  run(kept: readonly number[], watch: Watch): Promise<readonly string[]>;
  /** The case as a person would read it. */
  tell(kept: readonly number[]): string;
}

export interface Fuzzer {
  readonly name: string;
  readonly what: string;
  begin(chance: Chance): FuzzCase;
  /** Removes what it keeps on disk. */
  end?(): void;
}

/** No command takes more of the processor. */
const MOST_CPU_MS = 2_000;

/** The processor's time of each command of a case. */
export class Watch {
  private worst: { readonly name: string; readonly ms: number } | undefined;

  /** Of this process, milliseconds. */
  static now(): number {
    const { user, system } = process.cpuUsage();
    return (user + system) / 1000;
  }

  static async time<T>(run: () => T | Promise<T>): Promise<{ readonly value: T; readonly ms: number }> {
    const from = Watch.now();
    const value = await run();
    return { value, ms: Watch.now() - from };
  }

  command(name: string, ms: number): void {
    if (this.worst === undefined || ms > this.worst.ms) this.worst = { name, ms };
  }

  /** Of the longest command; of the whole case where it did not tell of any. */
  longest(wholeMs: number): { readonly name: string; readonly ms: number } {
    return this.worst ?? { name: "the case", ms: wholeMs };
  }
}

export interface CaseOutcome {
  readonly seed: number;
  readonly counts: number;
  readonly cpuMs: number;
  readonly wrong: readonly string[];
}

export interface Failure extends CaseOutcome {
  /** The smallest case found that fails in the same way. */
  readonly smallest: string;
}

export async function runCase(fuzzer: Fuzzer, seed: number): Promise<CaseOutcome> {
  const fuzzed = fuzzer.begin(new Chance(seed));
  const watch = new Watch();
  const { value: wrong, ms } = await Watch.time(() => faultsOf(fuzzed, all(fuzzed), watch));
  const { name, ms: cpuMs } = watch.longest(ms);
  const slow = cpuMs > MOST_CPU_MS ? [`hang: ${(cpuMs / 1000).toFixed(1)} s of processor in ${name}`] : [];
  return { seed, counts: fuzzed.counts, cpuMs, wrong: [...wrong, ...slow] };
}

/** Rounds of making a case smaller. */
const MOST_TRIES = 400;

export async function smallestCase(fuzzer: Fuzzer, failed: CaseOutcome): Promise<Failure> {
  const fuzzed = fuzzer.begin(new Chance(failed.seed));
  const kind = kindOf(failed.wrong[0]!);
  let kept: readonly number[] = all(fuzzed);
  let tries = 0;
  for (let size = Math.ceil(kept.length / 2); size >= 1 && tries < MOST_TRIES; ) {
    let smaller = false;
    for (let from = 0; from < kept.length && tries < MOST_TRIES; tries++) {
      const without = kept.toSpliced(from, size);
      if ((await faultsOf(fuzzed, without)).some((one) => kindOf(one) === kind)) {
        kept = without;
        smaller = true;
      } else from += size;
    }
    if (!smaller || size > 1) size = size === 1 ? 0 : Math.ceil(size / 2);
  }
  return { ...failed, smallest: fuzzed.tell(kept) };
}

/** Figures and quoted words differ from case to case. */
function kindOf(wrong: string): string {
  return wrong.replace(/[\d.]+|"[^"]*"/g, "#").slice(0, 60);
}

async function faultsOf(
  fuzzed: FuzzCase,
  kept: readonly number[],
  watch = new Watch(),
): Promise<readonly string[]> {
  try {
    return await fuzzed.run(kept, watch);
  } catch (error) {
    return [thrown("the case", error)];
  }
}

export function thrown(where: string, error: unknown): string {
  const stack = error instanceof Error ? (error.stack ?? error.message) : String(error);
  return `throw in ${where}: ${stack.split("\n").slice(0, 4).join(" | ")}`;
}

function all({ parts }: FuzzCase): number[] {
  return Array.from({ length: parts }, (_, index) => index);
}
