import { sep } from "node:path";

/** A path of the system with `/` between its parts. Where that is usual anyway a backslash is a part of a name. */
export function slashed(path: string): string {
  return sep === "\\" ? path.replaceAll("\\", "/") : path;
}
