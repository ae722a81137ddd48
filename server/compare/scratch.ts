/** Files read and written for commits, and the terrain opened, shared by both sides of a comparison. */
import { existsSync, mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { WorkFiles } from "../git/work-files.js";
import { openTerrain, type TerrainStore } from "../terrain/store.js";

/** Compressed, as they travel, files can be a thousandth of what they are written as. */
const MOST_BYTES = 2 * 2 ** 30;

export class Scratch {
  private folder: string | undefined;
  private left = MOST_BYTES;
  /** Bytes by object of git. */
  readonly sizes = new Map<string, number>();
  readonly workFiles = new WorkFiles();
  private readonly stores = new Map<string, Promise<TerrainStore>>();

  /**
   * @param content writes the file to where it is told
   * @returns path of a file with the content of this key, written once: its time of change is part of terrain stamps;
   * undefined where there is no room left for it
   */
  async write(
    key: string,
    path: string,
    bytes: number,
    content: (at: string) => Promise<void>,
  ): Promise<string | undefined> {
    const at = this.placeOf(key, path);
    if (!existsSync(at)) {
      if (bytes > this.left) return undefined;
      this.left -= bytes;
      mkdirSync(dirname(at), { recursive: true });
      await content(at);
    }
    return at;
  }

  /** A path where nothing is, for what a commit does not have. */
  nowhere(path: string): string {
    return this.placeOf("nowhere", path.replace(/^.*\//, ""));
  }

  private placeOf(key: string, path: string): string {
    this.folder ??= mkdtempSync(join(tmpdir(), "hopwright-"));
    return join(this.folder, key, path).replaceAll("\\", "/");
  }

  /** Path in the repository of a written file; undefined for any other. */
  origin(path: string): string | undefined {
    const folder = this.folder?.replaceAll("\\", "/");
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
