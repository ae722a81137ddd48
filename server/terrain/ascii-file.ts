import { open, readFile } from "node:fs/promises";
import { parseAsciiGridBody, parseAsciiGridHeader } from "../../shared/terrain/ascii-grid.js";
import { type Crs, crsOfWkt } from "../../shared/terrain/crs.js";
import { canonicalHeights } from "../../shared/terrain/plausible.js";
import { projectionOf } from "../../shared/terrain/projection.js";
import { type FileOnDisk, type RasterHeader, TerrainFileError } from "./raster-file.js";

/** Indexes an ESRI ASCII grid from its header lines and the .prj file beside it. */
export async function openAsciiGrid(disk: FileOnDisk): Promise<RasterHeader> {
  const head = await readHead(disk.path);
  const header = parse(() => parseAsciiGridHeader(head), "write the grid again");
  const crs = await crsBeside(disk.path);
  return {
    width: header.width,
    height: header.height,
    placement: header.placement,
    crs,
    pageWidth: header.width - 1,
    pageHeight: header.height - 1,
    async read() {
      const bytes = await readFile(disk.path);
      const stored = parse(() => parseAsciiGridBody(bytes, header), "write the grid again");
      return canonicalHeights(stored, { noData: header.noData, scale: 1, offsetM: 0 });
    },
  };
}

async function crsBeside(path: string): Promise<Crs> {
  const stem = path.replace(/\.[^.\\/]*$/, "");
  let text: string | undefined;
  for (const ending of [".prj", ".PRJ"])
    text ??= await readFile(stem + ending, "utf8").catch(() => undefined);
  if (text === undefined) {
    throw new TerrainFileError(
      "there is no .prj file beside it, so its coordinate system is unknown",
      "put the .prj with the same name beside it",
    );
  }
  return parse(
    () => {
      const crs = crsOfWkt(text);
      projectionOf(crs);
      return crs;
    },
    "give it a .prj in a known system",
    "its .prj ",
  );
}

async function readHead(path: string): Promise<Uint8Array> {
  const handle = await open(path, "r");
  try {
    const buffer = new Uint8Array(4096);
    const { bytesRead } = await handle.read(buffer, 0, buffer.length, 0);
    return buffer.subarray(0, bytesRead);
  } finally {
    await handle.close();
  }
}

function parse<T>(read: () => T, remedy: string, before = ""): T {
  try {
    return read();
  } catch (error) {
    throw new TerrainFileError(before + (error instanceof Error ? error.message : String(error)), remedy);
  }
}
