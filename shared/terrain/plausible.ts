import { VOID_INT16 } from "./raster.js";

/** Any array that a decoder may hand over. */
export type StoredHeights =
  | Int8Array
  | Uint8Array
  | Int16Array
  | Uint16Array
  | Int32Array
  | Uint32Array
  | Float32Array
  | Float64Array;

export interface StoredMeaning {
  /** The declared nodata value, in stored units; NaN is allowed; undefined when the file declares none. */
  readonly noData: number | undefined;
  /** metres = stored * scale + offset */
  readonly scale: number;
  readonly offsetM: number;
}

export interface CanonicalHeights {
  readonly heightsM: Int16Array | Float32Array;
  /** Values that no declaration called void but that no land has; they were made void. */
  readonly implausible: number;
}

/** Land lies between these: the lowest shore is near -430 m, the highest summit at 8849 m. */
export const LOWEST_LAND_M = -500;
export const HIGHEST_LAND_M = 9_000;

/**
 * Turns stored values into the canonical form of `Raster`. Many a file holds a value for "no height" that it does not
 * declare (-32768, -9999, the lowest float), some beside the one that it does, and some have the floor of the sea,
 * which is no ground of a path either: what lies where no land does is void, and counted, so that the caller can say so.
 */
export function canonicalHeights(stored: StoredHeights, meaning: StoredMeaning): CanonicalHeights {
  const { noData, scale, offsetM } = meaning;
  if (stored instanceof Int16Array && scale === 1 && offsetM === 0) {
    return { heightsM: stored, implausible: makeVoid(stored, noData) };
  }
  const heightsM = new Float32Array(stored.length);
  // A nodata text such as "-3.40282346638529e+38" means the nearest value of the stored type.
  const voidStored = noData !== undefined && stored instanceof Float32Array ? Math.fround(noData) : noData;
  let implausible = 0;
  for (let i = 0; i < stored.length; i++) {
    const value = stored[i]!;
    heightsM[i] = Number.NaN;
    if (value === voidStored || Number.isNaN(value)) continue;
    const metres = value * scale + offsetM;
    if (metres >= LOWEST_LAND_M && metres <= HIGHEST_LAND_M) heightsM[i] = metres;
    else implausible++;
  }
  return { heightsM, implausible };
}

/** Heights looked at together before any of them is looked at by itself. */
const BLOCK = 4096;

/**
 * The same in place for whole metres, the kind that tiles of 13 million heights are of. Most blocks hold heights
 * only, which a sum of signs tells several times faster than a test of each.
 * @returns how many were no heights
 */
function makeVoid(heightsM: Int16Array, noData: number | undefined): number {
  const voidIsAHeight = noData !== undefined && noData >= LOWEST_LAND_M && noData <= HIGHEST_LAND_M;
  let implausible = 0;
  for (let from = 0; from < heightsM.length; from += BLOCK) {
    const to = Math.min(heightsM.length, from + BLOCK);
    let signs = 0;
    for (let i = from; i < to; i++) signs |= (heightsM[i]! - LOWEST_LAND_M) | (HIGHEST_LAND_M - heightsM[i]!);
    if (signs >= 0 && !voidIsAHeight) continue;
    for (let i = from; i < to; i++) {
      const metres = heightsM[i]!;
      if (metres !== noData && metres >= LOWEST_LAND_M && metres <= HIGHEST_LAND_M) continue;
      if (metres !== noData) implausible++;
      heightsM[i] = VOID_INT16;
    }
  }
  return implausible;
}
