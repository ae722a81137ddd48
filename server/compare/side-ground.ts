/**
 * Terrain, surveys and lists of one side of a comparison. A file that a commit has as the work tree has it is read there;
 * only what differs is written, into a folder of its own that is removed at the end.
 */
import type { DesignModel } from "../../language/model/design-model.js";
import { isBelow } from "../../language/model/path.js";
import { shownFrom } from "../findings/paths.js";
import type { Tree } from "../git/objects.js";
import { indexOf, type Repository } from "../git/repository.js";
import { listedPaths } from "../session/listed-files.js";
import { findRasterFiles, isRaster } from "../terrain/find-files.js";
import type { openTerrain } from "../terrain/store.js";
import { FilesOfCommit } from "./files-of-commit.js";
import type { Scratch } from "./scratch.js";
import type { SideFiles } from "./side-files.js";

export interface SideGround {
  readonly openTerrain: typeof openTerrain;
  /** Where a file that the design names is to be read for this side. */
  fileFor(path: string): string;
  /** A file of terrain as the design's folder sees it, wherever it was read. */
  shown(file: string): string;
  /** What the commit has and is not read, one sentence each; known once terrain is open. */
  readonly notes: readonly string[];
}

export interface GroundWanted {
  /** The design on this side; undefined where it is not there. */
  readonly model?: DesignModel;
  /** Hops whose surveys are asked for. */
  readonly hops: readonly string[];
  /** What terrain files are printed relative to, the same for both sides. */
  readonly baseDir: string;
}

export async function groundOf(
  repository: Repository,
  { revision, tree }: SideFiles,
  scratch: Scratch,
  { model, hops, baseDir }: GroundWanted,
): Promise<SideGround> {
  const open: SideGround["openTerrain"] = (roots, options) => scratch.open(roots, { ...options, baseDir });
  const shown = (file: string) => {
    const origin = scratch.origin(file);
    return origin === undefined ? file : shownFrom(baseDir, `${repository.root}/${origin}`);
  };
  if (!revision || !tree) return { openTerrain: open, fileFor: (path) => path, shown, notes: [] };
  const { tracked } = await indexOf(repository);
  const files = new FilesOfCommit({ repository, revision, tree, tracked, scratch });
  const found = new Map<string, string>();
  const surveyFiles = hops.flatMap((name) => model?.hop(name)?.hop?.surveyFile ?? []);
  const named = [...new Set([...surveyFiles, ...(model ? listedPaths(model) : [])])].filter((path) =>
    hasHistory(path, repository, tree),
  );
  await files.prepare(named.map((path) => within(repository, path)));
  for (const path of named) {
    found.set(path, (await files.find(within(repository, path))) ?? scratch.nowhere(path));
  }
  return {
    openTerrain: async (roots, options) => open(await rastersIn(roots, files, repository, tree), options),
    fileFor: (path) => found.get(path) ?? path,
    shown,
    notes: files.notes,
  };
}

/** Roots that are as on disk stay what they are; others become the files that the commit has there. */
async function rastersIn(
  roots: readonly string[],
  commit: FilesOfCommit,
  repository: Repository,
  tree: Tree,
): Promise<string[]> {
  const files: string[] = [];
  for (const root of roots) {
    if (!hasHistory(root, repository, tree)) {
      files.push(root);
      continue;
    }
    const onDisk = await findRasterFiles([root], repository.root, () => {});
    const paths = new Set(onDisk.map(({ path }) => within(repository, path.replaceAll("\\", "/"))));
    const top = within(repository, root);
    for (const path of tree.files.keys())
      if (path === top || (isBelow(path, top) && isRaster(path))) paths.add(path);
    await commit.prepare(paths);
    const there: string[] = [];
    for (const path of [...paths].sort()) {
      const at = await commit.find(path);
      if (at !== undefined) there.push(at);
    }
    const asOnDisk =
      there.length === onDisk.length && there.every((path) => path.startsWith(`${repository.root}/`));
    files.push(...(asOnDisk ? [root] : there));
  }
  return files;
}

/** Files outside the repository and in its submodules have no other state than the one on disk. */
function hasHistory(path: string, { root }: Repository, { submodules }: Tree): boolean {
  return isBelow(path, root) && !submodules.some((folder) => isBelow(path, `${root}/${folder}`));
}

function within({ root }: Repository, path: string): string {
  return path === root ? "" : path.slice(root.length + 1);
}
