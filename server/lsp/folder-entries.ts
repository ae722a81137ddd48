/** What lies in a folder, for whoever writes a path. */
import { readdirSync } from "node:fs";
import type { FolderEntry } from "../../language/editor/complete-paths.js";

/** @returns undefined where it cannot be listed; links are left out, since nothing is read by them unasked */
export function folderEntries(folder: string): readonly FolderEntry[] | undefined {
  try {
    return readdirSync(folder, { withFileTypes: true })
      .filter((entry) => entry.isFile() || entry.isDirectory())
      .map((entry) => ({ name: entry.name, isFolder: entry.isDirectory() }))
      .sort((a, b) => (a.name < b.name ? -1 : 1));
  } catch {
    return undefined;
  }
}
