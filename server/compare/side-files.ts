/**
 * The files of one side of a comparison: the work tree, or a commit. Both go by the paths of the work tree, so that a
 * design has the same paths wherever it is read from.
 */
import { existsSync } from "node:fs";
import { isBelow } from "../../language/model/path.js";
import { readSource, type SourceFile } from "../../language/model/source-file.js";
import {
  type HopFiles,
  type HopText,
  isPassedOver,
  LARGEST_FILE_BYTES,
  readHopFiles,
  textOf,
  type UnreadableFile,
} from "../files/hop-files.js";
import { slashed } from "../files/slashed.js";
import { readObjects, type Tree, treeOf } from "../git/objects.js";
import type { Repository, Revision } from "../git/repository.js";
import type { DesignFiles } from "../session/load.js";

export interface SideFiles extends DesignFiles {
  /** Undefined: the work tree. */
  readonly revision?: Revision;
  readonly tree?: Tree;
}

/** A file that is the same on both sides is read into facts once. */
export type SourceCache = Map<string, SourceFile>;

function cached(cache: SourceCache): DesignFiles["source"] {
  return (path, text) => {
    const known = cache.get(path);
    if (known?.text === text) return known;
    const source = readSource(path, text);
    if (!known) cache.set(path, source);
    return source;
  };
}

/** @param submodules paths from the root: repositories of their own, which are not compared */
export function workTreeFiles(
  { root }: Repository,
  submodules: readonly string[],
  cache: SourceCache,
): SideFiles {
  const folders = submodules.map((path) => `${root}/${path}`);
  return {
    source: cached(cache),
    exists: existsSync,
    read: (at) => {
      if (!existsSync(at)) return { texts: [], unreadable: [] };
      const { texts, unreadable } = readHopFiles(at);
      const inside = folders.filter((folder) => !isBelow(slashed(at), folder));
      const counts = ({ path }: { readonly path: string }) => !inside.some((folder) => isBelow(path, folder));
      return { texts: texts.filter(counts), unreadable: unreadable.filter(counts) };
    },
  };
}

/** Everything outside the repository and in its submodules is read from disk: it has no other state. */
export async function commitFiles(
  repository: Repository,
  revision: Revision,
  cache: SourceCache,
): Promise<SideFiles> {
  const { root } = repository;
  const tree = await treeOf(repository, revision.commit);
  const wanted = [...tree.files.values()].filter(({ path }) => path.endsWith(".hop"));
  const small = wanted.filter(({ bytes }) => bytes <= LARGEST_FILE_BYTES);
  const contents = await readObjects(
    repository,
    small.map(({ object }) => object),
  );
  const files = wanted.map(({ path, object }): HopText | UnreadableFile => {
    const full = `${root}/${path}`;
    const content = contents.get(object);
    if (content) return textOf(full, content);
    const message = `not readable in ${revision.short}: too large for a design file, or not fetched into this clone`;
    return { path: full, message };
  });
  const elsewhere = (at: string) =>
    !isBelow(at, root) || tree.submodules.some((path) => isBelow(at, `${root}/${path}`));
  const folders = foldersOf(tree.files.keys());
  return {
    revision,
    tree,
    source: cached(cache),
    exists: (at) => (elsewhere(at) ? existsSync(at) : folders.has(relative(root, at))),
    read: (at) => {
      const folder = slashed(at);
      if (elsewhere(folder)) return existsSync(folder) ? readHopFiles(folder) : { texts: [], unreadable: [] };
      return filesBelow(folder, files);
    },
  };
}

function relative(root: string, path: string): string {
  return path === root ? "" : path.slice(root.length + 1);
}

function foldersOf(paths: Iterable<string>): Set<string> {
  const folders = new Set([""]);
  for (const path of paths)
    for (let cut = path.lastIndexOf("/"); cut > 0; cut = path.lastIndexOf("/", cut - 1)) {
      const folder = path.slice(0, cut);
      if (folders.has(folder)) break;
      folders.add(folder);
    }
  return folders;
}

/** In the order and with the omissions of reading a folder on disk. */
function filesBelow(folder: string, files: readonly (HopText | UnreadableFile)[]): HopFiles {
  const below = files.filter(
    ({ path }) =>
      isBelow(path, folder) &&
      !path
        .slice(folder.length + 1)
        .split("/")
        .some((part, index, parts) => isPassedOver(part, index < parts.length - 1)),
  );
  return {
    texts: below.flatMap((file) => ("text" in file ? file : [])),
    unreadable: below.flatMap((file) => ("message" in file ? file : [])),
  };
}
