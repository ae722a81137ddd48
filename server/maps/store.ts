/** The user's own copies of the ITU-R maps: found by name in the folders of the design, read when first needed. */
import { readdir, stat } from "node:fs/promises";
import { join, relative, resolve } from "node:path";
import type { MapReading } from "../../shared/evaluate/path/ground.js";
import {
  type AnyMapFact,
  MAP_PRODUCTS,
  type MapProduct,
  mapValue,
  readMap,
} from "../../shared/propagation/maps.js";
import type { MapGrid } from "../../shared/propagation/p1144.js";
import { reasonOf } from "../files/hop-files.js";
import { readBounded } from "../files/read-bounded.js";
import { slashed } from "../files/slashed.js";

interface MapProblem {
  readonly file: string;
  /** One line: cause; remedy. */
  readonly message: string;
}

export interface MapStore {
  /** What the maps say at a place, of the facts asked for; those without a usable map are not among them. */
  readings<Fact extends AnyMapFact>(
    at: { readonly latitudeDeg: number; readonly longitudeDeg: number },
    facts: readonly Fact[],
  ): Promise<MapReading<Fact>[]>;
  /** Folders and files that cannot be used. */
  readonly problems: readonly MapProblem[];
  /** Looks at the folders again; true when a map file came, went or changed. */
  refresh(): Promise<boolean>;
}

interface FoundMap {
  readonly product: MapProduct;
  readonly path: string;
  readonly file: string;
  readonly modifiedMs: number;
  /** Kept once read; undefined when the file cannot be used. */
  grid?: Promise<MapGrid | undefined>;
}

/** The largest of the maps has 40 MB. */
const LARGEST_MAP_BYTES = 256 * 2 ** 20;

/** @param baseDir what names of files are printed relative to */
export async function openMaps(folders: readonly string[], baseDir: string): Promise<MapStore> {
  let folderProblems: MapProblem[] = [];
  const fileProblems = new Map<string, MapProblem>();
  let maps = new Map<AnyMapFact, FoundMap>();
  const shown = (path: string) => {
    const short = relative(baseDir, path);
    return slashed(short.startsWith("..") || short === "" ? path : short);
  };

  async function find(): Promise<Map<AnyMapFact, FoundMap>> {
    folderProblems = [];
    const found = new Map<AnyMapFact, FoundMap>();
    for (const folder of folders.map((one) => resolve(baseDir, one))) {
      const names = await readdir(folder).catch(() => undefined);
      if (names === undefined) {
        folderProblems.push({ file: shown(folder), message: "no such folder; mend the `maps` line" });
        continue;
      }
      for (const product of MAP_PRODUCTS) {
        const name = names.find((one) => one.toLowerCase() === product.file.toLowerCase());
        if (name === undefined || found.has(product.fact)) continue;
        const path = join(folder, name);
        const { mtimeMs } = await stat(path).catch(() => ({ mtimeMs: 0 }));
        found.set(product.fact, { product, path, file: shown(path), modifiedMs: mtimeMs });
      }
    }
    return found;
  }

  async function read(map: FoundMap): Promise<MapGrid | undefined> {
    const result = await readBounded(map.path, LARGEST_MAP_BYTES).then(
      (bytes) => readMap(map.product, new TextDecoder("latin1").decode(bytes)),
      (error: unknown) => ({ ok: false as const, reason: reasonOf(error) }),
    );
    if (result.ok) return result.grid;
    fileProblems.set(map.path, { file: map.file, message: `${result.reason}; the map is not used` });
    return undefined;
  }

  maps = await find();
  return {
    async readings<Fact extends AnyMapFact>(
      { latitudeDeg, longitudeDeg }: { readonly latitudeDeg: number; readonly longitudeDeg: number },
      facts: readonly Fact[],
    ) {
      const readings: MapReading<Fact>[] = [];
      for (const fact of facts) {
        const map = maps.get(fact);
        if (map === undefined) continue;
        const grid = await (map.grid ??= read(map));
        const value = grid && mapValue(map.product, grid, latitudeDeg, longitudeDeg);
        if (value === undefined) continue;
        const day = new Date(map.modifiedMs).toISOString().slice(0, 10);
        readings.push({
          fact,
          value,
          origin: "map",
          from: { code: "map", file: map.file, date: day, recommendation: map.product.recommendation },
        });
      }
      return readings;
    },
    get problems() {
      return [...folderProblems, ...fileProblems.values()];
    },
    async refresh() {
      const fresh = await find();
      const stamp = (found: ReadonlyMap<AnyMapFact, FoundMap>) =>
        [...found.values()].map(({ path, modifiedMs }) => `${path} ${modifiedMs}`).join("\n");
      if (stamp(fresh) === stamp(maps)) return false;
      maps = fresh;
      fileProblems.clear();
      return true;
    },
  };
}
