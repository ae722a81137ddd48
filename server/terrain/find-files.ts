import { readdir, realpath, stat } from "node:fs/promises";
import { join, relative, resolve, sep } from "node:path";
import { shareLinkedTo } from "../files/share-links.js";
import type { FileOnDisk } from "./raster-file.js";

const RASTER = /\.(hgt|hgt\.gz|zip|tif|tiff|asc)$/i;

function isWithin(path: string, folder: string): boolean {
  return path === folder || path.startsWith(folder.endsWith(sep) ? folder : `${folder}${sep}`);
}

/** Whether a file's name says that it holds heights. */
export function isRaster(path: string): boolean {
  return RASTER.test(path);
}

/**
 * Every raster file under the roots, in order of name; folders that cannot be read are told to `problem`.
 * Hidden folders and node_modules are passed over. Links that lead out of the root are told and not followed, since only
 * what the network names is read.
 */
export async function findRasterFiles(
  roots: readonly string[],
  baseDir: string,
  problem: (file: string, message: string) => void,
): Promise<FileOnDisk[]> {
  const found = new Map<string, FileOnDisk>();
  const visited = new Set<string>();
  const shown = (path: string): string => {
    const short = relative(baseDir, path);
    return (short.startsWith("..") || short === "" ? path : short).split(sep).join("/");
  };

  const named = await Promise.all(
    roots.map((root) => realpath(resolve(baseDir, root)).catch(() => undefined)),
  );
  /** Whether a link stays within what the network names; else it is told, if it could hold heights. */
  const isNamed = async (link: string): Promise<boolean> => {
    const share = shareLinkedTo(link);
    if (share !== undefined) {
      problem(shown(link), `this link leads to ${share} on the network, and is not followed; remove it`);
      return false;
    }
    const target = await realpath(link).catch(() => undefined);
    if (target === undefined || named.some((root) => root !== undefined && isWithin(target, root)))
      return true;
    const isFolder = (await stat(target).catch(() => undefined))?.isDirectory() ?? false;
    if (isFolder || RASTER.test(link))
      problem(
        shown(link),
        `this link leads elsewhere, to ${target}, and is not followed; name that as terrain`,
      );
    return false;
  };

  const visit = async (path: string, isRoot: boolean): Promise<void> => {
    const info = await stat(path).catch(() => undefined);
    if (!info) {
      problem(
        shown(path),
        isRoot
          ? "no such file or folder; correct the terrain setting"
          : "cannot be read; check its link and rights",
      );
      return;
    }
    if (!info.isDirectory()) {
      if (isRoot && !info.isFile())
        problem(shown(path), "is neither a file nor a folder; correct the terrain setting");
      if (!info.isFile() || !(isRoot || RASTER.test(path))) return;
      // A text grid's coordinate system stands in a file beside it, so a change there is a change of the raster.
      const beside = /\.asc$/i.test(path)
        ? await stat(path.replace(/\.asc$/i, ".prj")).catch(() => undefined)
        : undefined;
      const modifiedMs = Math.max(info.mtimeMs, beside?.mtimeMs ?? 0);
      found.set(path, { file: shown(path), path, sizeBytes: info.size, modifiedMs });
      return;
    }
    const real = await realpath(path);
    if (visited.has(real)) return;
    visited.add(real);
    const names = await readdir(path, { withFileTypes: true }).catch(() => undefined);
    if (!names) {
      problem(shown(path), "the folder cannot be read; check its rights");
      return;
    }
    for (const entry of names) {
      if (entry.name.startsWith(".") || entry.name === "node_modules") continue;
      // Folders of other things may be large: a file is looked at only when its name says raster.
      if (entry.isFile() && !RASTER.test(entry.name)) continue;
      const below = join(path, entry.name);
      if (entry.isSymbolicLink() && !(await isNamed(below))) continue;
      await visit(below, false);
    }
  };
  for (const root of roots) await visit(resolve(baseDir, root), true);
  return [...found.values()].sort((a, b) => (a.file < b.file ? -1 : a.file > b.file ? 1 : 0));
}
