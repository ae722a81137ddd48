import { open } from "node:fs/promises";
import type { GeoTIFF, GeoTIFFImage, Pool } from "geotiff";
import { canonicalHeights, type StoredHeights } from "../../shared/terrain/plausible.js";
import { decimal } from "../../shared/units/decimal.js";
import { geotiffCrs, geotiffPlacement, geotiffUnitScale } from "./geotiff-keys.js";
import { type FileOnDisk, type PixelWindow, type RasterHeader, TerrainFileError } from "./raster-file.js";
import { boundedBlocks } from "./tiff-blocks.js";

/** Rasters up to this many pixels are held whole; larger ones in pages. */
const WHOLE_PIXELS = 16_000_000;
const PAGE_PIXELS = 1024;
const DAMAGED = "fetch the file again or write it anew";

/** Indexes a GeoTIFF from its first directory (the full resolution; overviews are not used). */
export async function openGeotiff(disk: FileOnDisk): Promise<RasterHeader> {
  return withImage(disk, async (image) => {
    const width = image.getWidth();
    const height = image.getHeight();
    if (width < 2 || height < 2) {
      throw new TerrainFileError(`${width} x ${height} pixels cannot be sampled`, "2 x 2 is the least");
    }
    refusePictures(image);
    const placement = geotiffPlacement(
      await tag(image, "ModelPixelScale"),
      await tag(image, "ModelTiepoint"),
      await tag(image, "ModelTransformation"),
      image.getGeoKeys(),
    );
    const crs = geotiffCrs(image.getGeoKeys());
    const whole = width * height <= WHOLE_PIXELS;
    // A page of a raster in strips is as wide as the raster, or each strip would be decoded once a page.
    const pageWidth = whole || !image.isTiled ? width - 1 : PAGE_PIXELS;
    const pageHeight = whole ? height - 1 : Math.max(64, Math.floor(PAGE_PIXELS ** 2 / pageWidth));
    return {
      width,
      height,
      placement,
      crs,
      pageWidth,
      pageHeight,
      read: (window) => readHeights(disk, window),
    };
  });
}

async function readHeights(disk: FileOnDisk, window: PixelWindow) {
  return withImage(disk, async (image, tiff) => {
    const noData = await noDataOf(image);
    await refuseMissingBlocks(image, disk.sizeBytes, noData);
    const [stored] = await image.readRasters({
      samples: [0],
      window: [window.column, window.row, window.column + window.width, window.row + window.height],
      pool: boundedBlocks(tiff.littleEndian) as unknown as Pool,
    });
    const metadata = await image.getGDALMetadata(0).catch(() => null);
    const scale = stated("SCALE", metadata?.SCALE) ?? 1;
    const offset = stated("OFFSET", metadata?.OFFSET) ?? 0;
    const unit = geotiffUnitScale(image.getGeoKeys(), metadata?.UNITTYPE);
    return canonicalHeights(stored as StoredHeights, { noData, scale: scale * unit, offsetM: offset * unit });
  });
}

/** Opens the file for the time of one task; a few hundred open files would exhaust the system's limit. */
async function withImage<T>(
  disk: FileOnDisk,
  task: (image: GeoTIFFImage, tiff: GeoTIFF) => Promise<T>,
): Promise<T> {
  // Loaded where the first GeoTIFF is met: projects with .hgt tiles only need not pay for it.
  const { GeoTIFF: Library } = await import("geotiff");
  const handle = await open(disk.path, "r");
  try {
    // The library's own file source hands out zeros past the end of a file cut short; this one comes up short instead.
    const fetchSlice = async ({
      offset,
      length,
    }: {
      offset: number;
      length: number;
    }): Promise<ArrayBuffer> => {
      const buffer = new Uint8Array(Math.max(0, Math.min(length, disk.sizeBytes - offset)));
      const { bytesRead } = await handle.read(buffer, 0, buffer.length, offset);
      return buffer.buffer.slice(0, bytesRead);
    };
    const source = {
      fetch: (slices: { offset: number; length: number }[]) => Promise.all(slices.map(fetchSlice)),
      fileSize: disk.sizeBytes,
      close: async () => {},
    };
    const tiff = await Library.fromSource(source as unknown as Parameters<typeof Library.fromSource>[0]);
    return await task(await tiff.getImage(0), tiff);
  } catch (error) {
    throw error instanceof TerrainFileError ? error : explained(error);
  } finally {
    await handle.close();
  }
}

