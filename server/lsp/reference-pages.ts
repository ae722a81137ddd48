/** Pages of the reference that is shipped beside the server. */
import { existsSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const pages = new Map<string, string | undefined>();

/** URI of the page of a rule, or undefined where the pages are not installed. */
export function rulePage(rule: string): string | undefined {
  return pageNamed(`rules/${rule}.md`);
}

/** Where the reference lists a built-in channel plan: URI of the page, and the line of its heading. */
export function planPlace(id: string): { readonly uri: string; readonly line: number } | undefined {
  const uri = pageNamed("channel-plans.md");
  if (uri === undefined) return undefined;
  const lines = readFileSync(fileURLToPath(uri), "utf8").split("\n");
  const line = lines.findIndex((text) => text.trim() === `## ${id}`);
  return line < 0 ? undefined : { uri, line };
}

function pageNamed(name: string): string | undefined {
  if (!pages.has(name)) pages.set(name, findPage(name));
  return pages.get(name);
}

function findPage(name: string): string | undefined {
  const here = dirname(fileURLToPath(import.meta.url));
  // From the bundle in dist/, and from the source in server/lsp/.
  const candidates = ["..", "../.."].map((up) => join(here, up, "language/reference", name));
  const path = candidates.find((candidate) => existsSync(candidate));
  return path && pathToFileURL(path).href;
}
