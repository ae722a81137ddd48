import { mkdtempSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll } from "vitest";
import { openAsciiGrid } from "../../server/terrain/ascii-file.js";
import { openGeotiff } from "../../server/terrain/geotiff-file.js";
import { openHgt } from "../../server/terrain/hgt-file.js";
import type { Raster } from "../../shared/terrain/raster.js";

/** Header and all heights of one file. */
export async function openRaster(path: string) {
  const info = statSync(path);
  const disk = { file: path, path, sizeBytes: info.size, modifiedMs: info.mtimeMs };
  const open = /\.tif$/.test(path) ? openGeotiff : /\.asc$/.test(path) ? openAsciiGrid : openHgt;
  const header = await open(disk);
  const { width, height } = header;
  const { heightsM, implausible } = await header.read({ column: 0, row: 0, width, height });
  const raster: Raster = { width, height, heightsM, placement: header.placement };
  return { header, raster, implausible };
}

/** A folder for one test file, removed afterwards. */
export function temporaryFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), "hopwright-terrain-"));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}
