import { defineConfig } from "vitest/config";

const pictures = process.env.HOPWRIGHT_PICTURES === "1";

export default defineConfig({
  test: {
    include: [pictures ? "tests/workbench/*.pictures.ts" : "tests/workbench/*.suite.ts"],
    globalSetup: "tests/workbench/host/setup.ts",
    // One workbench at a time: two browsers on two cores only wait for each other.
    fileParallelism: false,
    testTimeout: 60_000,
    hookTimeout: 120_000,
  },
});
