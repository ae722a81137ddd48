/** Paths as the language sees them: words parted by `/`, relative to the file that names them. */

export function folderOf(path: string): string {
  const cut = path.lastIndexOf("/");
  return cut < 0 ? "" : path.slice(0, cut);
}

/**
 * `../catalogue` seen from `/designs/eskerfold/network.hop` is `/designs/catalogue`. No way up leads past the top: `/`,
 * a drive, a share of a network.
 * @returns undefined where it is a share of a network (`//host/share`) that the naming file does not lie on: to look
 * there is to log in there, and that is nothing a design may ask for
 */
export function resolvePath(fromFile: string, named: string): string | undefined {
  const written = named.replaceAll("\\", "/");
  if (written.startsWith("//") && shareOf(written) !== (shareOf(fromFile) ?? "")) return undefined;
  const absolute = written.startsWith("/") || /^[A-Za-z]:\//.test(written);
  const path = absolute ? written : `${folderOf(fromFile)}/${written}`;
  const top = TOP.exec(path)![0];
  const parts: string[] = [];
  for (const part of path.slice(top.length).split("/")) {
    if (part === "..") parts.pop();
    else if (part !== "." && part !== "") parts.push(part);
  }
  return top + parts.join("/");
}

const TOP = /^(\/\/[^/]+\/[^/]+\/?|[A-Za-z]:\/|\/*)/;

/** `//host/share` in small letters, which such names do not tell apart; undefined for a path on this machine. */
export function shareOf(path: string): string | undefined {
  return /^\/\/[^/]*(\/+[^/]+)?/.exec(path.replaceAll("\\", "/"))?.[0].toLowerCase();
}

export function isBelow(path: string, folder: string): boolean {
  return folder === "" || path === folder || path.startsWith(folder.endsWith("/") ? folder : `${folder}/`);
}

/** Folders that never hold a design's own files. */
const PASSED_OVER: ReadonlySet<string> = new Set(["node_modules", "dist", "out"]);

/** Whether a name of a file or folder is left out when a folder is searched. */
export function isPassedOver(name: string, isFolder: boolean): boolean {
  return name.startsWith(".") || (isFolder && PASSED_OVER.has(name));
}

/** Whether a folder holds a file as its own: below it, and in no folder that is passed over, such as a local history. */
export function holds(folder: string, path: string): boolean {
  if (!isBelow(path, folder)) return false;
  const parts = path
    .slice(folder.length)
    .split("/")
    .filter((part) => part !== "");
  return !parts.some((part, index) => isPassedOver(part, index < parts.length - 1));
}
