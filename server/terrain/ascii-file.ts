import { parseAsciiGridBody, parseAsciiGridHeader } from "../../shared/terrain/ascii-grid.js";
import { type Crs, crsOfWkt } from "../../shared/terrain/crs.js";
import { canonicalHeights } from "../../shared/terrain/plausible.js";
import { projectionOf } from "../../shared/terrain/projection.js";
import { readBounded } from "../files/read-bounded.js";
import { type FileOnDisk, type RasterHeader, readAt, TerrainFileError } from "./raster-file.js";

/** Indexes an ESRI ASCII grid from its header lines and the .prj file beside it. */
export async function openAsciiGrid(disk: FileOnDisk): Promise<RasterHeader> {
  const head = await readAt(disk, 0, 4096);
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
      const bytes = await readBounded(disk.path, LARGEST_GRID_BYTES);
      const stored = parse(() => parseAsciiGridBody(bytes, header), "write the grid again");
      return canonicalHeights(stored, { noData: header.noData, scale: 1, offsetM: 0 });
    },
  };
}

/** 200 million heights of ten characters. */
const LARGEST_GRID_BYTES = 2_000_000_000;
const LARGEST_PRJ_BYTES = 2 ** 16;

async function crsBeside(path: string): Promise<Crs> {
  const stem = path.replace(/\.[^.\\/]*$/, "");
  let text: string | undefined;
  for (const ending of [".prj", ".PRJ"])
    text ??= await readBounded(stem + ending, LARGEST_PRJ_BYTES)
      .then((bytes) => new TextDecoder().decode(bytes))
      .catch(() => undefined);
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

function parse<T>(read: () => T, remedy: string, before = ""): T {
  try {
    return read();
  } catch (error) {
    throw new TerrainFileError(before + (error instanceof Error ? error.message : String(error)), remedy);
  }
}
