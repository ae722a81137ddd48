/**
 * Lets the tool run the mutants that were drawn first, as many as are wanted, and passes over all others. Those that are
 * static never come here: others stand in for them.
 */
import { readFileSync } from "node:fs";
import { relative } from "node:path";
import type { Checker, CheckResult } from "@stryker-mutator/api/check";
import type { Mutant as Made } from "@stryker-mutator/api/core";
import { declareClassPlugin, PluginKind } from "@stryker-mutator/api/plugin";
import { CHOSEN, type Chosen, HERE } from "./places.js";
import { keyOf, type Mutant } from "./sample.js";

class ChosenChecker implements Checker {
  private chosen: Chosen = { most: 0, inOrder: [] };

  async init(): Promise<void> {
    this.chosen = JSON.parse(readFileSync(CHOSEN, "utf8")) as Chosen;
  }

  async check(mutants: Made[]): Promise<Record<string, CheckResult>> {
    const { most, inOrder } = this.chosen;
    const made = new Map(mutants.map((mutant) => [keyOf(placed(mutant)), mutant.id]));
    const run = new Set(inOrder.flatMap((key) => made.get(key) ?? []).slice(0, most ?? undefined));
    return Object.fromEntries(mutants.map(({ id }) => [id, resultOf(run.has(id))]));
  }

  /** All at once: nothing is compiled here. */
  async group(mutants: Made[]): Promise<string[][]> {
    return [mutants.map(({ id }) => id)];
  }
}

function placed({ fileName, ...mutant }: Made): Mutant {
  return { ...mutant, file: relative(HERE, fileName).replaceAll("\\", "/") };
}

function resultOf(isRun: boolean): CheckResult {
  return isRun
    ? ({ status: "passed" } as CheckResult)
    : ({ status: "compileError", reason: "not drawn" } as CheckResult);
}

export const strykerPlugins = [declareClassPlugin(PluginKind.Checker, "chosen", ChosenChecker)];
