/**
 * What nobody imports is not exported, and what the product runs is not there for tests alone. An exclamation mark: the
 * product. Tests may look into a file whose export the file itself uses.
 */
import type { KnipConfig } from "knip";

const config = ({ production = false }: { production?: boolean }): KnipConfig => ({
  entry: [
    "server/docs/main.ts!",
    "server/cli/schema/generate.ts!",
    // Read by the generator of the schemas.
    "server/cli/print/*-output.ts!",
    "extension/package/notices.ts!",
    "tests/bench/*.ts",
    "tests/fuzz/run.ts",
    "tests/mutation/{run,chosen-checker,no-worker,vitest.config}.ts",
    "tests/workbench/*.{suite,pictures,config}.ts",
    "tests/workbench/host/setup.ts",
    "samples/**/*.{ts,mjs}",
  ],
  project: ["{shared,language,server,extension}/**/*.ts!", "{tests,samples}/**/*.{ts,mjs}"],
  // Methods of a standard that no figure uses; `tests/language/methods-page.test.ts` holds what the page says of them.
  tags: production ? ["-nofigure"] : [],
  include: ["files", "exports", "types"],
  ignoreExportsUsedInFile: production,
});

export default config;
