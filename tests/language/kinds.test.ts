/** A kind is a row: what every kind has to say of itself is asked of each row, and of one that is invented. */
import { readFileSync } from "node:fs";
import { join, relative } from "node:path";
import ts from "typescript";
import { describe, expect, test } from "vitest";
import { PROPERTIES } from "../../language/schema/index.js";
import { INHERITING_KINDS, NAMED_KINDS } from "../../language/schema/kinds.js";

const ROOT = join(import.meta.dirname, "../..");
const MINUTES = 5 * 60_000;

describe.each(NAMED_KINDS)("%s", (kind) => {
  const row = PROPERTIES.find(
    ({ name, in: contexts }) => name === kind && (contexts.includes("file") || contexts.includes("network")),
  );

  test("is declared with a name, opens a block of its own, and says what it is", () => {
    expect(row?.args[0]).toMatchObject({ name: "name", value: { type: "name" } });
    expect(row?.block).toBe(kind);
    expect(row?.meaning.length).toBeGreaterThan(0);
  });

  test("inherits by like where its row says so, and else not", () => {
    expect(row?.args.some(({ label }) => label === "like")).toBe(INHERITING_KINDS.has(kind));
  });
});

test("a new row does not compile before each of the tables named in DEVELOPERS.md knows it", {
  timeout: MINUTES,
}, () => {
  const faults = filesThatLack("tower");
  expect(faults).toEqual([
    "language/editor/semantic-tokens.ts",
    "language/editor/summary.ts",
    "server/lsp/features.ts",
  ]);
  const developers = readFileSync(join(ROOT, "DEVELOPERS.md"), "utf8");
  for (const file of faults) expect(developers).toContain(`\`${file}\``);
});

/** The files that do not compile once there is a row more. */
function filesThatLack(kind: string): string[] {
  const config = ts.getParsedCommandLineOfConfigFile(
    join(ROOT, "server/tsconfig.json"),
    {},
    { ...ts.sys, onUnRecoverableConfigFileDiagnostic: () => {} },
  )!;
  const options = { ...config.options, noEmit: true, incremental: false, tsBuildInfoFile: undefined };
  const host = ts.createCompilerHost(options);
  const read = host.readFile;
  host.readFile = (path) =>
    path.endsWith("language/schema/kinds.ts")
      ? read(path)!.replace("const KINDS = {", `const KINDS = {\n  ${kind}: { inherits: true },`)
      : read(path);
  const diagnostics = ts.createProgram(config.fileNames, options, host).getSemanticDiagnostics();
  return [...new Set(diagnostics.flatMap(({ file }) => (file ? relative(ROOT, file.fileName) : [])))].sort();
}
