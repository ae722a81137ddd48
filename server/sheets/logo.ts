/** The logo that a template names: a plain file within the design's folder, whole and of bounded size. */
import { realpath } from "node:fs/promises";
import { isBelow } from "../../language/model/path.js";
import type { LogoFile } from "../../shared/others/listed.js";
import { pictureOf } from "../../shared/report/picture.js";
import { reasonOf } from "../files/hop-files.js";
import { readBounded } from "../files/read-bounded.js";
import { slashed } from "../files/slashed.js";

const MOST_BYTES = 512 * 1024;

/** @param root folder of the design, absolute: neither the path nor a link leads out of it */
export async function readLogo(path: string, root: string): Promise<LogoFile> {
  const outside = { unusable: "it lies outside of the design's folder" };
  if (!isBelow(path, root)) return outside;
  try {
    if (!isBelow(slashed(await realpath(path)), slashed(await realpath(root)))) return outside;
    const bytes = await readBounded(path, MOST_BYTES);
    const read = pictureOf(bytes);
    return "unusable" in read ? read : { ...read, bytes };
  } catch (error) {
    return { unusable: reasonOf(error) };
  }
}
