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
  const pages = new Map<string, { readonly raster: Raster; usedAt: number }>();
  let bytes = 0;
  let hits = 0;
  let misses = 0;
  // Counted, not moved to the end of the map: pages are asked for a million times, and seldom dropped.
  let uses = 0;
  const remove = (key: string): void => {
    bytes -= pages.get(key)?.raster.heightsM.byteLength ?? 0;
    pages.delete(key);
  };
  const longestUnused = (): string => {
    let [oldest, at] = ["", Number.POSITIVE_INFINITY];
    for (const [key, { usedAt }] of pages) if (usedAt < at) [oldest, at] = [key, usedAt];
    return oldest;
  };
  return {
    get(key) {
      const page = pages.get(key);
      if (!page) {
        misses++;
        return undefined;
      }
      hits++;
      page.usedAt = uses++;
      return page.raster;
    },
    set(key, raster) {
      remove(key);
      // A page larger than the whole cache would only drive out all others and be dropped next.
      if (raster.heightsM.byteLength > limitBytes) return;
      pages.set(key, { raster, usedAt: uses++ });
      bytes += raster.heightsM.byteLength;
      while (bytes > limitBytes) remove(longestUnused());
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
