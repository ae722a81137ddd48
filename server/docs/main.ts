/**
 * Writes everything that is made from the property table and the rules: reference pages, TextMate grammar,
 * snippets. With `--check` it writes nothing and fails where a file is not current.
 */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { writeWhole } from "../files/write-whole.js";
import { generatedFiles } from "./files.js";

const check = process.argv.includes("--check");
const stale: string[] = [];
for (const [path, content] of generatedFiles()) {
  const at = join(process.cwd(), path);
  if (contentOf(at) === content) continue;
  stale.push(path);
  if (check) continue;
  writeWhole(at, content);
}
for (const path of stale) console.log(check ? `not current: ${path}` : `written: ${path}`);
if (check && stale.length > 0) {
  console.error("run `npm run docs` and commit what it writes");
  process.exitCode = 1;
}

function contentOf(path: string): string | undefined {
  try {
    return readFileSync(path, "utf8");
  } catch {
    return undefined;
  }
}
