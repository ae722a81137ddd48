/** All mutants of a folder of the core, as the tool will make them. */
import { globSync, readFileSync } from "node:fs";
import { Instrumenter } from "@stryker-mutator/instrumenter";
import { EXCLUDED_MUTATIONS, type Folder } from "./folders.js";
import type { Mutant } from "./sample.js";

const quiet = new Proxy({}, { get: (_, name) => (String(name).startsWith("is") ? () => false : () => {}) });

/** @returns without those of words; which of them are static is known only when tests run */
export async function mutantsOf(folder: Folder): Promise<readonly Mutant[]> {
  const names = filesOf(folder);
  const files = names.map((name) => ({ name, mutate: true, content: readFileSync(name, "utf8") }));
  const instrumenter = new Instrumenter(quiet as ConstructorParameters<typeof Instrumenter>[0]);
  const { mutants } = await instrumenter.instrument(files, {
    plugins: null,
    excludedMutations: EXCLUDED_MUTATIONS,
    ignorers: [],
  });
  return mutants
    .filter(({ status }) => status === undefined)
    .map(({ fileName, location, mutatorName, replacement }) => ({
      file: slashed(fileName),
      location,
      mutatorName,
      replacement,
    }));
}

/** Data of standards are figures, not conditions: their check values hold them. */
export function filesOf(folder: Folder): readonly string[] {
  return globSync(`shared/${folder}/**/*.ts`)
    .map(slashed)
    .filter((name) => !name.endsWith(".data.ts"))
    .sort();
}

export function slashed(path: string): string {
  return path.replaceAll("\\", "/");
}
