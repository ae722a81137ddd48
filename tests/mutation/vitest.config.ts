import { join } from "node:path";
import { defineConfig } from "vitest/config";
import ShortestFirst from "./shortest-first.js";

/** Suites of the core: what runs the built program, an editor or whole samples would take minutes a mutant. */
const SUITES =
  "{as-built,compare,demands,design,equipment,evaluate,geodesy,interference,licence,p530,propagation,report,rules,spectrum,terrain}";

export default defineConfig({
  resolve: {
    // Pulled in by the reader of rasters; loaded in a thread it wants data that only it would have put there.
    alias: { "web-worker": join(import.meta.dirname, "no-worker.ts") },
  },
  test: {
    // One process for all files of a run: a new one for each would cost more than most of their tests.
    isolate: false,
    sequence: { sequencer: ShortestFirst },
    include: [`tests/${SUITES}/**/*.test.ts`],
    testTimeout: 300_000,
    hookTimeout: 300_000,
    server: { deps: { inline: ["geotiff", "web-worker"] } },
  },
});
