/**
 * Real terrain for the tests. The rasters themselves are not part of the repository; the heights along the paths of the
 * check values are, as figures with their source (tests/vectors/terrain/strips.json), and files made of them stand in
 * for the rasters wherever there are none.
 */
import { existsSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, resolve } from "node:path";
import { gzipSync } from "node:zlib";
import { zipSync } from "fflate";
import { afterAll } from "vitest";
import { pathPoints } from "../../shared/terrain/path.js";
import { projectionOf } from "../../shared/terrain/projection.js";
import { pixelTransform } from "../../shared/terrain/raster.js";
import { openRaster } from "../terrain/support.js";
import { tiff } from "../terrain/tiff.js";
import { loadVectors } from "./vectors.js";

/** Where the rasters are; undefined: they are not on this machine. */
const WHOLE = resolve(process.env.HOPWRIGHT_TERRAIN ?? join(import.meta.dirname, "../../../shared/terrain"));
export const wholeTerrain = existsSync(join(WHOLE, "N42E001.hgt")) ? WHOLE : undefined;

/** Ends of a path over some rasters, degrees. */
export interface RasterPath {
  readonly rasters: readonly string[];
  readonly lat1: number;
  readonly lon1: number;
  readonly lat2: number;
  readonly lon2: number;
  readonly lengthM: number;
}

/** Row, column, then the heights from there to the east, m; null: void. */
type Run = readonly [row: number, column: number, ...heightM: (number | null)[]];

interface Strip {
  readonly file: string;
  readonly width: number;
  readonly height: number;
  readonly runs: readonly Run[];
}

/** So close, and so far beside it, that no pixel is missed whose corner a path cuts, wherever it is sampled. */
const STEP_M = 0.2;
const BESIDE_PIXELS = 0.05;

/** The heights that any sampling of these paths can ask for: the four around each point. */
export async function stripsOf(folder: string, paths: readonly RasterPath[]): Promise<readonly Strip[]> {
  const files = [...new Set(paths.flatMap(({ rasters }) => rasters))];
  return Promise.all(
    files.map(async (file) => {
      const { raster, header } = await openRaster(join(folder, file));
      const to = pixelTransform(raster.placement);
      const { forward } = projectionOf(header.crs);
      const cells = new Set<number>();
      for (const { rasters, lat1, lon1, lat2, lon2, lengthM } of paths) {
        if (!rasters.includes(file)) continue;
        const intervals = Math.ceil(lengthM / STEP_M);
        const ends = [
          { latitudeDeg: lat1, longitudeDeg: lon1 },
          { latitudeDeg: lat2, longitudeDeg: lon2 },
        ] as const;
        const { latitudeDeg, longitudeDeg, count } = pathPoints(...ends, intervals);
        for (let i = 0; i < count; i++) {
          const [x, y] = forward(longitudeDeg[i]!, latitudeDeg[i]!);
          const column = to.column0 + x * to.columnPerX + y * to.columnPerY;
          const row = to.row0 + x * to.rowPerX + y * to.rowPerY;
          for (const r of around(row))
            for (const c of around(column))
              if (r >= 0 && c >= 0 && r < raster.height && c < raster.width) cells.add(r * raster.width + c);
        }
      }
      const heightAt = (cell: number) => {
        const heightM = raster.heightsM[cell]!;
        return Number.isNaN(heightM) || heightM === -32768 ? null : Number(heightM.toFixed(3));
      };
      return {
        file,
        width: raster.width,
        height: raster.height,
        runs: runsOf(cells, raster.width, heightAt),
      };
    }),
  );
}

/** Rows or columns on both sides. */
function around(at: number): readonly number[] {
  const [from, to] = [Math.floor(at - BESIDE_PIXELS), Math.ceil(at + BESIDE_PIXELS)];
  return Array.from({ length: to - from + 1 }, (_, i) => from + i);
}

function runsOf(
  cells: ReadonlySet<number>,
  width: number,
  heightAt: (cell: number) => number | null,
): readonly Run[] {
  const runs: [number, number, ...(number | null)[]][] = [];
  let before = Number.NaN;
  for (const cell of [...cells].sort((a, b) => a - b)) {
    if (cell !== before + 1 || cell % width === 0) runs.push([Math.floor(cell / width), cell % width]);
    runs.at(-1)!.push(heightAt(cell));
    before = cell;
  }
  return runs;
}

