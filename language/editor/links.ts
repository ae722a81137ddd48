/** Paths in a file that lead to something to read. Rasters are nothing that an editor can show. */

import { resolvePath } from "../model/path.js";
import type { SourceFile } from "../model/source-file.js";
import type { TextRange } from "./text-range.js";
import { walkFacts } from "./walk.js";

export interface Link extends TextRange {
  /** Absolute. */
  readonly path: string;
}

/** @returns every path that is named, whatever it leads to; the quotes are not part of a link */
export function pathsIn(file: SourceFile): readonly Link[] {
  const links: Link[] = [];
  walkFacts(file.facts, ({ args }) => {
    for (const { value, start, end } of args) {
      if (value?.type !== "path" || value.text === "") continue;
      const path = resolvePath(file.path, value.text);
      if (path !== undefined) links.push({ start: start + 1, end: end - 1, path });
    }
  });
  return links;
}

/** Whether an editor shows a file as text, by its name. */
export function isTextFile(path: string): boolean {
  return /\.(hop|csv|txt|asc|prj|md)$/i.test(path);
}
