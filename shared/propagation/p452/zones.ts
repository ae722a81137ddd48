/** Lengths of the zones along a path. Rec. ITU-R P.452-18 section 3.2.1 (number from memory). */
import { type ClearAirPath, INLAND, SEA } from "./path.js";

export interface ZoneLengths {
  /** Longest unbroken run of land (zones 1 and 2), km. */
  readonly dtmKm: number;
  /** Longest unbroken run of inland (zone 2), km. */
  readonly dlmKm: number;
  /** Share of the path over sea, 0 to 1. */
  readonly omega: number;
}

/**
 * Each point owns half of the step to each of its neighbours. A path without zones is inland throughout.
 *
 *     own_i = (d_{i+1} - d_{i-1})/2,   at the ends half of the one step
 *     omega = sum of own_i over sea / d
 *     dtm, dlm = greatest sum of own_i over neighbouring points of land, of inland
 *
 * @see Rec. ITU-R P.452-18 section 3 (its number from memory)
 */
export function zoneLengths({ distanceM, zone }: Pick<ClearAirPath, "distanceM" | "zone">): ZoneLengths {
  const last = distanceM.length - 1;
  const d = distanceM[last]!;
  if (zone === undefined) return { dtmKm: d / 1000, dlmKm: d / 1000, omega: 0 };
  let land = 0;
  let inland = 0;
  let longestLand = 0;
  let longestInland = 0;
  let sea = 0;
  for (let i = 0; i <= last; i++) {
    // The middles of the two steps at the point.
    const from = i === 0 ? 0 : (distanceM[i - 1]! + distanceM[i]!) / 2;
    const to = i === last ? d : (distanceM[i]! + distanceM[i + 1]!) / 2;
    const own = to - from;
    land = zone[i] === SEA ? 0 : land + own;
    inland = zone[i] === INLAND ? inland + own : 0;
    if (zone[i] === SEA) sea += own;
    if (land > longestLand) longestLand = land;
    if (inland > longestInland) longestInland = inland;
  }
  return { dtmKm: longestLand / 1000, dlmKm: longestInland / 1000, omega: Math.min(1, sea / d) };
}