/** The file of strips as it is written. */
export function stripsText(about: object, strips: readonly Strip[]): string {
  const files = strips.map(({ runs, ...rest }) => {
    const lines = runs.map((run) => `    ${JSON.stringify(run)}`).join(",\n");
    return `  { ${JSON.stringify(rest).slice(1, -1)}, "runs": [\n${lines}\n  ] }`;
  });
  return `${JSON.stringify(about, null, 2).slice(0, -2)},\n"files": [\n${files.join(",\n")}\n] }\n`;
}

/** Folders with terrain, and what they hold: of strips always, and of whole rasters where there are some. */
export function terrainFolders(): readonly (readonly [what: string, folder: string])[] {
  const strips = ["strips of real terrain", terrainOfStrips()] as const;
  return wholeTerrain === undefined ? [strips] : [strips, ["real terrain", wholeTerrain]];
}

/**
 * A folder with the rasters of the check values, removed afterwards: as large as they are and placed as they are, with the
 * heights along the paths and voids in all other places.
 */
function terrainOfStrips(): string {
  const folder = mkdtempSync(join(tmpdir(), "hopwright-strips-"));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  const { files } = loadVectors<{ readonly files: readonly Strip[] }>("terrain/strips.json");
  const { files: known } = loadVectors<{ readonly files: readonly Content[] }>("terrain/contents.json");
  for (const strip of files) {
    const path = join(folder, strip.file);
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, fileOf(strip, known.find(({ file }) => file === strip.file)!));
  }
  return folder;
}

interface Content {
  readonly file: string;
  readonly sampleType: string;
  readonly noData: number | null;
  readonly rasterType: "Area" | "Point" | null;
  readonly firstPixelCentre: { readonly x: number; readonly y: number };
  readonly pixelSize: { readonly x: number; readonly y: number };
}

/** Of those that are not in degrees. */
const SYSTEMS: Readonly<Record<string, number>> = {
  "geotiff/alps-utm32-float32.tif": 32632,
  "geotiff/alps-lv95-int16-lzw-strips.tif": 2056,
  "geotiff/surface-1m-utm32-float32.tif": 25832,
};

function fileOf(strip: Strip, content: Content): Uint8Array {
  const { file, width, height, runs } = strip;
  const noData = file.includes(".hgt") ? -32768 : (content.noData ?? -9999);
  const values = new Float32Array(width * height).fill(noData);
  for (const [row, column, ...heights] of runs)
    heights.forEach((heightM, i) => {
      values[row * width + column + i] = heightM ?? noData;
    });
  if (!file.includes(".hgt")) return geotiffOf(strip, content, values, noData);
  const bytes = new Uint8Array(2 * values.length);
  const view = new DataView(bytes.buffer);
  values.forEach((value, i) => {
    view.setInt16(2 * i, value, false);
  });
  if (file.endsWith(".gz")) return gzipSync(bytes);
  return file.endsWith(".zip") ? zipSync({ [file.slice(0, -".zip".length)]: bytes }) : bytes;
}

function geotiffOf(
  { file, width, height }: Strip,
  { sampleType, rasterType, firstPixelCentre, pixelSize }: Content,
  values: Float32Array,
  noData: number,
): Uint8Array {
  const system = SYSTEMS[file];
  const isArea = rasterType === "Area";
  // Printed to a billionth of a degree, of which the last pixel of a tile would have a thousandth of its size.
  const size = (printed: number) => (system === undefined ? 1 / Math.round(1 / printed) : printed);
  const [across, down] = [size(pixelSize.x), size(-pixelSize.y)];
  return tiff({
    width,
    height,
    values,
    type: sampleType === "Float32" ? "float32" : "int16",
    deflate: true,
    scale: [across, down],
    tie: isArea
      ? [firstPixelCentre.x - across / 2, firstPixelCentre.y + down / 2]
      : [firstPixelCentre.x, firstPixelCentre.y],
    keys: [
      [1024, system === undefined ? 2 : 1],
      [1025, isArea ? 1 : 2],
      system === undefined ? [2048, 4326] : [3072, system],
    ],
    noData: String(noData),
  });
}
