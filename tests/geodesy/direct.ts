import geographiclib from "geographiclib-geodesic";
import type { LatLon } from "../../shared/geodesy/coordinates.js";

/** The point reached from another by a bearing and a length (negative: backwards), longitude -180 to 180. */
export function direct(from: LatLon, azimuthDeg: number, distanceM: number): LatLon & { azimuthDeg: number } {
  const found = geographiclib.Geodesic.WGS84.Direct(
    from.latitudeDeg,
    from.longitudeDeg,
    azimuthDeg,
    distanceM,
  );
  const { azi2 } = found as { azi2: number };
  return { latitudeDeg: found.lat2!, longitudeDeg: found.lon2!, azimuthDeg: (azi2 + 360) % 360 };
}
