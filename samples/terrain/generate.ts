/**
 * Makes the terrain of the sample networks: Eskerfold, an invented island, on one 3-arcsecond tile.
 *
 *     node samples/terrain/generate.ts
 *
 * The tile (47 to 48 degrees north, 30 to 31 degrees west) is open ocean in the real world, so that no real
 * land is claimed. Every run on every machine gives the same bytes: the noise comes from an integer hash,
 * and only + - * / and square root touch the heights, which are exact in IEEE arithmetic (sin or pow are not).
 */
import { writeFileSync } from "node:fs";
import { gzipSync } from "fflate";

/** South-west corner of the tile, degrees. The file's name says it, as the format asks. */
export const SOUTH_DEG = 47;
export const WEST_DEG = -31;
export const TILE_FILE = "N47W031.hgt.gz";
/** Samples along a row and a column; the tile shares its edge rows with its neighbours. */
export const SIZE = 1201;

/** The tile as committed: 16-bit big-endian heights, rows from the north, gzip with no time stamp. */
export function tileBytes(heightsM = tileHeightsM()): Uint8Array {
  return gzipSync(bigEndian(heightsM), { level: 9, mtime: 0 });
}

/** Heights in metres, row by row from the north, west to east. */
export function tileHeightsM(): Int16Array {
  const heights = new Int16Array(SIZE * SIZE);
  for (let row = 0; row < SIZE; row++) {
    const northKm = (1 - row / (SIZE - 1)) * KM_NORTH;
    for (let column = 0; column < SIZE; column++) {
      const eastKm = (column / (SIZE - 1)) * KM_EAST;
      heights[row * SIZE + column] = Math.round(heightM(eastKm, northKm));
    }
  }
  return heights;
}

// The tile's size on a sphere near 47.5 degrees; only the look of the land depends on it.
const KM_EAST = 75;
const KM_NORTH = 111;

const LAKE = { eastKm: 40, northKm: 60, radiusKm: 4.2, levelM: 74 };

function heightM(eastKm: number, northKm: number): number {
  // Land rises from a coast that noise makes ragged; 0 at the shore, 1 inland.
  const inland = shore(eastKm, northKm);
  if (inland <= 0) return 0;
  const rise = smooth(0, 0.4, inland);

  // Ridges that bend (their coordinates are shifted by noise), hills between them, and valleys along the
  // zero lines of a slow noise. Uplands are high in the whole, with deeper relief.
  const bentEastKm = eastKm + 3.5 * layered(7, eastKm / 15, northKm / 15, 2);
  const bentNorthKm = northKm + 3.5 * layered(8, eastKm / 15, northKm / 15, 2);
  const ridge = ridged(2, bentEastKm / 16, bentNorthKm / 20, 6);
  const hills = layered(1, eastKm / 5.5, northKm / 5.5, 5);
  const upland = smooth(-0.5, 0.6, layered(3, eastKm / 36, northKm / 36, 2));
  const valley = smooth(0, 0.28, Math.abs(layered(4, bentEastKm / 24, bentNorthKm / 24, 2)));
  const relief = 45 + (ridge * (140 + 420 * upland) + 60 * hills) * (0.25 + 0.75 * valley);
  const ground = 2 + rise * Math.max(0, relief);

  // The lake: a flat water level with a shore that meets the land around it.
  const fromLake = distance(
    eastKm,
    (northKm - LAKE.northKm) * 0.55 + LAKE.northKm,
    LAKE.eastKm,
    LAKE.northKm,
  );
  const outside = smooth(1, 2.1, fromLake / LAKE.radiusKm + 0.4 * layered(5, eastKm / 5, northKm / 5, 3));
  return LAKE.levelM + (ground - LAKE.levelM) * outside;
}

/** Positive on land: an ellipse about the middle of the tile, bitten and stretched by noise. */
function shore(eastKm: number, northKm: number): number {
  const x = (eastKm - 37.5) / 32;
  const y = (northKm - 55.5) / 47;
  const outward = x * x + y * y;
  const ragged = layered(6, eastKm / 17, northKm / 17, 5) * (1 - smooth(0.75, 1.25, outward));
  return 1 - outward + 0.5 * ragged;
}

