/**
 * What stands in a repository in the place of a file and never ends: git would read a device for ever, and wait for the
 * other side of a pipe. Nothing of git's own is either.
 */
import { type Dirent, readdirSync, realpathSync, type Stats, statSync } from "node:fs";
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
  // Git follows links to folders too; some tools share the objects of work trees so.
  const seen = new Set<string>();
  const below = (folder: string): string | undefined => {
    const real = realOf(folder);
    if (real === undefined || seen.has(real)) return undefined;
    seen.add(real);
    for (const entry of entriesOf(folder)) {
      if (left-- <= 0) return undefined;
      const path = join(folder, entry.name);
      if (entry.isFile() || PASSED_OVER.has(entry.name)) continue;
      const found = entry.isDirectory() ? undefined : statOf(path);
      if (neverEnds(found)) return path;
      const inside = entry.isDirectory() || found?.isDirectory() ? below(path) : undefined;
      if (inside !== undefined) return inside;
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

function realOf(folder: string): string | undefined {
  try {
    return realpathSync.native(folder);
  } catch {
    return undefined;
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
