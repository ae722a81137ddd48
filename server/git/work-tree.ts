/** The work tree of git around a folder, and whether looking at its repository stays on this machine. */
import { lstatSync, readFileSync, readlinkSync, realpathSync, type Stats, statSync } from "node:fs";
import { homedir } from "node:os";
import { dirname, join, resolve } from "node:path";
import { shareOf } from "../../language/model/path.js";
import { CommandError } from "../command-error.js";

/**
 * Top folder of the work tree, by the way that the folder was named: with links in it, git's own answer would be a path
 * that the design does not have. Only a `.git` makes a work tree; a bare repository among the files is data.
 */
export function workTreeAround(folder: string): string | undefined {
  // One that is not saved yet lies nowhere.
  if (!stat(folder)) return undefined;
  let [named, real] = [resolve(folder), realpathSync.native(folder)];
  while (!hasRepository(real)) {
    if (dirname(real) === real) return undefined;
    [named, real] = [dirname(named), dirname(real)];
  }
  // A link into the middle of a repository: above it lies something else.
  return (samePlace(named, real) ? named : real).replaceAll("\\", "/");
}

function hasRepository(folder: string): boolean {
  const at = join(folder, ".git");
  const link = lstatSync(at, { throwIfNoEntry: false })?.isSymbolicLink() === true;
  if (link && shareOf(readlinkSync(at)) !== undefined) return false;
  return stat(at)?.isFile() === true || stat(join(at, "HEAD"))?.isFile() === true;
}

/** Whether two paths lead to one folder. */
export function samePlace(a: string, b: string): boolean {
  try {
    return realpathSync.native(a) === realpathSync.native(b);
  } catch {
    return false;
  }
}

function stat(path: string): Stats | undefined {
  return statSync(path, { throwIfNoEntry: false });
}

/** Larger than any file that steers a repository. */
const MOST_BYTES = 2 ** 20;
/** The text of a file; empty where there is none. */
type Read = (path: string) => string;

/**
 * What a repository has git look up on a share of the network that it does not lie on: its objects, its configuration,
 * its work tree. Windows logs in to any share that it is asked about.
 * @returns the first such path; undefined: none
 */
export function shareLedTo(root: string, read: Read = readSmall): string | undefined {
  for (const path of placesLedTo(root, read)) {
    const share = shareOf(path);
    if (share !== undefined && share !== shareOf(root)) return path;
  }
  return undefined;
}

function* placesLedTo(root: string, read: Read): Iterable<string> {
  const gitDir = pointedTo(join(root, ".git"), /^gitdir: (.*)/, read) ?? join(root, ".git");
  yield gitDir;
  const common = pointedTo(join(gitDir, "commondir"), /^(.*)/, read) ?? gitDir;
  yield common;
  yield* placesOfObjects(join(common, "objects"), read, new Set());
  const seen = new Set<string>();
  for (const file of [join(common, "config"), join(gitDir, "config.worktree")])
    for (const { at } of namedInConfiguration(file, read, seen)) yield at;
}

/** Folders and files that git reads of its own accord: the repository, what it borrows from, what it includes. */
export function* placesOfGit(root: string, read: Read = readSmall): Iterable<string> {
  const gitDir = pointedTo(join(root, ".git"), /^gitdir: (.*)/, read) ?? join(root, ".git");
  yield gitDir;
  const common = pointedTo(join(gitDir, "commondir"), /^(.*)/, read) ?? gitDir;
  if (common !== gitDir) yield common;
  for (const objects of placesOfObjects(join(common, "objects"), read, new Set())) yield objects;
  const seen = new Set<string>();
  for (const file of [join(common, "config"), join(gitDir, "config.worktree")])
    for (const { name, at } of namedInConfiguration(file, read, seen)) if (name === "path") yield at;
}

// Each path is handed out before anything below it is read: whoever asks stops at a share.

function pointedTo(file: string, shape: RegExp, read: Read): string | undefined {
  const path = shape.exec(read(file))?.[1]?.trim();
  return path === undefined || path === "" ? undefined : from(dirname(file), path);
}

function* placesOfObjects(objects: string, read: Read, seen: Set<string>): Iterable<string> {
  if (seen.has(objects)) return;
  seen.add(objects);
  for (const line of read(join(objects, "info", "alternates")).split("\n")) {
    const path = line.trim().replace(/^"(.*)"$/, "$1");
    if (path === "" || path.startsWith("#")) continue;
    const at = from(objects, path);
    yield at;
    yield* placesOfObjects(at, read, seen);
  }
}

/** Addresses of remotes may be shares, for nothing is fetched. Every other value is taken for a path. */
const ADDRESS = /^(url|pushurl|insteadof|pushinsteadof)$/i;

function* namedInConfiguration(
  file: string,
  read: Read,
  seen: Set<string>,
): Iterable<{ readonly name: string; readonly at: string }> {
  if (seen.has(file)) return;
  seen.add(file);
  for (const line of read(file)
    .replace(/\\\r?\n/g, "")
    .split("\n")) {
    const [, key = "", written = ""] = /(?:^|\])\s*([A-Za-z][\w-]*)\s*=\s*(.*)$/.exec(line) ?? [];
    const name = key.toLowerCase();
    if (ADDRESS.test(name)) continue;
    const value = written
      .replace(/^:\(optional\)/, "")
      .replaceAll('"', "")
      .replaceAll("\\\\", "\\")
      .trim();
    if (value === "") continue;
    const at = from(dirname(file), value.replace(/^~(?=\/)/, homedir()));
    yield { name, at };
    if (name === "path") yield* namedInConfiguration(at, read, seen);
  }
}

/** A share stays as it is written, on every system. */
function from(folder: string, path: string): string {
  return shareOf(path) === undefined ? resolve(folder, path) : path;
}

/** @throws CommandError for a file that no repository has of this size */
function readSmall(path: string): string {
  const found = stat(path);
  if (!found?.isFile()) return "";
  if (found.size > MOST_BYTES) throw new CommandError(`${path}: too large for a file that steers git`);
  return readFileSync(path, "latin1");
}
