import { createHash } from "node:crypto";
import { cwd } from "node:process";
import {
  type MosaicHeights,
  matchingStepM,
  membersAlong,
  mosaicHeights,
  type Page,
  type PlacedMember,
  placeMember,
} from "../../shared/terrain/mosaic.js";
import { pathLengthM, pathPoints, singlePoint } from "../../shared/terrain/path.js";
import {
  assembleProfile,
  intervalsFor,
  type LatLon,
  type TerrainProfile,
} from "../../shared/terrain/profile.js";
import { type Raster, shiftedPlacement } from "../../shared/terrain/raster.js";
import { PENDING } from "../../shared/terrain/sample.js";
import { isPointer, POINTER, UnfitFile } from "../files/read-bounded.js";
import { openAsciiGrid } from "./ascii-file.js";
import { findRasterFiles } from "./find-files.js";
import { openGeotiff } from "./geotiff-file.js";
import { openHgt } from "./hgt-file.js";
import { pageCache } from "./page-cache.js";
import { type FileOnDisk, type RasterHeader, readAt, TerrainFileError } from "./raster-file.js";

export interface TerrainProblem {
  readonly file: string;
  /** One line: cause; remedy. */
  readonly message: string;
  /** The file serves all the same, and this is to be known of it. Otherwise it covers nothing. */
  readonly reservation?: true;
}

interface TerrainFile {
  readonly file: string;
  /** "EPSG:2056", or the name in the .prj. */
  readonly crs: string;
  /** Horizontal accuracy of that system against WGS 84, metres; 0 = exact by definition, undefined = not known. */
  readonly crsAccuracyM: number | undefined;
  /** Square root of a pixel's area on the ground, metres. */
  readonly pixelM: number;
}

/** The rasters under some folders: headers in memory, heights read when asked for and kept within a bound. */
export interface TerrainStore {
  /** Changes when any raster that could serve this path changes (name, size, time of change), as of the last look. */
  stampFor(from: LatLon, to: LatLon): string;
  /** @param options.stepM the widest step; default: matched to the finest raster along the path,
   * 30 m at most */
  profile(from: LatLon, to: LatLon, options?: { stepM?: number }): Promise<TerrainProfile>;
  /** The same from what is in memory; undefined when a raster that is needed is not. */
  profileSync(from: LatLon, to: LatLon, options?: { stepM?: number }): TerrainProfile | undefined;
  /** Metres above sea level; undefined where void or uncovered. */
  heightAt(at: LatLon): Promise<number | undefined>;
  heightAtSync(at: LatLon): number | undefined | "loading";
  /** Files that cannot be used, and files used with a reservation. */
  readonly problems: readonly TerrainProblem[];
  /** The rasters in use, finest first: what an explanation needs to say where heights come from. */
  readonly files: readonly TerrainFile[];
  /** Looks at the folders again; unchanged files keep what is in memory. True when anything changed. */
  refresh(): Promise<boolean>;
  stats(): { tilesRead: number; cacheBytes: number; hits: number; misses: number };
}

type Report = (file: string, message: string, reservation?: true) => void;

/** A raster whose header was read. */
interface Member extends RasterHeader {
  readonly disk: FileOnDisk;
  /** Set when its heights turn out unreadable: it then covers nothing. */
  broken: boolean;
}

const DEFAULT_CACHE_BYTES = 512 * 2 ** 20;
/**
 * No wider, however coarse the raster: between the heights of a 3" tile the bilinear surface bends, and samples as
 * far apart as its pixels were seen to miss the critical point of real paths by up to 0.9 of the Fresnel radius.
 */
const WIDEST_STEP_M = 30;
/** The step where no raster lies along the path: the profile is one gap, and needs no more points than this gives. */
const STEP_WITHOUT_RASTER_M = 90;
/** Headers read at a time. */
const HEADERS_AT_ONCE = 16;

/**
 * Indexes every raster under the roots (folders or single files): .hgt (also .zip and .gz), GeoTIFF, ESRI ASCII grid.
 * Only headers are read. The finest raster that covers a point answers for it; where that one is void, the next.
 * A file that cannot be used is told in `problems` and does not stop the others.
 * @param options.cacheBytes bound of the heights in memory, default 512 MiB
 * @param options.baseDir where relative roots start, and what file names are printed relative to; default: the
 * process's working directory
 */