/** Noise in octaves, each twice as fine and half as strong; within about -1..1. */
function layered(seed: number, x: number, y: number, octaves: number): number {
  let sum = 0;
  let strength = 1;
  let scale = 1;
  for (let octave = 0; octave < octaves; octave++) {
    sum += strength * noise(seed * 31 + octave, x * scale, y * scale);
    strength /= 2;
    scale *= 2;
  }
  return sum;
}

/** Ridged noise: crests where the noise changes sign; finer octaves count most on the crests. 0..1. */
function ridged(seed: number, x: number, y: number, octaves: number): number {
  let sum = 0;
  let strength = 0.62;
  let scale = 1;
  let weight = 1;
  for (let octave = 0; octave < octaves; octave++) {
    const crest = 1 - Math.abs(noise(seed * 31 + octave, x * scale, y * scale));
    const sharp = crest * crest * weight;
    sum += strength * sharp;
    weight = sharp;
    strength /= 2;
    scale *= 2;
  }
  return sum;
}

/** Gradient noise, about -1..1: a random slope at every whole coordinate, joined without creases. */
function noise(seed: number, x: number, y: number): number {
  const column = Math.floor(x);
  const row = Math.floor(y);
  const east = x - column;
  const north = y - row;
  const u = fade(east);
  const southern = mix(
    slope(seed, column, row, east, north),
    slope(seed, column + 1, row, east - 1, north),
    u,
  );
  const northern = mix(
    slope(seed, column, row + 1, east, north - 1),
    slope(seed, column + 1, row + 1, east - 1, north - 1),
    u,
  );
  return 1.5 * mix(southern, northern, fade(north));
}

/** Height, at a point beside a lattice point, of the plane that leans there in a direction of its own. */
function slope(seed: number, column: number, row: number, east: number, north: number): number {
  let hash =
    Math.imul(seed + 0x51ed, 0x27d4eb2d) ^ Math.imul(column, 0x165667b1) ^ Math.imul(row, 0x2c1b3c6d);
  hash = Math.imul(hash ^ (hash >>> 15), 0x2c1b3c6d);
  hash = Math.imul(hash ^ (hash >>> 12), 0x297a2d39);
  const [eastward, northward] = DIRECTIONS[(hash >>> 27) % DIRECTIONS.length]!;
  return eastward * east + northward * north;
}

/** Unit vectors all round, of the triangles 3-4-5 and 7-24-25, so that no sine is needed. */
const DIRECTIONS = [
  [3 / 5, 4 / 5],
  [4 / 5, 3 / 5],
  [7 / 25, 24 / 25],
  [24 / 25, 7 / 25],
].flatMap(([a, b]) => [
  [a!, b!],
  [-a!, b!],
  [a!, -b!],
  [-a!, -b!],
]) as [number, number][];

/** Quintic step of the noise cell: slope and curvature vanish at both sides. */
const fade = (t: number) => t * t * t * (t * (t * 6 - 15) + 10);
const mix = (a: number, b: number, t: number) => a + (b - a) * t;
const distance = (x1: number, y1: number, x2: number, y2: number) =>
  Math.sqrt((x1 - x2) * (x1 - x2) + (y1 - y2) * (y1 - y2));

/** 0 up to `from`, 1 beyond `to`, without a kink between. */
function smooth(from: number, to: number, value: number): number {
  const t = Math.min(1, Math.max(0, (value - from) / (to - from)));
  return t * t * (3 - 2 * t);
}

function bigEndian(heights: Int16Array): Uint8Array {
  const view = new DataView(new ArrayBuffer(heights.length * 2));
  heights.forEach((height, index) => {
    view.setInt16(index * 2, height, false);
  });
  return new Uint8Array(view.buffer);
}

if (import.meta.main) writeFileSync(new URL(TILE_FILE, import.meta.url), tileBytes());
