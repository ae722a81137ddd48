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
  /** Values that no declaration called void but that cannot be heights; they were made void. */
  readonly implausible: number;
}

/** Outside this no solid surface of the earth lies, sea floor included. */
const LOWEST_ANYWHERE_M = -11_100;
const HIGHEST_ANYWHERE_M = 9_000;
/** Below this no dry land lies (the lowest shore is near -430 m). */
const LOWEST_LAND_M = -500;

/**
 * Turns stored values into the canonical form of `Raster`. A file that declares no nodata value often holds
 * one all the same (-32768, -9999, the lowest float): heights below -500 m are then taken for voids, and
 * counted, so that the caller can say so. Values outside anything on earth are void in every file.
 */
export function canonicalHeights(stored: StoredHeights, meaning: StoredMeaning): CanonicalHeights {
  const { noData, scale, offsetM } = meaning;
  const lowestM = noData === undefined ? LOWEST_LAND_M : LOWEST_ANYWHERE_M;
  if (stored instanceof Int16Array && scale === 1 && offsetM === 0) {
    return { heightsM: stored, implausible: makeVoid(stored, noData, lowestM) };
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
    if (metres >= lowestM && metres <= HIGHEST_ANYWHERE_M) heightsM[i] = metres;
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
function makeVoid(heightsM: Int16Array, noData: number | undefined, lowestM: number): number {
  const voidIsAHeight = noData !== undefined && noData >= lowestM && noData <= HIGHEST_ANYWHERE_M;
  let implausible = 0;
  for (let from = 0; from < heightsM.length; from += BLOCK) {
    const to = Math.min(heightsM.length, from + BLOCK);
    let signs = 0;
    for (let i = from; i < to; i++) signs |= (heightsM[i]! - lowestM) | (HIGHEST_ANYWHERE_M - heightsM[i]!);
    if (signs >= 0 && !voidIsAHeight) continue;
    for (let i = from; i < to; i++) {
      const metres = heightsM[i]!;
      if (metres !== noData && metres >= lowestM && metres <= HIGHEST_ANYWHERE_M) continue;
      if (metres !== noData) implausible++;
      heightsM[i] = VOID_INT16;
    }
  }
  return implausible;
}
