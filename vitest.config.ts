import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts"],
    // The workbench suite needs a browser and a served editor; `tests/workbench/run.ts` runs it by itself.
    exclude: ["tests/workbench/**", "node_modules/**"],
    // A test is for what comes out, never for how long it takes: on a busy machine that is minutes.
    testTimeout: 300_000,
    hookTimeout: 300_000,
    maxWorkers: 2,
  },
});