export async function openTerrain(
  roots: readonly string[],
  options: { cacheBytes?: number; baseDir?: string } = {},
): Promise<TerrainStore> {
  const cache = pageCache(options.cacheBytes ?? DEFAULT_CACHE_BYTES);
  const fileProblems = new Map<string, TerrainProblem>();
  const report: Report = (file, message, reservation) => {
    fileProblems.set(file, { file, message, ...(reservation && { reservation }) });
  };
  const forget = (disk: FileOnDisk) => {
    cache.drop(keyPrefix(disk));
    fileProblems.delete(disk.file);
  };
  const index = memberIndex(roots, options.baseDir ?? cwd(), report, forget);
  const pages = pageReader(cache, report);

  const along = (from: LatLon, to: LatLon): PlacedMember<Member>[] =>
    membersAlong(index.members(), from, to).filter((m) => !m.member.broken);
  const heightFrom = (at: LatLon, raster: FromMemory) =>
    mosaicHeights(along(at, at), singlePoint(at), at, at, raster);

  await index.refresh();
  return {
    stampFor: (from, to) => stampOf(membersAlong(index.members(), from, to)),
    async profile(from, to, profileOptions) {
      const stepM = profileOptions?.stepM;
      return (
        await pages.whole((raster) => attemptProfile(along(from, to), from, to, stepM, raster))
      ).profile();
    },
    profileSync(from, to, profileOptions) {
      const result = attemptProfile(along(from, to), from, to, profileOptions?.stepM, pages.cached);
      return result.missing.length === 0 ? result.profile() : undefined;
    },
    async heightAt(at) {
      const { heightM } = await pages.whole((raster) => heightFrom(at, raster));
      return Number.isNaN(heightM[0]) ? undefined : heightM[0];
    },
    heightAtSync(at) {
      const { heightM, origin } = heightFrom(at, pages.cached);
      if (origin[0] === PENDING) return "loading";
      return Number.isNaN(heightM[0]) ? undefined : heightM[0];
    },
    get problems() {
      return [...index.problems(), ...fileProblems.values()].sort((a, b) => (a.file < b.file ? -1 : 1));
    },
    get files() {
      return filesOf(index.members());
    },
    refresh: index.refresh,
    stats: () => ({
      tilesRead: pages.tilesRead(),
      cacheBytes: cache.bytes,
      hits: cache.hits,
      misses: cache.misses,
    }),
  };
}

/** The rasters that the folders hold, as of the last look; finest first. */
function memberIndex(
  roots: readonly string[],
  baseDir: string,
  report: Report,
  forget: (disk: FileOnDisk) => void,
) {
  let folderProblems: TerrainProblem[] = [];
  let members: PlacedMember<Member>[] = [];
  let known = new Map<string, { disk: FileOnDisk; placed: PlacedMember<Member> | undefined }>();

  async function refresh(): Promise<boolean> {
    const unreadable: TerrainProblem[] = [];
    const files = await findRasterFiles(roots, baseDir, (file, message) =>
      unreadable.push({ file, message }),
    );
    folderProblems = unreadable;
    const next: typeof known = new Map();
    let changed = false;
    const queue = files.filter((disk) => {
      const before = known.get(disk.path);
      if (before && sameFile(before.disk, disk)) next.set(disk.path, before);
      return !next.has(disk.path);
    });
    for (const [path, before] of known) {
      if (next.has(path)) continue;
      changed = true;
      forget(before.disk);
    }
    changed ||= queue.length > 0;
    for (let i = 0; i < queue.length; i += HEADERS_AT_ONCE) {
      await Promise.all(
        queue.slice(i, i + HEADERS_AT_ONCE).map(async (disk) => {
          next.set(disk.path, { disk, placed: await openMember(disk, report) });
        }),
      );
    }
    known = next;
    members = [...known.values()].flatMap((k) => k.placed ?? []);
    members.sort((a, b) => a.finenessM - b.finenessM || (a.member.disk.file < b.member.disk.file ? -1 : 1));
    return changed;
  }

  return { refresh, members: () => members, problems: () => folderProblems };
}

type FromMemory = (member: Member, page: Page) => Raster | undefined;

/** Pages of rasters, each read once while several ask for it, and kept within the bound of the cache. */
function pageReader(cache: ReturnType<typeof pageCache>, report: Report) {
  const reading = new Map<string, Promise<Raster | undefined>>();
  let tilesRead = 0;

  function read(member: Member, page: Page): Promise<Raster | undefined> {
    const key = pageKey(member, page);
    let task = reading.get(key);
    if (!task) {
      task = readPage(member, page, report)
        .then((raster) => {
          tilesRead++;
          if (raster) cache.set(key, raster);
          else member.broken = true;
          return raster;
        })
        .finally(() => reading.delete(key));
      reading.set(key, task);
    }
    return task;
  }

  /** Repeats `attempt` until every page that it misses was read; what was read stays at hand for its time. */
  async function whole<T extends { missing: MosaicHeights<Member>["missing"] }>(
    attempt: (raster: FromMemory) => T,
  ): Promise<T> {
    const held = new Map<string, Raster>();
    for (;;) {
      const result = attempt(
        (member, page) => held.get(pageKey(member, page)) ?? cache.get(pageKey(member, page)),
      );
      if (result.missing.length === 0) return result;
      await Promise.all(
        result.missing.map(async ({ member, page }) => {
          const raster = await read(member, page);
          if (raster) held.set(pageKey(member, page), raster);
        }),
      );
    }
  }

  const cached: FromMemory = (member, page) => cache.get(pageKey(member, page));
  return { whole, cached, tilesRead: () => tilesRead };
}

