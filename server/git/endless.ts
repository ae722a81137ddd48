/**
 * What stands in a repository in the place of a file and never ends: git would read a device for ever, and wait for the
 * other side of a pipe. Nothing of git's own is either.
 */
import { type Dirent, readdirSync, type Stats, statSync } from "node:fs";
import { join } from "node:path";
import { placesOfGit } from "./work-tree.js";

/** As many as a repository of 1,000,000 loose objects has; in one of more, git's silence is what ends it. */
const MOST_ENTRIES = 1_000_000;

/** Of others: what lies there git is not asked for. */
const PASSED_OVER: ReadonlySet<string> = new Set(["modules", "worktrees", "hooks", "lfs", "annex"]);

/** @returns the first device or pipe among what git reads; undefined: there is none */
export function endlessIn(root: string): string | undefined {
  if (process.platform === "win32") return undefined;
  let left = MOST_ENTRIES;
  const below = (folder: string): string | undefined => {
    for (const entry of entriesOf(folder)) {
      if (left-- <= 0) return undefined;
      const path = join(folder, entry.name);
      if (entry.isDirectory()) {
        const found = PASSED_OVER.has(entry.name) ? undefined : below(path);
        if (found !== undefined) return found;
      } else if (!entry.isFile() && neverEnds(statOf(path))) return path;
    }
    return undefined;
  };
  for (const place of placesOfGit(root)) {
    const found = neverEnds(statOf(place)) ? place : below(place);
    if (found !== undefined) return found;
  }
  return undefined;
}

function entriesOf(folder: string): Dirent[] {
  try {
    return readdirSync(folder, { withFileTypes: true });
  } catch {
    return [];
  }
}

function statOf(path: string): Stats | undefined {
  try {
    return statSync(path);
  } catch {
    return undefined;
  }
}

/** A socket cannot be opened as a file at all, and git's own watcher leaves one; what is empty ends at once. */
function neverEnds(found: Stats | undefined): boolean {
  if (found === undefined || found.isFile() || found.isDirectory()) return false;
  if (found.isCharacterDevice()) return found.rdev !== statOf("/dev/null")?.rdev;
  return found.isFIFO() || found.isBlockDevice();
}
