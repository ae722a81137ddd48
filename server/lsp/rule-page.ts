/** The page of a rule among the reference pages that are shipped beside the server. */
import { existsSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const pages = new Map<string, string | undefined>();

/** URI of the page, or undefined where the pages are not installed. */
export function rulePage(rule: string): string | undefined {
  if (!pages.has(rule)) pages.set(rule, findPage(rule));
  return pages.get(rule);
}

function findPage(rule: string): string | undefined {
  const here = dirname(fileURLToPath(import.meta.url));
  // From the bundle in dist/, and from the source in server/lsp/.
  const candidates = ["..", "../.."].map((up) => join(here, up, "language/reference/rules", `${rule}.md`));
  const path = candidates.find((candidate) => existsSync(candidate));
  return path && pathToFileURL(path).href;
}
