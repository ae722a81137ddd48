/** Lets the tool run the mutants that were drawn, and passes over all others. */
import { readFileSync } from "node:fs";
import { relative } from "node:path";
import type { Checker, CheckResult } from "@stryker-mutator/api/check";
import type { Mutant as Made } from "@stryker-mutator/api/core";
import { declareClassPlugin, PluginKind } from "@stryker-mutator/api/plugin";
import { CHOSEN, HERE } from "./places.js";
import { keyOf } from "./sample.js";

class ChosenChecker implements Checker {
  private chosen: ReadonlySet<string> = new Set();

  async init(): Promise<void> {
    this.chosen = new Set(JSON.parse(readFileSync(CHOSEN, "utf8")) as string[]);
  }

  async check(mutants: Made[]): Promise<Record<string, CheckResult>> {
    return Object.fromEntries(mutants.map((mutant) => [mutant.id, this.resultOf(mutant)]));
  }

  /** All at once: nothing is compiled here. */
  async group(mutants: Made[]): Promise<string[][]> {
    return [mutants.map(({ id }) => id)];
  }

  private resultOf({ fileName, ...mutant }: Made): CheckResult {
    const file = relative(HERE, fileName).replaceAll("\\", "/");
    return this.chosen.has(keyOf({ ...mutant, file }))
      ? ({ status: "passed" } as CheckResult)
      : ({ status: "compileError", reason: "not drawn" } as CheckResult);
  }
}

export const strykerPlugins = [declareClassPlugin(PluginKind.Checker, "chosen", ChosenChecker)];
