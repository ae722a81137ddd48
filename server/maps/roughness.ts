/** Terrain roughness of Rec. ITU-R P.530-17 from the design's own terrain. */
import type { ClimateReading } from "../../shared/evaluate/path/ground.js";
import type { TerrainStore } from "../terrain/store.js";

/** Half of 110 km, and 30 seconds of arc. */
const HALF_SIDE_M = 55_000;
const STEP_DEG = 1 / 120;
const METRES_A_DEGREE = 111_320;
/** Part of the area that must have a height; with less the terrain does not cover it. */
const LEAST_COVER = 0.95;

type Place = { readonly latitudeDeg: number; readonly longitudeDeg: number };

/**
 * Standard deviation of the terrain heights in 110 km by 110 km around a place, sampled every 30 seconds of arc.
 * @returns undefined where the terrain does not cover the area, or the area reaches a pole
 */
export async function roughnessOf(terrain: TerrainStore, at: Place): Promise<ClimateReading | undefined> {
  const halfLatitude = HALF_SIDE_M / METRES_A_DEGREE;
  const halfLongitude = halfLatitude / Math.cos((at.latitudeDeg * Math.PI) / 180);
  if (!(Math.abs(at.latitudeDeg) + halfLatitude < 89)) return undefined;
  // The corners first: a terrain of one valley is found not to cover the area without reading it all.
  for (const [north, east] of [
    [1, 1],
    [1, -1],
    [-1, 1],
    [-1, -1],
  ] as const) {
    const corner = {
      latitudeDeg: at.latitudeDeg + north * halfLatitude,
      longitudeDeg: at.longitudeDeg + east * halfLongitude,
    };
    if ((await heightAt(terrain, corner)) === undefined) return undefined;
  }
  let points = 0;
  let known = 0;
  let mean = 0;
  let squares = 0;
  for (let south = -halfLatitude; south <= halfLatitude; south += STEP_DEG) {
    for (let west = -halfLongitude; west <= halfLongitude; west += STEP_DEG) {
      points++;
      const place = { latitudeDeg: at.latitudeDeg + south, longitudeDeg: at.longitudeDeg + west };
      const height = await heightAt(terrain, place);
      if (height === undefined) continue;
      known++;
      const from = height - mean;
      mean += from / known;
      squares += from * (height - mean);
    }
  }
  if (known < LEAST_COVER * points) return undefined;
  return {
    fact: "terrainRoughnessM",
    value: Math.sqrt(squares / known),
    origin: "terrain",
    from: { code: "heights-around", heights: known },
  };
}

async function heightAt(terrain: TerrainStore, at: Place): Promise<number | undefined> {
  const now = terrain.heightAtSync(at);
  return now === "loading" ? terrain.heightAt(at) : now;
}
