/** Pointers of large-file storage: what git has of a file whose content a filter keeps elsewhere. */
import { createHash } from "node:crypto";
import { createReadStream } from "node:fs";
import { stat } from "node:fs/promises";
import { join } from "node:path";

export interface Pointer {
  readonly sha256: string;
  readonly bytes: number;
}

/** A file this long is no pointer. */
export const SMALLEST_NO_POINTER_BYTES = 1024;

/** Larger content is not read through to see whether it is what a pointer says: a file of any length takes no room. */
export const LARGEST_POINTED_TO_BYTES = 4 * 2 ** 30;

export function pointerIn(content: Uint8Array): Pointer | undefined {
  if (content.length >= SMALLEST_NO_POINTER_BYTES) return undefined;
  const [, sha256, bytes] = POINTER.exec(new TextDecoder("latin1").decode(content)) ?? [];
  return sha256 === undefined ? undefined : { sha256, bytes: Number(bytes) };
}

const POINTER =
  /^version https:\/\/git-lfs\.github\.com\/spec\/v1\r?\n(?:[a-z0-9.-]+ .*\n)*?oid sha256:([0-9a-f]{64})\r?\nsize (\d{1,15})\r?\n/;

/**
 * The content where git keeps it on this machine, if it is there and is what the pointer says.
 * @param gitFolder that all work trees of the repository share
 */
export async function contentPointedTo(
  { sha256, bytes }: Pointer,
  gitFolder: string,
): Promise<string | undefined> {
  const path = join(gitFolder, "lfs", "objects", sha256.slice(0, 2), sha256.slice(2, 4), sha256);
  const found = await stat(path).catch(() => undefined);
  if (!found?.isFile() || found.size !== bytes || bytes > LARGEST_POINTED_TO_BYTES) return undefined;
  const hash = createHash("sha256");
  for await (const piece of createReadStream(path)) hash.update(piece as Buffer);
  return hash.digest("hex") === sha256 ? path : undefined;
}
