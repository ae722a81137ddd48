/** Where the files of a commit are read: on disk while they are the same there, otherwise written out of git's objects. */
import { copyFile } from "node:fs/promises";
import { contentPointedTo, pointerIn, SMALLEST_NO_POINTER_BYTES } from "../git/large-file.js";
import { readObjects, sizesOf, type Tree, writeObject } from "../git/objects.js";
import { gitFolderOf, type Repository, type Revision } from "../git/repository.js";
import { type Kept, LARGEST_TEXT_BYTES } from "../git/work-files.js";
import type { Scratch } from "./scratch.js";

export interface Commit {
  readonly repository: Repository;
  readonly revision: Revision;
  readonly tree: Tree;
  /** Paths that git knows of in the work tree. */
  readonly tracked: ReadonlySet<string>;
  readonly scratch: Scratch;
}

/** A larger file isn't read out of git. */
const LARGEST_BYTES = 512 * 2 ** 20;

export class FilesOfCommit {
  /** What is not read, one sentence each. */
  readonly notes: string[] = [];

  constructor(private readonly commit: Commit) {}

  /**
   * @param path from the root of the repository; one that was prepared
   * @returns undefined when the commit does not have it; a file that git does not know is the same for every commit
   */
  async find(path: string): Promise<string | undefined> {
    const { tree, tracked, repository } = this.commit;
    const onDisk = `${repository.root}/${path}`;
    const object = tree.files.get(path);
    if (object === undefined) return tracked.has(path) ? undefined : onDisk;
    const beside = besideOf(path);
    if ((await this.isOnDisk(path)) && (beside === undefined || (await this.isOnDisk(beside)))) return onDisk;
    const prj = beside === undefined ? undefined : tree.files.get(beside);
    const key = prj === undefined ? object : `${object}-${prj.slice(0, 8)}`;
    if (prj !== undefined) await this.written(key, beside!, prj);
    return this.written(key, path, object);
  }

  private async isOnDisk(path: string): Promise<boolean> {
    const { tree, tracked, repository, scratch } = this.commit;
    const object = tree.files.get(path);
    if (object === undefined) return !tracked.has(path);
    return scratch.workFiles.isAs(`${repository.root}/${path}`, this.kept(object));
  }

  /** Asks git for all that will be wanted at once. */
  async prepare(paths: Iterable<string>): Promise<void> {
    const { repository, tree, scratch } = this.commit;
    const objects = [...paths]
      .flatMap((path) => [path, besideOf(path)])
      .flatMap((path) => (path === undefined ? [] : (tree.files.get(path) ?? [])))
      .filter((object) => !scratch.sizes.has(object));
    for (const [object, bytes] of await sizesOf(repository, objects)) scratch.sizes.set(object, bytes);
  }

  private kept(object: string): Kept {
    const { repository, scratch } = this.commit;
    const bytes = scratch.sizes.get(object) ?? 0;
    const content = async () =>
      (await readObjects(repository, [object], LARGEST_TEXT_BYTES)).get(object) ?? Buffer.alloc(0);
    return { object, bytes, content };
  }

  /** @returns undefined for a file that is too large */
  private async written(key: string, path: string, object: string): Promise<string | undefined> {
    const { repository, revision, scratch } = this.commit;
    const { bytes, content } = this.kept(object);
    const pointer = bytes < SMALLEST_NO_POINTER_BYTES ? pointerIn(await content()) : undefined;
    const elsewhere = pointer && (await contentPointedTo(pointer, await gitFolderOf(repository)));
    if (pointer && elsewhere === undefined)
      this.notes.push(
        `${path} is a pointer of large-file storage in ${revision.name}, and what it points to is not here; fetch it with git lfs fetch origin ${revision.short}.`,
      );
    const size = elsewhere === undefined ? bytes : pointer!.bytes;
    const at =
      size > LARGEST_BYTES
        ? undefined
        : await scratch.write(key, path, size, (to) =>
            elsewhere === undefined ? writeObject(repository, object, to, bytes) : copyFile(elsewhere, to),
          );
    if (at === undefined)
      this.notes.push(
        `${path} has ${(size / 2 ** 20).toFixed(0)} MB in ${revision.name} and is not read: too large.`,
      );
    return at;
  }
}

/** The coordinate system of a text grid stands in a file beside it: the two are one raster. */
function besideOf(path: string): string | undefined {
  return /\.asc$/i.test(path) ? path.replace(/\.asc$/i, ".prj") : undefined;
}
