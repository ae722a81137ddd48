import type { HGT_SAMPLES, HgtTile } from "../../shared/terrain/hgt.js";

/**
 * Writes a tile from a height function; heights are rounded to whole metres, undefined becomes a void.
 * @throws RangeError when a height is outside -32767..32767 m (it could not be told from a void)
 */
export function encodeHgt(
  tile: HgtTile,
  samples: (typeof HGT_SAMPLES)[number],
  heightM: (latitudeDeg: number, longitudeDeg: number) => number | undefined,
): Uint8Array {
  const bytes = new Uint8Array(samples * samples * 2);
  const view = new DataView(bytes.buffer);
  for (let row = 0; row < samples; row++) {
    const latitudeDeg = tile.southDeg + 1 - row / (samples - 1);
    for (let column = 0; column < samples; column++) {
      const value = heightM(latitudeDeg, tile.westDeg + column / (samples - 1));
      const rounded = value === undefined ? -32768 : Math.round(value);
      if (value !== undefined && !(Math.abs(rounded) <= 32767)) {
        throw new RangeError(`height ${value} m does not fit an .hgt tile`);
      }
      view.setInt16((row * samples + column) * 2, rounded, false);
    }
  }
  return bytes;
}
