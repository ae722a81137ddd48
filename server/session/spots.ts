import type { Design } from "../../shared/design/design.js";
import type { Memory } from "../../shared/network/memory.js";
import { type SpotHeights, spotKey, spotsWanted } from "../../shared/rules/position-slips.js";
import type { TerrainStore } from "../terrain/store.js";

/**
 * Terrain where a slip in a position would be told by it.
 * @param known what was read before, of the same terrain
 * @returns the known itself where nothing else is wanted
 */
export async function spotHeights(
  design: Design,
  terrain: TerrainStore | undefined,
  known: SpotHeights,
  memory: Memory,
): Promise<SpotHeights> {
  const heights = new Map<string, number | undefined>();
  let isNew = false;
  for (const at of terrain ? spotsWanted(design, memory) : []) {
    const key = spotKey(at);
    if (heights.has(key)) continue;
    if (!known.has(key)) isNew = true;
    heights.set(key, known.has(key) ? known.get(key) : await terrain!.heightAt(at));
  }
  return isNew || heights.size !== known.size ? heights : known;
}
