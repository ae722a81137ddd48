import { northUp, type Placement } from "./raster.js";

/**
 * SRTM .hgt tiles: no header, 16-bit signed big-endian, rows from north to south, columns from west to east,
 * N x N samples. The name states the south-west corner: N42E001 holds latitudes 42 to 43 and longitudes
 * 1 to 2, and its outermost samples lie exactly on the whole degrees. Void is -32768.
 */
export interface HgtTile {
  readonly southDeg: number;
  readonly westDeg: number;
}

/** Samples a side: 3 arc seconds and 1 arc second. The file's size tells which. */
export const HGT_SAMPLES = [1201, 3601] as const;

/** Reads the tile's corner from a file name such as `N42E001.hgt` or `s29w072.hgt.gz`; else undefined. */
export function hgtTileOfName(fileName: string): HgtTile | undefined {
  const match = /^([NS])(\d{2})([EW])(\d{3})(?![0-9])/i.exec(fileName);
  if (!match) return undefined;
  const southDeg = Number(match[2]) * (match[1]!.toUpperCase() === "S" ? -1 : 1);
  const westDeg = Number(match[4]) * (match[3]!.toUpperCase() === "W" ? -1 : 1);
  if (southDeg < -90 || southDeg > 89 || westDeg < -180 || westDeg > 179) return undefined;
  return { southDeg: southDeg + 0, westDeg: westDeg + 0 };
}

/** Samples a side of a tile of that many bytes; undefined when it is none of the two known sizes. */
export function hgtSamplesOfSize(byteLength: number): number | undefined {
  return HGT_SAMPLES.find((samples) => byteLength === samples * samples * 2);
}

export function hgtPlacement(tile: HgtTile, samples: number): Placement {
  return northUp(tile.westDeg, tile.southDeg + 1, 1 / (samples - 1), 1 / (samples - 1));
}

/**
 * Heights of some whole rows of a tile, as they follow each other in the file; void is -32768. The bytes themselves become
 * the heights: a copy of each tile would take as long as reading it.
 */
export function decodeHgtRows(bytes: Uint8Array): Int16Array {
  const { buffer, byteOffset, byteLength } = bytes.byteOffset % 4 === 0 ? bytes : new Uint8Array(bytes);
  const words = Math.floor(byteLength / 2);
  if (isLittleEndian) swapBytes(new Uint16Array(buffer, byteOffset, words));
  return new Int16Array(buffer, byteOffset, words);
}

export function hgtSizeMessage(byteLength: number): string {
  return `${byteLength} bytes are no whole tile: 3 arc seconds have 2884802, 1 arc second 25934402`;
}

const isLittleEndian = new Uint8Array(new Uint16Array([1]).buffer)[0] === 1;

/** @param words that begin where four bytes do: two are swapped at a time */
function swapBytes(words: Uint16Array): void {
  const pairs = new Uint32Array(words.buffer, words.byteOffset, words.length >> 1);
  for (let i = 0; i < pairs.length; i++) {
    const pair = pairs[i]!;
    pairs[i] = ((pair & 0x00ff00ff) << 8) | ((pair >>> 8) & 0x00ff00ff);
  }
  if (words.length % 2 === 0) return;
  const last = words[words.length - 1]!;
  words[words.length - 1] = (last << 8) | (last >> 8);
}
