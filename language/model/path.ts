/** Paths as the language sees them: words parted by `/`, relative to the file that names them. */

export function folderOf(path: string): string {
  const cut = path.lastIndexOf("/");
  return cut < 0 ? "" : path.slice(0, cut);
}

/** `../catalogue` seen from `/designs/eskerfold/network.hop` is `/designs/catalogue`. */
export function resolvePath(fromFile: string, relative: string): string {
  const written = relative.replaceAll("\\", "/");
  const absolute = written.startsWith("/") || /^[A-Za-z]:\//.test(written);
  const parts = absolute ? [] : folderOf(fromFile).split("/");
  for (const part of written.split("/")) {
    if (part === "..") parts.pop();
    else if (part !== "." && (part !== "" || (absolute && parts.length === 0))) parts.push(part);
  }
  return parts.join("/");
}

export function isBelow(path: string, folder: string): boolean {
  return folder === "" || path === folder || path.startsWith(folder.endsWith("/") ? folder : `${folder}/`);
}
