import { open, readFile } from "node:fs/promises";
import { promisify } from "node:util";
import { gunzip } from "node:zlib";
import { unzipSync } from "fflate";
import { crsOfEpsg } from "../../shared/terrain/crs.js";
import {
  decodeHgt,
  HGT_SAMPLES,
  type HgtTile,
  hgtPlacement,
  hgtSamplesOfSize,
  hgtSizeMessage,
  hgtTileOfName,
} from "../../shared/terrain/hgt.js";
import { canonicalHeights } from "../../shared/terrain/plausible.js";
import { type FileOnDisk, type RasterHeader, TerrainFileError } from "./raster-file.js";

const gunzipAsync = promisify(gunzip);

/** A small packed file may unpack to any size; more than this is no tile. */
const LARGEST_TILE_BYTES = Math.max(...HGT_SAMPLES) ** 2 * 2;

/**
 * Indexes an .hgt, .hgt.gz or zipped .hgt from its name and its unpacked size, which plain files have in their
 * directory entry, gzip in the last four bytes and zip in its first entry: a few bytes read a tile.
 */
export async function openHgt(disk: FileOnDisk): Promise<RasterHeader> {
  const packing = /\.zip$/i.test(disk.path) ? ZIP : /\.gz$/i.test(disk.path) ? GZIP : PLAIN;
  const { name, sizeBytes } = await packing.peek(disk);
  const tile: HgtTile | undefined = hgtTileOfName(name);
  if (!tile) {
    throw new TerrainFileError(
      `"${name}" does not name a tile's corner`,
      "name it like N42E001.hgt, after the south-west corner",
    );
  }
  const samples = hgtSamplesOfSize(sizeBytes);
  if (samples === undefined) {
    // A size from a place where the file should have ended means nothing: what is there is told instead.
    if (packing.sizeIsAtEnd) await packing.unpack(disk);
    throw new TerrainFileError(hgtSizeMessage(sizeBytes), "fetch the tile again");
  }
  return {
    width: samples,
    height: samples,
    placement: hgtPlacement(tile, samples),
    crs: crsOfEpsg(4326)!,
    pageWidth: samples - 1,
    pageHeight: samples - 1,
    async read() {
      const bytes = await packing.unpack(disk);
      if (hgtSamplesOfSize(bytes.byteLength) !== samples) {
        throw new TerrainFileError(hgtSizeMessage(bytes.byteLength), "fetch the tile again");
      }
      const raster = decodeHgt(bytes, tile);
      return canonicalHeights(raster.heightsM as Int16Array, { noData: -32768, scale: 1, offsetM: 0 });
    },
  };
}

interface Packing {
  /** Whether `peek` learns the size from the end of the file, which is missing when it is cut short. */
  readonly sizeIsAtEnd?: true;
  peek(disk: FileOnDisk): Promise<{ name: string; sizeBytes: number }>;
  unpack(disk: FileOnDisk): Promise<Uint8Array>;
}

const baseName = (path: string): string => path.replace(/^.*[\\/]/, "");

const PLAIN: Packing = {
  peek: async (disk) => ({ name: baseName(disk.path), sizeBytes: disk.sizeBytes }),
  unpack: (disk) => readFile(disk.path),
};

const GZIP: Packing = {
  sizeIsAtEnd: true,
  async peek(disk) {
    const end = await readAt(disk, Math.max(0, disk.sizeBytes - 4), 4);
    if (end.length < 4) throw new TerrainFileError("is empty or cut short", "fetch the tile again");
    return { name: baseName(disk.path), sizeBytes: new DataView(end.buffer).getUint32(0, true) };
  },
  async unpack(disk) {
    try {
      return await gunzipAsync(await readFile(disk.path), { maxOutputLength: LARGEST_TILE_BYTES });
    } catch (error) {
      throw new TerrainFileError(gzipCause(error), "fetch the tile again");
    }
  },
};

function gzipCause(error: unknown): string {
  switch ((error as { code?: string }).code) {
    case "Z_BUF_ERROR":
      return "is cut short: it ends before its data do";
    case "ERR_BUFFER_TOO_LARGE":
      return "holds more than a tile";
    default:
      return `is no whole gzip file (${messageOf(error)})`;
  }
}

const ZIP: Packing = {
  async peek(disk) {
    // The first entry's own header says name and size, unless the archive was written as a stream.
    const head = await readAt(disk, 0, 30 + 256);
    const view = new DataView(head.buffer, head.byteOffset, head.byteLength);
    if (head.length < 30 || view.getUint32(0, true) !== 0x04034b50) {
      throw new TerrainFileError("is no zip archive", "fetch the tile again");
    }
    const streamed = (view.getUint16(6, true) & 8) !== 0;
    const name = baseName(new TextDecoder().decode(head.subarray(30, 30 + view.getUint16(26, true))));
    if (!streamed && isTileName(name)) return { name, sizeBytes: view.getUint32(22, true) };
    let found: { name: string; sizeBytes: number } | undefined;
    unzipGuarded(await readFile(disk.path), (file) => {
      if (!found && isTileName(baseName(file.name))) {
        found = { name: baseName(file.name), sizeBytes: file.originalSize };
      }
      return false;
    });
    if (!found)
      throw new TerrainFileError("holds no .hgt tile", "unpack it if it holds a raster of another kind");
    return found;
  },
  async unpack(disk) {
    let taken = false;
    const files = unzipGuarded(await readFile(disk.path), (file) => {
      const isTile = isTileName(baseName(file.name)) && hgtSamplesOfSize(file.originalSize) !== undefined;
      const take = !taken && isTile;
      taken ||= take;
      return take;
    });
    const bytes = Object.values(files)[0];
    if (!bytes) throw new TerrainFileError("holds no .hgt tile", "fetch the tile again");
    return bytes;
  },
};

const isTileName = (name: string): boolean => /\.hgt$/i.test(name);

type ZipEntry = { name: string; originalSize: number };

function unzipGuarded(bytes: Uint8Array, filter: (entry: ZipEntry) => boolean): Record<string, Uint8Array> {
  try {
    return unzipSync(bytes, { filter });
  } catch (error) {
    throw new TerrainFileError(`zip: ${messageOf(error)}`, "fetch the tile again");
  }
}

async function readAt(disk: FileOnDisk, offset: number, length: number): Promise<Uint8Array> {
  const handle = await open(disk.path, "r");
  try {
    const buffer = new Uint8Array(length);
    const { bytesRead } = await handle.read(buffer, 0, length, offset);
    return buffer.slice(0, bytesRead);
  } finally {
    await handle.close();
  }
}

const messageOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));
