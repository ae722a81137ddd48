/** Where results of earlier runs are kept: in the user's own cache folder, and never in a design. */
import { realpathSync } from "node:fs";
import { homedir } from "node:os";
import { basename, dirname, isAbsolute, join, relative, sep } from "node:path";

type Environment = Readonly<Record<string, string | undefined>>;

/** Set to anything but nothing and 0: nothing is kept, and nothing kept is read. */
const OFF = "HOPWRIGHT_NO_CACHE";

/**
 * @param design folder of the design
 * @returns the folder, which need not be there; or why nothing is kept; undefined where the user wants it so
 */
export function placeOf(
  design: string,
  env: Environment = process.env,
  platform: NodeJS.Platform = process.platform,
): { readonly folder: string } | { readonly problem: string } | undefined {
  if (!["", "0", undefined].includes(env[OFF])) return undefined;
  const base = userCache(env, platform);
  if (base === undefined) return { problem: "no cache folder of yours is known on this machine" };
  const folder = join(base, "hopwright");
  // A link may lead there, or a variable.
  if (isBelow(realOf(folder), realOf(design)))
    return { problem: `${folder} lies within the design; name another cache folder, or set ${OFF}=1` };
  return { folder };
}

/** By the XDG base directories a path that is not absolute does not count. */
function userCache(env: Environment, platform: NodeJS.Platform): string | undefined {
  const absolute = (path: string | undefined) => (path && isAbsolute(path) ? path : undefined);
  if (platform === "win32") return absolute(env.LOCALAPPDATA);
  const home = absolute(env.HOME) ?? absolute(homedir());
  if (platform === "darwin") return home && join(home, "Library/Caches");
  return absolute(env.XDG_CACHE_HOME) ?? (home && join(home, ".cache"));
}

/** With links followed, as far as the path is there. */
function realOf(path: string): string {
  try {
    return realpathSync(path);
  } catch {
    return dirname(path) === path ? path : join(realOf(dirname(path)), basename(path));
  }
}

function isBelow(path: string, folder: string): boolean {
  const way = relative(folder, path);
  return way === "" || !(way === ".." || way.startsWith(`..${sep}`) || isAbsolute(way));
}
