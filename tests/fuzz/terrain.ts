/** Bytes of terrain, surveys and maps, spoilt: a message or a right height, and never a wrong one where a checksum tells. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { zipSync } from "fflate";
import { openMaps } from "../../server/maps/store.js";
import { TerrainFileError } from "../../server/terrain/raster-file.js";
import { openTerrain } from "../../server/terrain/store.js";
import { readSurvey } from "../../server/terrain/survey-file.js";
import { MAP_PRODUCTS } from "../../shared/propagation/maps.js";
import { HIGHEST_LAND_M, LOWEST_LAND_M } from "../../shared/terrain/plausible.js";
import { encodeHgt } from "../terrain/encode-hgt.js";
import { type TiffSpec, tiffWithBlocks, WGS84_POINT } from "../terrain/tiff.js";
import { Chance } from "./chance.js";
import type { Fuzzer } from "./fuzzer.js";

/** Whole metres, another at every sample, so that a height in the wrong place is a wrong height. */
const height = (lat: number, lon: number) => Math.round(1200 * (lat - 40) + 2400 * (lon - 10)) - 300;
const TILE = encodeHgt({ southDeg: 40, westDeg: 10 }, 1201, height);

const SIDE = 40;
const GRID: TiffSpec = {
  width: SIDE,
  height: SIDE,
  values: Array.from({ length: SIDE * SIDE }, (_, i) => 3 * i + (i % 7)),
  scale: [0.01, 0.01],
  tie: [10.3, 40.7],
  keys: WGS84_POINT,
  noData: "-32768",
};
const ASCII = `ncols ${SIDE}\nnrows ${SIDE}\nxllcenter 10.3\nyllcenter 40.3\ncellsize 0.01\nNODATA_value -9999\n${Array.from(
  { length: SIDE },
  (_, row) => Array.from({ length: SIDE }, (_, column) => 3 * (row * SIDE + column)).join(" "),
).join("\n")}\n`;
const WGS84 =
  'GEOGCS["WGS 84",DATUM["WGS_1984",SPHEROID["WGS 84",6378137,298.257223563]],PRIMEM["Greenwich",0],UNIT["degree",0.0174532925199433],AUTHORITY["EPSG","4326"]]';
const SURVEY = `distance_m,height_m,cover_m\n${Array.from({ length: 60 }, (_, i) => `${i * 100},${200 + i},${i % 3}`).join("\n")}\n`;
const PATH_M = 5_900;

const MAP = MAP_PRODUCTS.find(({ fact }) => fact === "rainHeightM")!;
const MAP_TEXT = `${Array.from({ length: MAP.shape.rows }, (_, row) =>
  Array.from({ length: MAP.shape.columns }, (_, column) => (2 + ((row * column) % 97) / 50).toFixed(3)).join(
    " ",
  ),
).join("\n")}\n`;

interface Kind {
  readonly name: string;
  readonly bytes: Uint8Array;
  /** Bytes that a checksum covers; everything where there is none to miss. */
  readonly verified?: (at: number) => boolean;
  readonly beside?: Readonly<Record<string, string>>;
  /** It holds the heights of the first raster, where it holds any. */
  readonly isGrid?: boolean;
  look(folder: string, name: string): Promise<Looked>;
}

interface Looked {
  readonly messages: readonly string[];
  readonly heights: readonly (number | undefined)[];
}

const text = (of: string) => new TextEncoder().encode(of);
const whole = () => true;

/** Rasters of the same heights. What covers the blocks of one with a checksum covers all that lies from the first on. */
function raster(name: string, spec: Partial<TiffSpec>, checksum = false): Kind {
  const { bytes, blocksAt } = tiffWithBlocks({ ...GRID, rowsPerStrip: 8, ...spec });
  const verified = checksum ? (at: number) => at >= blocksAt : undefined;
  return { name: `${name}.tif`, bytes, verified, look: lookAtTerrain, isGrid: true };
}

