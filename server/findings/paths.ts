import { relative } from "node:path";
import { slashed } from "../files/slashed.js";

/**
 * A path as seen from a folder, parted by `/`. One that lies further than two folders up is left absolute: a
 * string of `../` helps nobody.
 */
export function shownFrom(folder: string, path: string): string {
  const short = slashed(relative(folder, path));
  if (short === "") return ".";
  return short.startsWith("../../../") ? path : short;
}
