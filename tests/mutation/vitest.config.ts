import { join } from "node:path";
import { defineConfig } from "vitest/config";
import { MUTATED, suitesOf } from "./folders.js";
import ShortestFirst from "./shortest-first.js";

export default defineConfig({
  resolve: {
    // Pulled in by the reader of rasters; loaded in a thread it wants data that only it would have put there.
    alias: { "web-worker": join(import.meta.dirname, "no-worker.ts") },
  },
  test: {
    // One process for all files of a run: a new one for each would cost more than most of their tests.
    isolate: false,
    sequence: { sequencer: ShortestFirst },
    include: suitesOf(process.env[MUTATED]).map((suite) => `tests/${suite}/**/*.test.ts`),
    exclude: [
      // Of large networks, and of repositories and pages whole: they find little that others do not, slowly.
      "**/large.test.ts",
      "**/git.test.ts",
      "tests/report/pdf/**",
      // Reads the text of the core, which is not what was written while mutants are in it.
      "**/equations.test.ts",
    ],
    testTimeout: 300_000,
    hookTimeout: 300_000,
    server: { deps: { inline: ["geotiff", "web-worker"] } },
  },
});
