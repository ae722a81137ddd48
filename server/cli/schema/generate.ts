/**
 * Makes the JSON Schemas of the machine output from its types: `node server/cli/schema/generate.ts`, with `--check`
 * only compares. Development only; the bundle holds the files made.
 */
import { execFileSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { isDeepStrictEqual } from "node:util";
import { createGenerator } from "ts-json-schema-generator";

const HERE = dirname(fileURLToPath(import.meta.url));

const OUTPUTS = [
  {
    file: "channels.schema.json",
    type: "ChannelsOutput",
    title: "Output of hopwright channels --format json",
  },
  { file: "check.schema.json", type: "CheckOutput", title: "Output of hopwright check --format json" },
  { file: "demands.schema.json", type: "DemandsOutput", title: "Output of hopwright demands --format json" },
  {
    file: "design.schema.json",
    type: "DesignDocument",
    title: "Resolved design in the output of hopwright check",
  },
  {
    file: "explain.schema.json",
    type: "ExplainOutput",
    title: "Output of hopwright explain --hop --format json",
  },
  { file: "history.schema.json", type: "HistoryOutput", title: "Output of hopwright history --format json" },
  {
    file: "lesson.schema.json",
    type: "LessonOutput",
    title: "Output of hopwright explain --arrangement --format json, or of a part of the catalogue",
  },
  { file: "list.schema.json", type: "ListOutput", title: "Output of hopwright list --format json" },
  {
    file: "open-channels.schema.json",
    type: "OpenChannelsOutput",
    title: "Output of hopwright channels --open --format json",
  },
  { file: "diff.schema.json", type: "DiffOutput", title: "Output of hopwright diff --format json" },
];

/** Each file's name with the schema that it must hold. */
export function schemas(): Map<string, object> {
  const root = join(HERE, "../../..");
  const generator = createGenerator({
    path: join(root, "server/cli/print/*-output.ts"),
    tsconfig: join(root, "tsconfig.json"),
    skipTypeCheck: true,
    expose: "export",
    topRef: false,
    additionalProperties: false,
  });
  return new Map(
    OUTPUTS.map(({ file, type, title }) => {
      const { $schema, ...schema } = generator.createSchema(type);
      return [file, { $schema, title, ...(withNulls(schema) as object) }];
    }),
  );
}

/** JSON has no undefined: what is left out of a list stands there as null. */
function withNulls(schema: unknown): unknown {
  if (Array.isArray(schema)) return schema.map(withNulls);
  if (typeof schema !== "object" || schema === null) return schema;
  const entries = Object.entries(schema);
  if (entries.length === 1 && isDeepStrictEqual(schema, { not: {} })) return { type: "null" };
  return Object.fromEntries(entries.map(([key, value]) => [key, withNulls(value)]));
}

function main(): void {
  const paths: string[] = [];
  for (const [file, schema] of schemas()) {
    const path = join(HERE, file);
    const text = JSON.stringify(schema, undefined, 2);
    if (!process.argv.includes("--check")) {
      writeFileSync(path, text);
      paths.push(path);
    } else if (JSON.stringify(JSON.parse(readFileSync(path, "utf8")), undefined, 2) !== text) {
      process.stderr.write(
        `server/cli/schema/${file} is not current: run node server/cli/schema/generate.ts\n`,
      );
      process.exitCode = 1;
    }
  }
  if (paths.length > 0)
    execFileSync("npm", ["exec", "--", "biome", "format", "--write", ...paths], { stdio: "ignore" });
}

if (process.argv[1] === fileURLToPath(import.meta.url)) main();
