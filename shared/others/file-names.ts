/** What files are called in messages: no more of a path than tells it from the others. */

/** The name of a file without its folder. */
export function shownFile(path: string): string {
  return path.slice(path.lastIndexOf("/") + 1);
}

/** Of several files, each with as many of its folders as no other file shares with it. @returns in their order */
export function shownFiles(paths: readonly string[]): readonly string[] {
  return paths.map((path) => {
    const parts = path.split("/");
    const others = paths.filter((other) => other !== path);
    for (let count = 1; count < parts.length; count++) {
      const shown = parts.slice(-count).join("/");
      if (!others.some((other) => other === shown || other.endsWith(`/${shown}`))) return shown;
    }
    return path;
  });
}
