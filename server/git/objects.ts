/** Files of a commit, read straight from git's objects. */
import { type Repository, SUBMODULE } from "./repository.js";
import { git } from "./run.js";

export interface TreeFile {
  /** From the repository's root, parted by `/`. */
  readonly path: string;
  readonly object: string;
  readonly bytes: number;
}

export interface Tree {
  readonly files: ReadonlyMap<string, TreeFile>;
  /** Paths of submodules, which are repositories of their own. */
  readonly submodules: readonly string[];
}

const FILE = /^100/;

export async function treeOf({ root }: Repository, commit: string): Promise<Tree> {
  const out = await git(root, ["ls-tree", "-r", "-z", "-l", "--full-tree", commit]);
  const files = new Map<string, TreeFile>();
  const submodules: string[] = [];
  for (const line of out.toString("utf8").split("\0")) {
    const tab = line.indexOf("\t");
    if (tab < 0) continue;
    const [mode = "", , object = "", bytes] = line.slice(0, tab).split(/ +/);
    const path = line.slice(tab + 1);
    // Links are left out: what they point at is found by its own name.
    if (FILE.test(mode)) files.set(path, { path, object, bytes: Number(bytes) });
    else if (mode === SUBMODULE) submodules.push(path);
  }
  return { files, submodules };
}

/** Contents by object. One that is not here, as in a partial clone without a connection, is missing. */
export async function readObjects(
  { root }: Repository,
  objects: Iterable<string>,
): Promise<Map<string, Buffer>> {
  const asked = [...new Set(objects)];
  const contents = new Map<string, Buffer>();
  if (asked.length === 0) return contents;
  const out = await git(root, ["cat-file", "--batch"], `${asked.join("\n")}\n`);
  let at = 0;
  while (at < out.length) {
    const end = out.indexOf(10, at);
    if (end < 0) break;
    const [object = "", kind, size] = out.toString("latin1", at, end).split(" ");
    at = end + 1;
    if (kind === "missing" || size === undefined) continue;
    const bytes = Number(size);
    contents.set(object, out.subarray(at, at + bytes));
    at += bytes + 1;
  }
  return contents;
}

/**
 * A file as a checkout would lay it down, so that large files kept elsewhere by a filter are found too.
 * @throws GitError when it cannot be had
 */
export function checkedOut({ root }: Repository, commit: string, path: string): Promise<Buffer> {
  return git(root, ["cat-file", "--filters", `${commit}:${path}`]);
}