const floats = { type: "float32", noData: "nan" } as const;
const RASTERS: readonly Kind[] = [
  raster("plain", {}),
  raster("float", floats),
  raster("packbits", { packBits: true }),
  raster("lzw", { lzw: true }),
  raster("lzw-predictor", { lzw: true, predictor: 2, tile: 16 }),
  raster("deflate", { deflate: true }, true),
  raster("predictor", { deflate: true, predictor: 2, bigEndian: true }, true),
  raster("tiles-predictor", { deflate: true, predictor: 2, bigEndian: true, tile: 16 }, true),
  raster("float-predictor", { ...floats, deflate: true, predictor: 3 }, true),
  raster("float-tiles", { ...floats, deflate: true, predictor: 3, bigEndian: true, tile: 16 }, true),
  raster("sparse", { deflate: true, tile: 16, sparse: [4] }, true),
  raster("big", { bigTiff: true }),
  raster("big-tiles", { bigTiff: true, deflate: true, tile: 16, sparse: [0, 8] }, true),
  raster("big-end", { bigTiff: true, bigEndian: true, lzw: true }),
  raster("zstd", { zstd: true }),
  raster("zstd-checked", { zstd: "checksum" }, true),
  ...([0, 1, 2] as const).map((packedBy) => raster(`lerc-${packedBy}`, { lerc: packedBy }, true)),
];

const KINDS: readonly Kind[] = [
  { name: "N40E010.hgt", bytes: TILE, look: lookAtTerrain },
  { name: "N40E010.hgt.gz", bytes: gzipSync(TILE), verified: whole, look: lookAtTerrain },
  { name: "tile.zip", bytes: zipSync({ "N40E010.hgt": TILE }), verified: whole, look: lookAtTerrain },
  {
    name: "tile.zip",
    bytes: zipSync({ "readme.txt": text("x"), "a/N40E010.hgt": TILE }, { level: 1 }),
    verified: whole,
    look: lookAtTerrain,
  },
  ...RASTERS,
  { name: "grid.asc", bytes: text(ASCII), beside: { "grid.prj": WGS84 }, look: lookAtTerrain },
  { name: "survey.csv", bytes: text(SURVEY), look: lookAtSurvey },
  { name: MAP.file, bytes: text(MAP_TEXT), look: lookAtMap },
];

const PLACES = Array.from({ length: 60 }, (_, i) => ({
  latitudeDeg: 40.01 + ((i * 37) % 60) / 61,
  longitudeDeg: 10.01 + ((i * 23) % 60) / 61,
}));

async function lookAtTerrain(folder: string): Promise<Looked> {
  const store = await openTerrain(["."], { baseDir: folder });
  const heights: (number | undefined)[] = [];
  for (const place of PLACES) heights.push(await store.heightAt(place));
  const profile = await store.profile(PLACES[3]!, PLACES[40]!);
  heights.push(...[...profile.heightM].map((one) => (Number.isNaN(one) ? undefined : one)));
  return { heights, messages: store.problems.map(({ message }) => message) };
}

async function lookAtSurvey(folder: string, name: string): Promise<Looked> {
  try {
    const { profile } = await readSurvey(`${folder}/${name}`, name, PATH_M, "field");
    return {
      messages: [],
      heights: [...profile.heightM].map((one) => (Number.isNaN(one) ? undefined : one)),
    };
  } catch (error) {
    if (!(error instanceof TerrainFileError)) throw error;
    return { messages: [error.message], heights: [] };
  }
}

async function lookAtMap(folder: string): Promise<Looked> {
  const store = await openMaps(["."], folder);
  const read = await Promise.all(PLACES.map((place) => store.readings(place, [MAP.fact])));
  return {
    heights: read.map(([reading]) => reading?.value),
    messages: store.problems.map(({ message }) => message),
  };
}

/** Bytes put in, taken out or changed somewhere. */
interface Spoiling {
  readonly how: "flip" | "set" | "zero" | "cut" | "insert" | "remove" | "repeat" | "exchange" | "digit";
  readonly seed: number;
}

const HOWS: readonly Spoiling["how"][] = [
  "flip",
  "set",
  "zero",
  "cut",
  "insert",
  "remove",
  "repeat",
  "exchange",
  "digit",
];

