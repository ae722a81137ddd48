import { geodesicPoints, inverse } from "../geodesy/geodesic.js";
import type { LatLon } from "./profile.js";

/** Equally spaced points of a geodesic, both ends included. */
export interface Path {
  readonly lengthM: number;
  readonly count: number;
  readonly latitudeDeg: Float64Array;
  /** Begins within -180..180 and goes on without a jump: may pass either. */
  readonly longitudeDeg: Float64Array;
}

/** Length of the WGS 84 geodesic in metres, along the ellipsoid. */
export function pathLengthM(from: LatLon, to: LatLon): number {
  return inverse({ from, to }).distanceM;
}

export function pathPoints(from: LatLon, to: LatLon, intervals: number): Path {
  const count = intervals + 1;
  const latitudeDeg = new Float64Array(count);
  const longitudeDeg = new Float64Array(count);
  const lengthM = geodesicPoints(from, to, count, latitudeDeg, longitudeDeg);
  // Only a path this far from the prime meridian at both ends can meet the antimeridian.
  if (Math.abs(longitudeDeg[0]!) + Math.abs(longitudeDeg[count - 1]!) > 180) unfold(longitudeDeg);
  return { lengthM, count, latitudeDeg, longitudeDeg };
}

/** A path of one point, so that a single height is found the way that profiles are. */
export function singlePoint(at: LatLon): Path {
  return {
    lengthM: 0,
    count: 1,
    latitudeDeg: Float64Array.of(at.latitudeDeg),
    longitudeDeg: Float64Array.of(at.longitudeDeg - 360 * Math.round(at.longitudeDeg / 360)),
  };
}

function unfold(longitudeDeg: Float64Array): void {
  for (let i = 1; i < longitudeDeg.length; i++) {
    const before = longitudeDeg[i - 1]!;
    longitudeDeg[i] = longitudeDeg[i]! - 360 * Math.round((longitudeDeg[i]! - before) / 360);
  }
}
