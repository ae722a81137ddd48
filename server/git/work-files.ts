/**
 * Whether a file lies in the work tree as a commit has it. Git would ask its filters, which are programs; here the file
 * is read. In text a line end of Windows counts as one of Unix, whatever attributes and configuration say of it: a
 * design reads the same with both.
 */
import { createHash } from "node:crypto";
import { createReadStream, type Stats } from "node:fs";
import { readFile, stat } from "node:fs/promises";
import { LARGEST_POINTED_TO_BYTES, pointerIn, SMALLEST_NO_POINTER_BYTES } from "./large-file.js";

/** Reading text whole takes as much memory. */
export const LARGEST_TEXT_BYTES = 512 * 2 ** 20;

/** An object of a commit. */
export interface Kept {
  readonly object: string;
  readonly bytes: number;
  content(): Promise<Buffer>;
}

/** Files read before are not read again while their time and size stay. */
export class WorkFiles {
  private readonly known = new Map<string, Promise<string>>();

  /** @param path absolute */
  async isAs(path: string, kept: Kept): Promise<boolean> {
    const found = await stat(path).catch(() => undefined);
    if (!found?.isFile()) return false;
    const algorithm = kept.object.length === 64 ? "sha256" : "sha1";
    if (found.size === kept.bytes && (await this.objectName(path, found, algorithm)) === kept.object)
      return true;
    if (kept.bytes < SMALLEST_NO_POINTER_BYTES && (await this.isPointedTo(path, found, kept))) return true;
    return isText(path) && this.isSameText(path, found, kept);
  }

  private objectName(path: string, { size, mtimeMs }: Stats, algorithm: "sha1" | "sha256"): Promise<string> {
    return this.once(`${algorithm} ${size} ${mtimeMs} ${path}`, () =>
      digest(path, algorithm, `blob ${size}\0`),
    );
  }

  private async isSameText(path: string, found: Stats, { bytes, content }: Kept): Promise<boolean> {
    if (Math.max(found.size, bytes) > LARGEST_TEXT_BYTES) return false;
    const [here, there] = [withUnixLineEnds(await readFile(path)), withUnixLineEnds(await content())];
    return here.equals(there);
  }

  /** Large files are kept elsewhere by a filter of git; the object names what they hold. */
  private async isPointedTo(path: string, { size, mtimeMs }: Stats, { content }: Kept): Promise<boolean> {
    const pointer = pointerIn(await content());
    if (pointer?.bytes !== size || size > LARGEST_POINTED_TO_BYTES) return false;
    const plain = this.once(`plain ${size} ${mtimeMs} ${path}`, () => digest(path, "sha256", ""));
    return (await plain) === pointer.sha256;
  }

  private once(key: string, work: () => Promise<string>): Promise<string> {
    let known = this.known.get(key);
    if (!known) this.known.set(key, (known = work()));
    return known;
  }
}

/** Surveys, text grids and what places them, designs. */
function isText(path: string): boolean {
  return /\.(hop|csv|txt|asc|prj)$/i.test(path);
}

function withUnixLineEnds(bytes: Buffer): Buffer {
  return bytes.includes("\r\n")
    ? Buffer.from(bytes.toString("latin1").replaceAll("\r\n", "\n"), "latin1")
    : bytes;
}

async function digest(path: string, algorithm: "sha1" | "sha256", before: string): Promise<string> {
  const hash = createHash(algorithm).update(before);
  for await (const piece of createReadStream(path, { highWaterMark: 2 ** 20 })) hash.update(piece as Buffer);
  return hash.digest("hex");
}