function stampOf(members: readonly PlacedMember<Member>[]): string {
  const hash = createHash("sha256");
  for (const { member } of members) {
    hash.update(`${member.disk.file}\n${member.disk.sizeBytes}\n${member.disk.modifiedMs}\n`);
  }
  return hash.digest("hex").slice(0, 16);
}

function filesOf(members: readonly PlacedMember<Member>[]): TerrainFile[] {
  return members
    .filter(({ member }) => !member.broken)
    .map(({ member, finenessM }) => ({
      file: member.disk.file,
      crs: member.crs.name,
      crsAccuracyM: member.crs.accuracyM,
      pixelM: finenessM,
    }));
}

function attemptProfile(
  candidates: readonly PlacedMember<Member>[],
  from: LatLon,
  to: LatLon,
  stepM: number | undefined,
  raster: FromMemory,
): { missing: MosaicHeights<Member>["missing"]; profile: () => TerrainProfile } {
  if (stepM !== undefined && !(stepM > 0)) throw new RangeError(`step must be above 0 m, not ${stepM}`);
  const lengthM = pathLengthM(from, to);
  const finest = candidates[0]?.member;
  const step =
    stepM ??
    (finest ? Math.min(matchingStepM(finest, from, to, lengthM), WIDEST_STEP_M) : STEP_WITHOUT_RASTER_M);
  const path = pathPoints(from, to, intervalsFor(lengthM, step));
  const { heightM, origin, missing } = mosaicHeights(candidates, path, from, to, raster);
  const files = candidates.map((c) => c.member.disk.file);
  return { missing, profile: () => assembleProfile(path.lengthM, heightM, origin, files) };
}

async function openMember(disk: FileOnDisk, report: Report): Promise<PlacedMember<Member> | undefined> {
  try {
    if (disk.sizeBytes === 0) throw new TerrainFileError("is empty", "fetch the file again");
    if (isPointer(await readAt(disk, 0, Math.min(disk.sizeBytes, 2048))))
      throw new TerrainFileError(POINTER.replace(/^it /, ""), "fetch the file, or name other terrain");
    const header = await openHeader(disk);
    const placed = placeMember({ ...header, disk, broken: false });
    if (placed) return placed;
    report(disk.file, "its placement is not on the globe; correct its placement or its coordinate system");
  } catch (error) {
    report(disk.file, messageOf(error));
  }
  return undefined;
}

function openHeader(disk: FileOnDisk): Promise<RasterHeader> {
  if (/\.(tif|tiff)$/i.test(disk.path)) return openGeotiff(disk);
  if (/\.asc$/i.test(disk.path)) return openAsciiGrid(disk);
  if (/\.(hgt|gz|zip)$/i.test(disk.path)) return openHgt(disk);
  throw new TerrainFileError("is of no known kind", "known are .hgt (also .zip, .gz), .tif and .asc");
}

async function readPage(member: Member, page: Page, report: Report): Promise<Raster | undefined> {
  try {
    const { heightsM, implausible } = await member.read(page);
    if (implausible > 0) {
      report(
        member.disk.file,
        "holds values that no land has (below -500 m, above 9000 m), taken as void; those that mean no height are to be declared in the file",
        true,
      );
    }
    const placement = shiftedPlacement(member.placement, page.column, page.row);
    return { width: page.width, height: page.height, heightsM, placement };
  } catch (error) {
    report(member.disk.file, messageOf(error));
    return undefined;
  }
}

const keyPrefix = (disk: FileOnDisk): string => `${disk.path}\n${disk.sizeBytes} ${disk.modifiedMs}\n`;

/** Of each member by the first pixel of a page: made once, since every profile asks for some. */
const pageKeys = new WeakMap<Member, Map<number, string>>();

function pageKey(member: Member, { column, row }: Page): string {
  let keys = pageKeys.get(member);
  if (keys === undefined) pageKeys.set(member, (keys = new Map()));
  const first = row * member.width + column;
  let key = keys.get(first);
  if (key === undefined) keys.set(first, (key = `${keyPrefix(member.disk)}${column} ${row}`));
  return key;
}

function sameFile(a: FileOnDisk, b: FileOnDisk): boolean {
  return a.sizeBytes === b.sizeBytes && a.modifiedMs === b.modifiedMs;
}

/** File system errors carry the whole path and a code; the path is printed anyway. */
function messageOf(error: unknown): string {
  if (error instanceof TerrainFileError) return error.message;
  if (error instanceof UnfitFile) return `cannot be read: ${error.message}; name another file`;
  const code = (error as { code?: unknown } | null)?.code;
  if (code === "EACCES" || code === "EPERM") return "may not be read; correct its rights";
  if (code === "ENOENT") return "has vanished; restore it or look at the terrain folder again";
  return `cannot be read (${error instanceof Error ? error.message.split("\n")[0] : String(error)}); check the file`;
}
