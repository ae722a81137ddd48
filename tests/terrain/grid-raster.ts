import { type Placement, type Raster, shiftedPlacement } from "../../shared/terrain/raster.js";

/**
 * Builds a raster from a height function of the raster's own coordinates; undefined or a non-finite height
 * makes a void. For tests and generated samples.
 * @example gridRaster(2, 2, northUp(1, 43, 0.5, 0.5), (x, y) => x + y)
 */
export function gridRaster(
  width: number,
  height: number,
  placement: Placement,
  heightM: (x: number, y: number) => number | undefined,
): Raster {
  const heightsM = new Float32Array(width * height);
  for (let row = 0; row < height; row++) {
    for (let column = 0; column < width; column++) {
      const at = shiftedPlacement(placement, column, row);
      const value = heightM(at.x0, at.y0);
      heightsM[row * width + column] = value !== undefined && Number.isFinite(value) ? value : Number.NaN;
    }
  }
  return { width, height, heightsM, placement };
}
