/** The first line of a table, for whoever names its columns. */
import { closeSync, openSync, readSync, statSync } from "node:fs";
import { headsIn } from "../others/read-tables.js";

/** No line of heads is longer. */
const MOST_BYTES = 64 * 2 ** 10;

/** @returns undefined where there is no such file, or no table in it */
export function tableHeads(path: string): readonly string[] | undefined {
  try {
    if (!statSync(path).isFile()) return undefined;
    const file = openSync(path, "r");
    try {
      const bytes = new Uint8Array(MOST_BYTES);
      return headsIn(bytes.subarray(0, readSync(file, bytes, 0, MOST_BYTES, 0)));
    } finally {
      closeSync(file);
    }
  } catch {
    return undefined;
  }
}
