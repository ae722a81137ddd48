/** An invented land of hills on a patch of open ocean, as 1-arc-second tiles. */
import { existsSync, mkdirSync, renameSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { encodeHgt } from "../../terrain/encode-hgt.js";

/** South-west corner; nothing but water is there on the real map. */
export const SOUTH_DEG = 47;
export const WEST_DEG = -36;

/** What a degree measures here; only the look of the land depends on it. */
export const KM_NORTH = 111.2;
export const KM_EAST = 74;

const LONGEST_WAVE_KM = 26;
const OCTAVES = 6;
const HIGHEST_OCTAVE_M = 170;

/** Ground level, metres. */
export function groundM(latitudeDeg: number, longitudeDeg: number): number {
  const north = ((latitudeDeg - SOUTH_DEG) * KM_NORTH) / LONGEST_WAVE_KM;
  const east = ((longitudeDeg - WEST_DEG) * KM_EAST) / LONGEST_WAVE_KM;
  let sum = 320;
  for (let octave = 0; octave < OCTAVES; octave++) {
    const scale = 2 ** octave;
    // Each finer octave is weaker than half: rounded hills, as most of the world that carries networks.
    sum += HIGHEST_OCTAVE_M * 0.42 ** octave * noise(octave, east * scale, north * scale);
  }
  return sum;
}

/** Writes the tiles that are not there yet. @param degrees tiles along each side of the square */
export function writeTiles(folder: string, degrees: number): void {
  mkdirSync(folder, { recursive: true });
  for (let south = SOUTH_DEG; south < SOUTH_DEG + degrees; south++) {
    for (let west = WEST_DEG; west < WEST_DEG + degrees; west++) {
      const path = join(folder, `N${south}W${String(-west).padStart(3, "0")}.hgt`);
      if (existsSync(path)) continue;
      // A run that is broken off must not leave half a tile under its name.
      writeFileSync(`${path}.part`, encodeHgt({ southDeg: south, westDeg: west }, 3601, groundM));
      renameSync(`${path}.part`, path);
    }
  }
}

/** The lattice cell that each octave was asked for last: neighbouring samples mostly share it. */
const cells = Array.from({ length: OCTAVES }, () => ({
  column: Number.NaN,
  row: Number.NaN,
  corners: [0, 0, 0, 0],
}));

/** Smooth noise in -1..1: random values at whole coordinates, joined without creases. */
function noise(octave: number, x: number, y: number): number {
  const cell = cells[octave]!;
  const column = Math.floor(x);
  const row = Math.floor(y);
  if (cell.column !== column || cell.row !== row) {
    cell.column = column;
    cell.row = row;
    cell.corners = [0, 1, 2, 3].map((corner) => lattice(octave, column + (corner & 1), row + (corner >> 1)));
  }
  const u = fade(x - column);
  const [southWest, southEast, northWest, northEast] = cell.corners as [number, number, number, number];
  return mix(mix(southWest, southEast, u), mix(northWest, northEast, u), fade(y - row));
}

function lattice(seed: number, column: number, row: number): number {
  let hash =
    Math.imul(seed + 0x51ed, 0x27d4eb2d) ^ Math.imul(column, 0x165667b1) ^ Math.imul(row, 0x2c1b3c6d);
  hash = Math.imul(hash ^ (hash >>> 15), 0x2c1b3c6d);
  hash = Math.imul(hash ^ (hash >>> 12), 0x297a2d39);
  return (hash ^ (hash >>> 15)) / 2147483648;
}

const fade = (t: number) => t * t * t * (t * (t * 6 - 15) + 10);
const mix = (a: number, b: number, t: number) => a + (b - a) * t;