function explained(error: unknown): TerrainFileError {
  const text = (error instanceof Error ? error.message : String(error)).split("\n")[0]!;
  if (/compression method identifier/.test(text)) {
    const method = /\d+/.exec(text)?.[0] ?? "of an unknown kind";
    return new TerrainFileError(`compression ${method} cannot be read`, "write it anew with DEFLATE or LZW");
  }
  if (/byte order|magic number/i.test(text)) return new TerrainFileError("is no TIFF", DAMAGED);
  // The library's words of what it stumbled over serve nobody where it stumbled over a fault of its own.
  const detail = /undefined|null|NaN|is not |invalid array/i.test(text) ? "" : ` (${text})`;
  return new TerrainFileError(`damaged or cut short${detail}`, DAMAGED);
}

function refusePictures(image: GeoTIFFImage): void {
  const photometric = image.fileDirectory.getValue("PhotometricInterpretation");
  if (photometric !== undefined && photometric > 1) {
    throw new TerrainFileError("is a picture, no raster of heights", "move it out of the terrain folder");
  }
  if (image.getBitsPerSample() < 16) {
    throw new TerrainFileError(
      `has ${image.getBitsPerSample()} bits a pixel: a picture, no raster of heights`,
      "move it out of the terrain folder",
    );
  }
}

/** A block past the end, or never written, must not pass for heights of zero. */
async function refuseMissingBlocks(
  image: GeoTIFFImage,
  sizeBytes: number,
  noData: number | undefined,
): Promise<void> {
  const kind = image.isTiled ? "Tile" : "Strip";
  const offsets = await numbers(image, `${kind}Offsets`);
  const byteCounts = await numbers(image, `${kind}ByteCounts`);
  const across = image.isTiled ? Math.ceil(image.getWidth() / image.getTileWidth()) : 1;
  const down = Math.ceil(image.getHeight() / image.getTileHeight());
  const planes = (await tag(image, "PlanarConfiguration")) === 2 ? image.getSamplesPerPixel() : 1;
  const blocks = across * down * planes;
  if (offsets.length !== blocks || byteCounts.length !== blocks) {
    throw new TerrainFileError("has no complete table of its blocks", DAMAGED);
  }
  for (let i = 0; i < offsets.length; i++) {
    const end = offsets[i]! + byteCounts[i]!;
    if (end > sizeBytes) {
      throw new TerrainFileError(`is cut short: block ${i + 1} ends at byte ${end} of ${sizeBytes}`, DAMAGED);
    }
    if (byteCounts[i] === 0 && noData === undefined) {
      throw new TerrainFileError("has empty blocks but declares no nodata value", "declare the nodata value");
    }
  }
}

async function noDataOf(image: GeoTIFFImage): Promise<number | undefined> {
  const text = String((await tag(image, "GDAL_NODATA")) ?? "")
    .replace(/[\0\s]+$/g, "")
    .trim();
  if (text === "") return undefined;
  const integers = image.getSampleFormat(0) !== 3;
  if (/^[-+]?nan$/i.test(text)) return integers ? undefined : Number.NaN;
  return decimal(text);
}

type TagName = Parameters<GeoTIFFImage["fileDirectory"]["loadValue"]>[0];

async function tag(image: GeoTIFFImage, name: TagName): Promise<unknown> {
  return image.fileDirectory.hasTag(name as never) ? image.fileDirectory.loadValue(name) : undefined;
}

async function numbers(image: GeoTIFFImage, name: TagName): Promise<number[]> {
  const value = await tag(image, name);
  return value === undefined ? [] : Array.from(value as Iterable<number | bigint>, Number);
}

/** What the metadata state of the heights; where it can't be read the heights are not known, and none is guessed. */
function stated(name: string, text: unknown): number | undefined {
  if (text === undefined || text === null) return undefined;
  const value = decimal(String(text).trim());
  if (value === undefined || (name === "SCALE" && value === 0))
    throw new TerrainFileError(
      `states "${String(text).slice(0, 20)}" as the ${name} of its heights`,
      "correct its metadata",
    );
  return value;
}