function spoilt(bytes: Uint8Array, { how, seed }: Spoiling, first: number): Uint8Array {
  const chance = new Chance(seed);
  const at = first + chance.below(Math.max(1, bytes.length - first));
  const length = 1 + chance.below(2 ** (1 + chance.below(16)));
  const joined = (...parts: Uint8Array[]) => new Uint8Array(Buffer.concat(parts));
  const copy = Uint8Array.from(bytes);
  switch (how) {
    case "flip":
      copy[at]! ^= 1 << chance.below(8);
      return copy;
    case "set":
      copy[at] = chance.of([0, 1, 0x7f, 0x80, 0xff, 0x2d, 0x0a, 0x22]);
      return copy;
    case "zero":
      return copy.fill(0, at, at + length);
    case "cut":
      return bytes.slice(0, at);
    case "insert":
      return joined(
        bytes.subarray(0, at),
        Uint8Array.from({ length: length % 300 }, () => chance.below(256)),
        bytes.subarray(at),
      );
    case "remove":
      return joined(bytes.subarray(0, at), bytes.subarray(at + length));
    case "repeat":
      return joined(bytes.subarray(0, at + length), bytes.subarray(at));
    case "exchange": {
      const other = first + chance.below(Math.max(1, bytes.length - first));
      copy.set(bytes.subarray(other, Math.min(other + length, bytes.length - Math.max(0, at - other))), at);
      return copy;
    }
    case "digit":
      copy[at] = 0x30 + chance.below(10);
      return copy;
  }
}

let base: string | undefined;
let plain: Promise<Looked> | undefined;
const right = new Map<Kind, Promise<Looked>>();

function put(kind: Kind, bytes: Uint8Array): string {
  base ??= mkdtempSync(join(tmpdir(), "hopwright-bytes-"));
  const folder = join(base, "case");
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder);
  for (const [name, beside] of Object.entries(kind.beside ?? {})) writeFileSync(join(folder, name), beside);
  writeFileSync(join(folder, kind.name), bytes);
  return folder;
}

export const terrain: Fuzzer = {
  name: "terrain",
  what: "bytes of terrain, surveys and maps",
  begin(chance) {
    const kind = chance.of(KINDS);
    const hows = chance.some(HOWS, 0.4);
    // Where a part only is verified, mostly that part is spoilt, and then held to the right heights.
    const first = kind.verified && kind.verified !== whole && chance.likely(0.7) ? verifiedFrom(kind) : 0;
    // Headers lie at the start and directories at the end.
    const near = first === 0 && chance.likely(0.4) ? Math.max(0, kind.bytes.length - 120) : first;
    const spoilings = Array.from(
      { length: 1 + chance.below(4) },
      (): Spoiling => ({ how: chance.of(hows), seed: chance.seed() }),
    );
    const isVerified = kind.verified === whole || first > 0;
    return {
      parts: spoilings.length,
      counts: 1,
      async run(kept) {
        let known = right.get(kind);
        if (!known) right.set(kind, (known = kind.look(put(kind, kind.bytes), kind.name)));
        const expected = await known;
        if (kind.isGrid) {
          plain ??= RASTERS[0]!.look(put(RASTERS[0]!, RASTERS[0]!.bytes), RASTERS[0]!.name);
          const { heights } = await plain;
          const at = expected.heights.findIndex((one, i) => one !== undefined && one !== heights[i]);
          if (at >= 0)
            return [`${kind.name} holds ${expected.heights[at]} m where it should hold ${heights[at]} m`];
        }
        if (expected.messages.length > 0 || !expected.heights.some((one) => one !== undefined))
          return [`${kind.name} cannot be read as it is: ${expected.messages.join("; ")}`];
        const bytes = kept.reduce((now, at) => spoilt(now, spoilings[at]!, near), kind.bytes);
        const found = await kind.look(put(kind, bytes), kind.name);
        return [...faults(expected, found, isVerified)];
      },
      tell: (kept) => [kind.name, ...kept.map((at) => JSON.stringify(spoilings[at]))].join("\n"),
    };
  },
  end() {
    if (base) rmSync(base, { recursive: true, force: true });
    base = undefined;
  },
};

function verifiedFrom({ bytes, verified }: Kind): number {
  let at = 0;
  while (at < bytes.length && !verified!(at)) at++;
  return at;
}

function* faults(expected: Looked, found: Looked, isVerified: boolean): Iterable<string> {
  for (const message of found.messages)
    if (
      /undefined|NaN|Infinity|\[object|\n|TypeError|RangeError|Cannot read prop|is not a function/.test(
        message,
      )
    )
      yield `message: ${message}`;
  for (const [index, one] of found.heights.entries()) {
    if (one === undefined) continue;
    if (!(one >= LOWEST_LAND_M && one <= HIGHEST_LAND_M)) yield `height ${one} m is none of land`;
    if (isVerified && one !== expected.heights[index]) {
      yield `height ${one} m instead of ${expected.heights[index]} m`;
      return;
    }
  }
  if (
    isVerified &&
    found.messages.length === 0 &&
    found.heights.some((one, i) => one === undefined && expected.heights[i] !== undefined)
  )
    yield "heights are missing, and no message says why";
}
