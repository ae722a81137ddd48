/**
 * The files of one side of a comparison: the work tree, or a commit. Both go by the paths of the work tree, so that a
 * design has the same paths wherever it is read from.
 */
import { existsSync } from "node:fs";
import { holds, isBelow } from "../../language/model/path.js";
import { readSource, type SourceFile } from "../../language/model/source-file.js";
import {
  type HopFiles,
  type HopText,
  LARGEST_FILE_BYTES,
  readHopFiles,
  textOf,
  type UnreadableFile,
} from "../files/hop-files.js";
import { slashed } from "../files/slashed.js";
import { pointerIn } from "../git/large-file.js";
import { readObjects, type Tree, treeOf } from "../git/objects.js";
import type { Repository, Revision } from "../git/repository.js";
import type { DesignFiles } from "../session/load.js";

export interface SideFiles extends DesignFiles {
  /** Undefined: the work tree. */
  readonly revision?: Revision;
  readonly tree?: Tree;
  /** What a folder has that is left out of the comparison, one sentence each. */
  leftOut(folder: string): string[];
}

/** A file that is the same on both sides is read into facts once. */
export type SourceCache = Map<string, SourceFile>;

/** Line ends are no difference: on Windows git may lay them down in its own way, and keep them in another. */
function cached(cache: SourceCache): DesignFiles["source"] {
  return (path, text) => {
    const known = cache.get(path);
    if (known && withUnixLineEnds(known.text) === withUnixLineEnds(text)) return known;
    const source = readSource(path, text);
    if (!known) cache.set(path, source);
    return source;
  };
}

function withUnixLineEnds(text: string): string {
  return text.includes("\r\n") ? text.replaceAll("\r\n", "\n") : text;
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
    leftOut: (folder) => told(folder, root, submodules, AS_IT_IS, "the work tree"),
  };
}

const AS_IT_IS = [
  "is a repository of its own (a submodule)",
  "are repositories of their own (submodules)",
] as const;

function told(
  folder: string,
  root: string,
  paths: readonly string[],
  [one, many]: readonly [string, string],
  side: string,
): string[] {
  const inside = paths.filter((path) => isBelow(`${root}/${path}`, folder));
  if (inside.length === 0) return [];
  const names = inside.slice(0, 3).join(", ") + (inside.length > 3 ? ` and ${inside.length - 3} more` : "");
  return [`${names} ${inside.length === 1 ? one : many} in ${side}, and left out of the comparison.`];
}

/** Everything outside the repository and in its submodules is read from disk: it has no other state. */
export async function commitFiles(
  repository: Repository,
  revision: Revision,
  cache: SourceCache,
): Promise<SideFiles> {
  const { root } = repository;
  const tree = await treeOf(repository, revision.commit);
  const wanted = [...tree.files].filter(([path]) => path.endsWith(".hop"));
  const contents = await readObjects(
    repository,
    wanted.map(([, object]) => object),
    LARGEST_FILE_BYTES,
  );
  const files = wanted.map(([path, object]): HopText | UnreadableFile => {
    const full = `${root}/${path}`;
    const content = contents.get(object);
    if (content && pointerIn(content))
      return {
        path: full,
        message: `in ${revision.short} a pointer of large-file storage: no design is kept there`,
      };
    if (content) return textOf(full, content);
    return { path: full, message: `not readable in ${revision.short}: too large for a design file` };
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
    leftOut: (folder) => [
      ...told(folder, root, tree.submodules, AS_IT_IS, revision.name),
      ...told(folder, root, tree.links, ["is a link", "are links"], revision.name),
      ...told(folder, root, tree.refused, ["is no name of a file", "are no names of files"], revision.name),
    ],
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
  const below = files.filter(({ path }) => holds(folder, path));
  return {
    texts: below.flatMap((file) => ("text" in file ? file : [])),
    unreadable: below.flatMap((file) => ("message" in file ? file : [])),
  };
}
