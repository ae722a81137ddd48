/** Files of an archive that is a list: what they come to is summed from the directory before one of them is unpacked. */
import { unzipEntry, type ZipEntry, zipEntries } from "../../files/zip.js";
import { MOST_UNPACKED_BYTES, UnfitList } from "./bounds.js";

export class ZipParts {
  private readonly entries: ReadonlyMap<string, ZipEntry>;
  private left = MOST_UNPACKED_BYTES;

  /** @throws UnfitList where it is no archive, or comes to more than is unpacked */
  constructor(private readonly bytes: Uint8Array) {
    const entries = guarded(() => zipEntries(bytes));
    const total = entries.reduce((sum, { sizeBytes }) => sum + sizeBytes, 0);
    if (total > MOST_UNPACKED_BYTES)
      throw new UnfitList(
        `it unpacks to ${Math.ceil(total / 2 ** 20)} MB, more than the ${MOST_UNPACKED_BYTES / 2 ** 20} MB that a list may have`,
      );
    this.entries = new Map(entries.map((entry) => [entry.name, entry]));
  }

  get names(): readonly string[] {
    return [...this.entries.keys()];
  }

  /** @returns undefined where there is no such file @throws UnfitList where it cannot be unpacked */
  read(name: string): Uint8Array | undefined {
    const entry = this.entries.get(name);
    if (!entry) return undefined;
    const content = guarded(() => unzipEntry(this.bytes, entry, this.left));
    this.left -= content.length;
    return content;
  }
}

function guarded<T>(read: () => T): T {
  try {
    return read();
  } catch (error) {
    throw new UnfitList(`it ${error instanceof Error ? error.message : String(error)}`);
  }
}
