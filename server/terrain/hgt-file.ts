import { promisify } from "node:util";
import { gunzip } from "node:zlib";
import { crsOfEpsg } from "../../shared/terrain/crs.js";
import {
  decodeHgtRows,
  HGT_SAMPLES,
  type HgtTile,
  hgtPlacement,
  hgtSamplesOfSize,
  hgtSizeMessage,
  hgtTileOfName,
} from "../../shared/terrain/hgt.js";
import { canonicalHeights } from "../../shared/terrain/plausible.js";
import { readBounded } from "../files/read-bounded.js";
import { checkLocalName, DIRECTORY_BYTES, unzipEntry, type ZipEntry, zipEntries } from "../files/zip.js";
import { type FileOnDisk, type RasterHeader, readAt, TerrainFileError } from "./raster-file.js";

const gunzipAsync = promisify(gunzip);

/** A small packed file may unpack to any size; more than this is no tile. */
const LARGEST_TILE_BYTES = Math.max(...HGT_SAMPLES) ** 2 * 2;
/**
 * So many samples of a plain tile are read at once: a hop lies in a small part of a tile of 1 arc second. One of 3 arc
 * seconds is read whole.
 */
const PAGE_SAMPLES = 3 * 2 ** 19;
/** A packed tile is no larger than a tile, but for what stands beside it. */
const LARGEST_PACKED_BYTES = 2 * LARGEST_TILE_BYTES;

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
    if (packing.sizeIsAtEnd) await packing.unpack?.(disk);
    throw new TerrainFileError(hgtSizeMessage(sizeBytes), "fetch the tile again");
  }
  return {
    width: samples,
    height: samples,
    placement: hgtPlacement(tile, samples),
    crs: crsOfEpsg(4326)!,
    pageWidth: samples - 1,
    // What is packed is unpacked whole; of a plain file the rows are read that are asked for.
    pageHeight: packing.unpack ? samples - 1 : Math.floor(PAGE_SAMPLES / samples),
    async read({ row, height }) {
      const bytes = packing.unpack
        ? wholeOf(await packing.unpack(disk), samples)
        : await rowsOf(disk, samples, row, height);
      return canonicalHeights(decodeHgtRows(bytes), { noData: -32768, scale: 1, offsetM: 0 });
    },
  };
}

function wholeOf(bytes: Uint8Array, samples: number): Uint8Array {
  if (hgtSamplesOfSize(bytes.byteLength) === samples) return bytes;
  throw new TerrainFileError(hgtSizeMessage(bytes.byteLength), "fetch the tile again");
}

async function rowsOf(disk: FileOnDisk, samples: number, row: number, rows: number): Promise<Uint8Array> {
  const from = row * samples * 2;
  const bytes = await readAt(disk, from, rows * samples * 2);
  if (bytes.byteLength === rows * samples * 2) return bytes;
  // It was whole when it was looked at.
  throw new TerrainFileError(hgtSizeMessage(from + bytes.byteLength), "fetch the tile again");
}

interface Packing {
  /** Whether `peek` learns the size from the end of the file, which is missing when it is cut short. */
  readonly sizeIsAtEnd?: true;
  peek(disk: FileOnDisk): Promise<{ name: string; sizeBytes: number }>;
  /** Undefined: nothing has to be. */
  unpack?(disk: FileOnDisk): Promise<Uint8Array>;
}

const baseName = (path: string): string => path.replace(/^.*[\\/]/, "");

const PLAIN: Packing = {
  peek: async (disk) => ({ name: baseName(disk.path), sizeBytes: disk.sizeBytes }),
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
      return await gunzipAsync(await readBounded(disk.path, LARGEST_PACKED_BYTES), {
        maxOutputLength: LARGEST_TILE_BYTES,
      });
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
    const from = Math.max(0, disk.sizeBytes - DIRECTORY_BYTES);
    const tile = tileIn(await readAt(disk, from, disk.sizeBytes - from), from);
    const header = await readAt(disk, tile.headerAt, 30 + Buffer.byteLength(tile.name));
    inZip(() => checkLocalName(header, tile));
    return { name: baseName(tile.name), sizeBytes: tile.sizeBytes };
  },
  async unpack(disk) {
    const bytes = await readBounded(disk.path, LARGEST_PACKED_BYTES);
    return inZip(() => unzipEntry(bytes, tileIn(bytes, 0), LARGEST_TILE_BYTES));
  },
};

/** The first tile of a whole size in the archive; else the first of any size, whose size is told. */
function tileIn(end: Uint8Array, startsAt: number): ZipEntry {
  const tiles = inZip(() => zipEntries(end, startsAt)).filter(({ name }) => isTileName(baseName(name)));
  const tile = tiles.find(({ sizeBytes }) => hgtSamplesOfSize(sizeBytes) !== undefined) ?? tiles[0];
  if (!tile)
    throw new TerrainFileError("holds no .hgt tile", "unpack it if it holds a raster of another kind");
  return tile;
}

const isTileName = (name: string): boolean => /\.hgt$/i.test(name);

function inZip<T>(read: () => T): T {
  try {
    return read();
  } catch (error) {
    throw new TerrainFileError(messageOf(error), "fetch the tile again");
  }
}

const messageOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));
