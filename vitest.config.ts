import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts"],
    // The workbench suite needs a browser and a served editor; `tests/workbench/run.ts` runs it by itself.
    exclude: ["tests/workbench/**", "node_modules/**"],
    testTimeout: 30_000,
    maxWorkers: 2,
  },
});
