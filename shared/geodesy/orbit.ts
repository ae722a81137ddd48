/** Angle between a beam and the geostationary orbit. Source: geometry on a spherical Earth. Lean: no checks. */
import type { MethodReference } from "../propagation/method.js";
import type { Direction } from "./off-axis.js";

export const METHOD: MethodReference = {
  recommendation: "Geometry",
  section: "",
  title: "Angle between a beam and the geostationary orbit",
  status: "verified",
  note:
    "Spherical Earth, orbit of 42164 km. Refraction is counted by the pessimistic side: any bending of the ray from 0 to 1 degree " +
    "downward, the greatest from memory, unconfirmed.",
  checked: { by: "closed forms of azimuth and elevation of a satellite", tolerance: "1e-3 degrees" },
};

/** Radii of the Earth's equator and of the orbit, km. */
const EARTH_KM = 6378.137;
const ORBIT_KM = 42_164;

/** Most that air bends a ray on its way out, degrees; from memory, at the horizon, less above. */
export const GREATEST_BENDING_DEG = 1;

const RADIANS = Math.PI / 180;

/**
 * Least angle between the axis of a beam and any point of the orbit above the horizon, degrees.
 *
 * With the station at latitude phi and lambda the satellite's longitude east of it, the satellite lies at
 *
 *     east = rs sin lambda,   north = -rs sin phi cos lambda,   up = rs cos phi cos lambda - re
 *
 * A ray bends toward the ground, so that a beam at elevation e leaves the air at any of e - bending to e: the angle is the
 * least over that range and over the visible part of the orbit, found by steps of a degree of longitude and then closer.
 * @param latitudeDeg of the station, -90 to 90; beyond 81 degrees nothing of the orbit is visible
 * @param beam azimuth from true north, elevation as the antenna is pointed
 * @param bendingDeg 0: refraction not counted
 * @returns undefined where nothing of the orbit is above the horizon (less the bending)
 * @example orbitAngleDeg(45, { azimuthDeg: 180, elevationDeg: 38.2 }, 0) // 0.0
 */
export function orbitAngleDeg(
  latitudeDeg: number,
  beam: Direction,
  bendingDeg = GREATEST_BENDING_DEG,
): number | undefined {
  let nearest: number | undefined;
  let at = 0;
  const look = (longitudeDeg: number) => {
    const angle = angleToSatellite(latitudeDeg, beam, bendingDeg, longitudeDeg);
    if (angle === undefined || (nearest !== undefined && angle >= nearest)) return;
    nearest = angle;
    at = longitudeDeg;
  };
  for (let longitude = -82; longitude <= 82; longitude++) look(longitude);
  for (let step = 0.5; step > 1e-5; step /= 2) {
    const middle = at;
    look(middle - step);
    look(middle + step);
  }
  return nearest;
}

function angleToSatellite(
  latitudeDeg: number,
  beam: Direction,
  bendingDeg: number,
  longitudeDeg: number,
): number | undefined {
  const phi = latitudeDeg * RADIANS;
  const lambda = longitudeDeg * RADIANS;
  const east = ORBIT_KM * Math.sin(lambda);
  const north = -ORBIT_KM * Math.sin(phi) * Math.cos(lambda);
  const up = ORBIT_KM * Math.cos(phi) * Math.cos(lambda) - EARTH_KM;
  const elevationDeg = Math.atan2(up, Math.hypot(east, north)) / RADIANS;
  if (elevationDeg < -bendingDeg) return undefined;
  // In the vertical plane of the beam: forward along it and across.
  const azimuth = beam.azimuthDeg * RADIANS;
  const forward = east * Math.sin(azimuth) + north * Math.cos(azimuth);
  const across = east * Math.cos(azimuth) - north * Math.sin(azimuth);
  const nearestElevation = Math.atan2(up, forward) / RADIANS;
  const elevation =
    Math.min(beam.elevationDeg, Math.max(beam.elevationDeg - bendingDeg, nearestElevation)) * RADIANS;
  const along = forward * Math.cos(elevation) + up * Math.sin(elevation);
  const above = up * Math.cos(elevation) - forward * Math.sin(elevation);
  return Math.atan2(Math.hypot(across, above), along) / RADIANS;
}
