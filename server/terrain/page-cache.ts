import type { Raster } from "../../shared/terrain/raster.js";

/** Pages of rasters in memory, bounded by bytes; the one unused for longest goes first. */
export interface PageCache {
  get(key: string): Raster | undefined;
  set(key: string, raster: Raster): void;
  /** Drops every page whose key begins so. */
  drop(prefix: string): void;
  readonly bytes: number;
  readonly hits: number;
  readonly misses: number;
}

export function pageCache(limitBytes: number): PageCache {
  // A Map keeps the order of insertion: the first key is the one unused for longest.
  const pages = new Map<string, Raster>();
  let bytes = 0;
  let hits = 0;
  let misses = 0;
  const remove = (key: string): void => {
    bytes -= pages.get(key)?.heightsM.byteLength ?? 0;
    pages.delete(key);
  };
  return {
    get(key) {
      const raster = pages.get(key);
      if (!raster) {
        misses++;
        return undefined;
      }
      hits++;
      pages.delete(key);
      pages.set(key, raster);
      return raster;
    },
    set(key, raster) {
      remove(key);
      // A page larger than the whole cache would only drive out all others and be dropped next.
      if (raster.heightsM.byteLength > limitBytes) return;
      pages.set(key, raster);
      bytes += raster.heightsM.byteLength;
      for (const oldest of pages.keys()) {
        if (bytes <= limitBytes) break;
        remove(oldest);
      }
    },
    drop(prefix) {
      for (const key of [...pages.keys()]) if (key.startsWith(prefix)) remove(key);
    },
    get bytes() {
      return bytes;
    },
    get hits() {
      return hits;
    },
    get misses() {
      return misses;
    },
  };
}
