/** What a design was read from, and which commit that is. */
import { existsSync, readdirSync } from "node:fs";
import { resolve } from "node:path";
import { holds, isBelow } from "../../language/model/path.js";
import type { DesignRevision } from "../../shared/design/revision.js";
import { MAP_PRODUCTS } from "../../shared/propagation/maps.js";
import { slashed } from "../files/slashed.js";
import type { JudgedDesign, JudgedFolder } from "../findings/judged-folder.js";
import { committedState } from "../git/committed.js";
import { listedPaths } from "../session/listed-files.js";
import { findRasterFiles, isRaster } from "../terrain/find-files.js";

/** @param folder that the design was judged in, with those beside it */
export async function revisionOfDesign(
  design: JudgedDesign,
  { designs }: Pick<JudgedFolder, "designs">,
): Promise<DesignRevision> {
  const { model, root } = design;
  const folders = [root, ...model.catalogues()];
  const others = designs.map((one) => one.root).filter((one) => one !== root && isBelow(one, root));
  const terrain = model.terrain().map((one) => slashed(resolve(root, one)));
  const isText = (path: string) =>
    path.endsWith(".hop") &&
    folders.some((folder) => holds(folder, path)) &&
    !others.some((other) => holds(other, path));
  return committedState(root, {
    texts: [...model.allFiles()].map(({ path }) => path),
    isOwn: (path) => holds(root, path),
    beside: await filesBeside(design),
    isWithin: (path) => [...folders, ...terrain].some((folder) => holds(folder, path)),
    isWanted: (path) =>
      isText(path) ||
      (isRaster(path) && terrain.some((folder) => isBelow(path, folder) && holds(folder, path))),
  });
}

/** Terrain, surveys, maps, and lists of others that the text names and that are there. */
async function filesBeside({ model, root }: JudgedDesign): Promise<readonly string[]> {
  const rasters = await findRasterFiles(model.terrain(), root, () => {});
  const grids = rasters.flatMap(({ path }) => withSystem(slashed(path)));
  const surveys = model.names("hop").flatMap((name) => model.hop(name)?.hop?.surveyFile ?? []);
  const maps = model.maps().flatMap((folder) => mapsIn(slashed(resolve(root, folder))));
  return [...new Set([...grids, ...surveys, ...listedPaths(model), ...maps])];
}

/** The coordinate system of a text grid stands in a file beside it. */
function withSystem(path: string): readonly string[] {
  const beside = path.replace(/\.asc$/i, ".prj");
  return beside !== path && existsSync(beside) ? [path, beside] : [path];
}

function mapsIn(folder: string): readonly string[] {
  const products = new Set(MAP_PRODUCTS.map(({ file }) => file.toLowerCase()));
  try {
    const names = readdirSync(folder).filter((name) => products.has(name.toLowerCase()));
    return names.map((name) => `${folder}/${name}`);
  } catch {
    // A folder that is not there is told with the maps.
    return [];
  }
}
