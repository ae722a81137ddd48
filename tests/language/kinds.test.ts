/** A kind is a row: what every kind has to say of itself is asked of each row; and what a new one of anything needs is named. */
import { existsSync, globSync } from "node:fs";
import { join, relative } from "node:path";
import ts from "typescript";
import { describe, expect, test } from "vitest";
import { PROPERTIES } from "../../language/schema/index.js";
import { INHERITING_KINDS, NAMED_KINDS } from "../../language/schema/kinds.js";
import { NEEDS, type Need, type Thing } from "../../server/docs/needs.js";
import { needsPage } from "../../server/docs/needs-page.js";
import { RULES } from "../../shared/rules/index.js";
import type { Rule } from "../../shared/rules/rule.js";

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

/** Each file that does not compile once a thing is added, by what the page names. */
const ADDED: readonly { readonly things: readonly Thing[]; readonly edits: readonly Edit[] }[] = [
  {
    things: ["kind"],
    edits: [["language/schema/kinds.ts", "const KINDS = {", "const KINDS = {\n  tower: { inherits: true },"]],
  },
  {
    things: ["property", "method", "format"],
    edits: [
      // A row with a place that is not there, and a field that a mode cannot be without.
      ["language/schema/table/radio.ts", 'into: "radio.mtbfHours"', 'into: "radio.gustLimitMPerS"'],
      [
        "shared/design/catalogue.ts",
        "  readonly modulation: string;",
        "  readonly modulation: string;\n  readonly coding: string;",
      ],
      // A method that does not say what it is checked by, and one more identifier.
      ["shared/propagation/p838.ts", "  checked: {", "  unchecked: {"],
      ["shared/evaluate/account/methods.ts", '  | "geodesic"', '  | "geodesic"\n  | "invented"'],
      // Formats of a command that had none.
      [
        "server/cli/formats.ts",
        "export const FORMATS = {",
        "export const FORMATS = {\n  schema: [explainJson],",
      ],
    ],
  },
];

test.each(ADDED)(
  "what does not compile once there is one more is what the page names: $things",
  {
    timeout: MINUTES,
  },
  ({ things, edits }) => {
    const named = things.flatMap((thing) =>
      (NEEDS[thing] as readonly Need[]).filter(({ asked }) => asked === "types").map(({ file }) => file),
    );
    const faults = filesThatLack(edits);
    // A folder stands for the file in it that is new.
    const asNamed = faults.map(
      (file) => named.find((one) => one.endsWith("/") && file.startsWith(one)) ?? file,
    );
    expect(asNamed.sort()).toEqual(named.sort());
  },
);

test("the page names files and tests that are there", () => {
  for (const { file, asked } of Object.values(NEEDS).flat() as readonly Need[]) {
    expect(existsSync(join(ROOT, file)), file).toBe(true);
    if (asked.startsWith("tests/")) expect(existsSync(join(ROOT, asked)), asked).toBe(true);
  }
  for (const thing of Object.keys(NEEDS)) expect(needsPage()).toContain(`## A new ${thing}`);
});

test("each file that holds a rule is registered", async () => {
  const ids = new Set(RULES.keys());
  const files = globSync("**/*.ts", { cwd: join(ROOT, "shared/rules") });
  const found: string[] = [];
  for (const file of files) {
    const exported: Record<string, unknown> = await import(join(ROOT, "shared/rules", file));
    for (const value of Object.values(exported))
      if (isRule(value)) {
        expect(ids, file).toContain(value.id);
        found.push(value.id);
      }
  }
  expect(new Set(found)).toEqual(ids);
});

function isRule(value: unknown): value is Rule {
  return typeof value === "object" && value !== null && "scope" in value && "checks" in value;
}

type Edit = readonly [file: string, from: string, to: string];

/** The files that do not compile once others are changed. */
function filesThatLack(edits: readonly Edit[]): string[] {
  const config = ts.getParsedCommandLineOfConfigFile(
    join(ROOT, "server/tsconfig.json"),
    {},
    { ...ts.sys, onUnRecoverableConfigFileDiagnostic: () => {} },
  )!;
  const options = { ...config.options, noEmit: true, incremental: false, tsBuildInfoFile: undefined };
  const host = ts.createCompilerHost(options);
  const read = host.readFile;
  host.readFile = (path) => {
    const edit = edits.find(([file]) => path.endsWith(`/${file}`));
    const text = read(path);
    if (!edit) return text;
    expect(text, edit[0]).toContain(edit[1]);
    return text!.replace(edit[1], edit[2]);
  };
  const diagnostics = ts.createProgram(config.fileNames, options, host).getSemanticDiagnostics();
  return [...new Set(diagnostics.flatMap(({ file }) => (file ? relative(ROOT, file.fileName) : [])))].sort();
}
