/** Files of a commit, read straight from git's objects. */
import { createHash, type Hash } from "node:crypto";
import { appendFileSync, closeSync, openSync } from "node:fs";
import { type Repository, SUBMODULE } from "./repository.js";
import { GitError, git, gitInPieces, LACKING } from "./run.js";

export interface Tree {
  /** Object by path from the repository's root, parted by `/`. */
  readonly files: ReadonlyMap<string, string>;
  /** Paths of submodules, which are repositories of their own. */
  readonly submodules: readonly string[];
  /** Paths of symbolic links. */
  readonly links: readonly string[];
  /** What a link or submodule is in the commit, by path: the object of the link's text, a commit of the other repository. */
  readonly pointing: ReadonlyMap<string, string>;
  /** Paths that no file can have, or that lead out of the repository. */
  readonly refused: readonly string[];
}

const FILE = /^100/;
const LINK = "120000";

export async function treeOf({ root }: Repository, commit: string): Promise<Tree> {
  const out = await git(root, ["ls-tree", "-r", "-z", "--full-tree", commit]);
  const files = new Map<string, string>();
  const pointing = new Map<string, string>();
  const [submodules, links, refused]: [string[], string[], string[]] = [[], [], []];
  for (const line of out.toString("utf8").split("\0")) {
    const tab = line.indexOf("\t");
    if (tab < 0) continue;
    const [mode = "", , object = ""] = line.slice(0, tab).split(" ");
    const path = line.slice(tab + 1);
    if (!staysInside(path)) refused.push(path);
    else if (FILE.test(mode)) files.set(path, object);
    else if (mode === SUBMODULE) submodules.push(path);
    else if (mode === LINK) links.push(path);
    if (mode === SUBMODULE || mode === LINK) pointing.set(path, object);
  }
  return { files, submodules, links, pointing, refused };
}

/** Git refuses other names when it checks files out, not when a clone brings them. */
function staysInside(path: string): boolean {
  if (path.includes("\\") || (process.platform === "win32" && path.includes(":"))) return false;
  return path.split("/").every((part) => !/^(\.{0,2}|\.git[ .]*|git~\d+)$/i.test(part));
}

/** Bytes by object, of those that are files. @throws GitError when one is not here */
export async function sizesOf(
  { root }: Repository,
  objects: Iterable<string>,
): Promise<ReadonlyMap<string, number>> {
  const asked = [...new Set(objects)];
  const sizes = new Map<string, number>();
  if (asked.length === 0) return sizes;
  const out = await git(root, ["cat-file", "--batch-check"], { input: `${asked.join("\n")}\n` });
  for (const line of out.toString("latin1").split("\n")) {
    const [object = "", kind, size] = line.split(" ");
    if (kind === "missing") throw new GitError(root, LACKING);
    if (kind === "blob") sizes.set(object, Number(size));
  }
  return sizes;
}

/** All text of a design at one revision. Compressed, as it travels, it can be a thousandth of that. */
const MOST_TEXT_BYTES = 256 * 2 ** 20;

/**
 * Contents by object, of those that are no larger than `largestBytes`.
 * @throws GitError when one is not here or holds something else, or they are more than can be held
 */
export async function readObjects(
  repository: Repository,
  objects: Iterable<string>,
  largestBytes: number,
): Promise<Map<string, Buffer>> {
  const contents = new Map<string, Buffer>();
  const sizes = [...(await sizesOf(repository, objects))].filter(([, bytes]) => bytes <= largestBytes);
  if (sizes.length === 0) return contents;
  const bytes = sizes.reduce((sum, [, one]) => sum + one, 0);
  if (bytes > MOST_TEXT_BYTES)
    throw new GitError(
      repository.root,
      `its .hop files hold ${(bytes / 2 ** 20).toFixed(0)} MB; up to ${MOST_TEXT_BYTES / 2 ** 20} MB are read`,
    );
  const asked = sizes.map(([object]) => `${object}\n`).join("");
  const mostBytes = bytes + 200 * sizes.length;
  const out = await git(repository.root, ["cat-file", "--batch"], { input: asked, mostBytes });
  let at = 0;
  while (at < out.length) {
    const end = out.indexOf(10, at);
    if (end < 0) break;
    const [object = "", , size] = out.toString("latin1", at, end).split(" ");
    at = end + 1;
    if (size === undefined) continue;
    const content = out.subarray(at, at + Number(size));
    if (hashOf(object, content.length).update(content).digest("hex") !== object)
      throw notItself(repository.root, object);
    contents.set(object, content);
    at += Number(size) + 1;
  }
  return contents;
}

/** Git takes an index of packed objects, and a file by the name of one, at their word. */
function notItself(root: string, object: string): GitError {
  return new GitError(root, `object ${object} is not what its name says; git fsck tells more`);
}

function hashOf(object: string, bytes: number): Hash {
  return createHash(object.length === 64 ? "sha256" : "sha1").update(`blob ${bytes}\0`);
}

/** Writes a file of a commit somewhere else, as the object has it: no filter is asked what it would make of it. */
export async function writeObject(
  { root }: Repository,
  object: string,
  path: string,
  bytes: number,
): Promise<void> {
  const file = openSync(path, "wx");
  const hash = hashOf(object, bytes);
  try {
    const take = (piece: Buffer) => {
      hash.update(piece);
      appendFileSync(file, piece);
    };
    await gitInPieces(root, ["cat-file", "blob", object], take, { mostBytes: bytes });
  } finally {
    closeSync(file);
  }
  if (hash.digest("hex") !== object) throw notItself(root, object);
}
