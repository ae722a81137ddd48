import { open } from "node:fs/promises";
import type { Crs } from "../../shared/terrain/crs.js";
import type { CanonicalHeights } from "../../shared/terrain/plausible.js";
import type { Placement } from "../../shared/terrain/raster.js";

/** A file on disk that may hold heights. */
export interface FileOnDisk {
  /** As it is printed: relative to the project where possible. */
  readonly file: string;
  readonly path: string;
  readonly sizeBytes: number;
  readonly modifiedMs: number;
}

/** A rectangle of pixels. */
export interface PixelWindow {
  readonly column: number;
  readonly row: number;
  readonly width: number;
  readonly height: number;
}

/** What the header of a raster file tells, and how to get at its heights. */
export interface RasterHeader {
  readonly width: number;
  readonly height: number;
  readonly placement: Placement;
  readonly crs: Crs;
  /**
   * Heights are read and kept in pages of this size, so that a huge raster need not be held whole. Neighbouring
   * pages share their edge pixels, so that no bilinear cell lies across two pages.
   */
  readonly pageWidth: number;
  readonly pageHeight: number;
  /** @throws Error with one line: what is wrong and what helps */
  read(window: PixelWindow): Promise<CanonicalHeights>;
}

/** A fault of a file, to be shown as "path: cause; remedy". */
export class TerrainFileError extends Error {
  constructor(cause: string, remedy: string) {
    super(`${cause}; ${remedy}`);
  }
}

/** Some bytes of a file; fewer where it ends before. */
export async function readAt(disk: FileOnDisk, offset: number, length: number): Promise<Uint8Array> {
  const handle = await open(disk.path, "r");
  try {
    // Of its own, as decoders lay numbers over it, and not filled before it is read into.
    const buffer = new Uint8Array(Buffer.allocUnsafeSlow(length).buffer);
    const { bytesRead } = await handle.read(buffer, 0, length, offset);
    return bytesRead === length ? buffer : buffer.slice(0, bytesRead);
  } finally {
    await handle.close();
  }
}
