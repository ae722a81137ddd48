/**
 * Terrain and surveys of one side of a comparison. A file that a commit has as the work tree has it is read there;
 * only what differs is written, into a folder of its own that is removed at the end.
 */
import { existsSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { isBelow } from "../../language/model/path.js";
import { slashed } from "../files/slashed.js";
import { shownFrom } from "../findings/paths.js";
import { checkedOut, type Tree } from "../git/objects.js";
import { changedInWorkTree, indexOf, type Repository } from "../git/repository.js";
import { findRasterFiles, isRaster } from "../terrain/find-files.js";
import { openTerrain, type TerrainStore } from "../terrain/store.js";
import type { SideFiles } from "./side-files.js";

export interface SideGround {
  readonly openTerrain: typeof openTerrain;
  /** Where a file that the design names is to be read for this side. */
  fileFor(path: string): string;
  /** A file of terrain as the design's folder sees it, wherever it was read. */
  shown(file: string): string;
}

/** Files written for commits, and the terrain opened, shared by both sides. */
export class Scratch {
  private folder: string | undefined;
  private readonly stores = new Map<string, Promise<TerrainStore>>();

  /** @returns path of a file with the content of this key, written once: its time of change is part of terrain stamps */
  async write(key: string, path: string, content: () => Promise<Uint8Array>): Promise<string> {
    this.folder ??= mkdtempSync(join(tmpdir(), "hopwright-"));
    const at = join(this.folder, key, path);
    if (!existsSync(at)) {
      const bytes = await content();
      mkdirSync(dirname(at), { recursive: true });
      writeFileSync(at, bytes);
    }
    return slashed(at);
  }

  /** Path in the repository of a written file; undefined for any other. */
  origin(path: string): string | undefined {
    const folder = this.folder && slashed(this.folder);
    return folder !== undefined && path.startsWith(`${folder}/`)
      ? path.slice(folder.length + 1).replace(/^[^/]*\//, "")
      : undefined;
  }

  /** Equal files are one store, whose stamps can be compared. */
  open(files: readonly string[], options: Parameters<typeof openTerrain>[1]): Promise<TerrainStore> {
    const key = files.join("\n");
    let store = this.stores.get(key);
    if (!store) this.stores.set(key, (store = openTerrain(files, options)));
    return store;
  }

  remove(): void {
    if (this.folder !== undefined) rmSync(this.folder, { recursive: true, force: true });
    this.folder = undefined;
  }
}

/** @param baseDir what terrain files are printed relative to, the same for both sides */
export async function groundOf(
  repository: Repository,
  { revision, tree }: SideFiles,
  scratch: Scratch,
  baseDir: string,
): Promise<SideGround> {
  const open: SideGround["openTerrain"] = (roots, options) => scratch.open(roots, { ...options, baseDir });
  const shown = (file: string) => {
    const origin = scratch.origin(file);
    return origin === undefined ? file : shownFrom(baseDir, `${repository.root}/${origin}`);
  };
  if (!revision || !tree) return { openTerrain: open, fileFor: (path) => path, shown };
  const [changed, { tracked }] = await Promise.all([
    changedInWorkTree(repository, revision.commit),
    indexOf(repository),
  ]);
  const state: CommitState = { repository, commit: revision.commit, tree, changed, tracked, scratch };
  const surveys = new Map<string, string>();
  for (const { path } of tree.files.values()) {
    if (!/\.(csv|txt)$/i.test(path) || !changed.has(path)) continue;
    const at = await fileIn(state, path);
    if (at !== undefined) surveys.set(`${repository.root}/${path}`, at);
  }
  return {
    openTerrain: async (roots, options) => open(await rastersIn(state, roots), options),
    fileFor: (path) => surveys.get(path) ?? path,
    shown,
  };
}

interface CommitState {
  readonly repository: Repository;
  readonly commit: string;
  readonly tree: Tree;
  /** Paths that the commit and the work tree have in different states, or only one of them has. */
  readonly changed: ReadonlySet<string>;
  readonly tracked: ReadonlySet<string>;
  readonly scratch: Scratch;
}

/** Roots that are as on disk stay what they are; others become the files that the commit has there. */
async function rastersIn(state: CommitState, roots: readonly string[]): Promise<string[]> {
  const { repository, tree } = state;
  const files: string[] = [];
  for (const root of roots) {
    if (!hasHistory(root, repository, tree)) {
      files.push(root);
      continue;
    }
    const onDisk = await findRasterFiles([root], repository.root, () => {});
    const paths = new Set(onDisk.map(({ path }) => within(repository, slashed(path))));
    const top = within(repository, root);
    for (const path of tree.files.keys())
      if (path === top || (isBelow(path, top) && isRaster(path))) paths.add(path);
    const found = await Promise.all([...paths].sort().map((path) => fileIn(state, path)));
    const there = found.filter((path) => path !== undefined);
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

/** @returns undefined when the commit does not have it; a file that git does not know is the same for every commit */
async function fileIn(state: CommitState, path: string): Promise<string | undefined> {
  const { repository, tree, changed, tracked } = state;
  const onDisk = `${repository.root}/${path}`;
  // The coordinate system of a text grid stands in a file beside it: the two are one raster.
  const beside = /\.asc$/i.test(path) ? path.replace(/\.asc$/i, ".prj") : undefined;
  const file = tree.files.get(path);
  if (!file) return tracked.has(path) ? undefined : onDisk;
  if (!changed.has(path) && !(beside !== undefined && changed.has(beside))) return onDisk;
  const prj = beside === undefined ? undefined : tree.files.get(beside);
  const key = prj ? `${file.object}-${prj.object.slice(0, 8)}` : file.object;
  const at = await written(state, key, path);
  if (prj) await written(state, key, prj.path);
  return at;
}

function written({ repository, commit, scratch }: CommitState, key: string, path: string): Promise<string> {
  return scratch.write(key, path, () => checkedOut(repository, commit, path));
}
