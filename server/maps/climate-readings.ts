/** What the climate of a hop lacks and maps or terrain can say, read at the path's middle. */
import type { Hop } from "../../shared/design/design.js";
import type { ClimateReading } from "../../shared/evaluate/path/ground.js";
import type { MapFact } from "../../shared/propagation/maps.js";
import type { TerrainStore } from "../terrain/store.js";
import { roughnessOf } from "./roughness.js";
import type { MapStore } from "./store.js";

/** Facts still open; empty when the design states all that its methods ask for. */
export function openFacts({ climate, measuredRain }: Hop): MapFact[] {
  const facts: MapFact[] = [];
  const lacks = (fact: MapFact) => climate[fact] === undefined;
  const method = climate.multipathMethod;
  if (method === undefined || method === "current") facts.push(...(["logK", "dN75"] as const).filter(lacks));
  if (method === "preceding" || method === "quick") facts.push(...(["dN1"] as const).filter(lacks));
  if (method === "preceding" && lacks("terrainRoughnessM")) facts.push("terrainRoughnessM");
  if (measuredRain === undefined && lacks("rainRateMmPerH")) facts.push("rainRateMmPerH");
  if (lacks("rainHeightM")) facts.push("rainHeightM");
  return facts;
}

type Place = { readonly latitudeDeg: number; readonly longitudeDeg: number };

/** Half way, by the shorter way around: at 180 degrees longitudes jump. */
export function middleOf(from: Place, to: Place): Place {
  const turns = Math.round((to.longitudeDeg - from.longitudeDeg) / 360);
  const longitudeDeg = (from.longitudeDeg + to.longitudeDeg - 360 * turns) / 2;
  return {
    latitudeDeg: (from.latitudeDeg + to.latitudeDeg) / 2,
    longitudeDeg: longitudeDeg - 360 * Math.round(longitudeDeg / 360),
  };
}

export async function climateReadings(
  hop: Hop,
  maps: MapStore | undefined,
  terrain: TerrainStore | undefined,
): Promise<readonly ClimateReading[]> {
  const facts = openFacts(hop);
  const [from, to] = hop.ends.map(({ site }) => site.position);
  if (facts.length === 0 || from === undefined || to === undefined) return [];
  const middle = middleOf(from, to);
  const ofTerrain =
    terrain && facts.includes("terrainRoughnessM") ? await roughnessOf(terrain, middle) : undefined;
  const others = ofTerrain === undefined ? facts : facts.filter((fact) => fact !== ofTerrain.fact);
  const ofMaps = maps === undefined ? [] : await maps.readings(middle, others);
  return ofTerrain === undefined ? ofMaps : [...ofMaps, ofTerrain];
}
