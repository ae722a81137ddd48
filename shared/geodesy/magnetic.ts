/**
 * Magnetic declination by the World Magnetic Model 2025: a potential of spherical harmonics up to degree 12, its
 * coefficients linear in time. Formulas as in its technical report (NOAA NCEI and BGS, section 1.2), from memory; held
 * against the 100 test rows that are published with the model.
 */
import type { LatLon } from "./coordinates.js";
import { WMM2025 } from "./wmm2025.data.js";

/** Years for which the model was made: at and behind the end somebody has to take its successor. */
export const MAGNETIC_YEARS = { from: 2025, to: 2030 } as const;

/**
 * Where less of the field than this is horizontal, nT, a compass is no guide: the warning zone of the model's own notes,
 * from memory.
 */
export const UNRELIABLE_BELOW_NT = 2000;

export interface MagneticField {
  /** From true north to magnetic north, degrees, positive east, -180 to 180. */
  readonly declinationDeg: number;
  /** Downwards from the horizontal, degrees. */
  readonly inclinationDeg: number;
  readonly horizontalNt: number;
  /** North, east and down in the frame of the ellipsoid, nT. */
  readonly northNt: number;
  readonly eastNt: number;
  readonly downNt: number;
}

const EPOCH = 2025;
const DEGREE = 12;
/** Mean radius of the geomagnetic reference, and WGS84, km. */
const REFERENCE_KM = 6371.2;
const SEMI_MAJOR_KM = 6378.137;
const FLATTENING = 1 / 298.257223563;

const DEG = Math.PI / 180;

/**
 * The field at a place.
 *
 *     X' = -sum (a/r)^(n+2) sum (g cos ml + h sin ml) dP/df
 *     Y' = 1/cos f sum (a/r)^(n+2) sum m (g sin ml - h cos ml) P
 *     Z' = -sum (n+1) (a/r)^(n+2) sum (g cos ml + h sin ml) P
 *
 * with P the Schmidt semi-normalized functions of sin f, f the geocentric latitude, turned into the geodetic frame.
 * @param heightM above the ellipsoid
 * @param decimalYear 2026.5 is the middle of 2026
 * @returns undefined outside the years of the model
 * @throws RangeError for a latitude beyond 90 or what is not finite
 */
export function magneticField(
  { latitudeDeg, longitudeDeg }: LatLon,
  heightM: number,
  decimalYear: number,
): MagneticField | undefined {
  if (![latitudeDeg, longitudeDeg, heightM, decimalYear].every(Number.isFinite) || Math.abs(latitudeDeg) > 90)
    throw new RangeError(`no place: ${latitudeDeg}, ${longitudeDeg}, ${heightM} m, ${decimalYear}`);
  if (decimalYear < MAGNETIC_YEARS.from || decimalYear >= MAGNETIC_YEARS.to) return undefined;
  // At a pole itself east has no direction: a hair beside it every formula holds.
  const latitude = Math.min(Math.max(latitudeDeg, -89.999999), 89.999999) * DEG;
  const { geocentric, radiusKm } = geocentricOf(latitude, heightM / 1000);
  const { value, slope } = legendre(Math.sin(geocentric), Math.cos(geocentric));
  const years = decimalYear - EPOCH;
  let [north, east, down] = [0, 0, 0];
  for (const [n, m, g0, h0, gRate, hRate] of WMM2025) {
    const [g, h] = [g0 + years * gRate, h0 + years * hRate];
    const order = m * longitudeDeg * DEG;
    const [cos, sin] = [Math.cos(order), Math.sin(order)];
    const weight = (REFERENCE_KM / radiusKm) ** (n + 2);
    const at = indexOf(n, m);
    north -= weight * (g * cos + h * sin) * slope[at]!;
    east += (weight * m * (g * sin - h * cos) * value[at]!) / Math.cos(geocentric);
    down -= (n + 1) * weight * (g * cos + h * sin) * value[at]!;
  }
  const turn = geocentric - latitude;
  const northNt = north * Math.cos(turn) - down * Math.sin(turn);
  const downNt = north * Math.sin(turn) + down * Math.cos(turn);
  const horizontalNt = Math.hypot(northNt, east);
  return {
    declinationDeg: Math.atan2(east, northNt) / DEG,
    inclinationDeg: Math.atan2(downNt, horizontalNt) / DEG,
    horizontalNt,
    northNt,
    eastNt: east,
    downNt,
  };
}

/** Geocentric latitude, rad, and distance from the centre, km, of a point above the ellipsoid. */
function geocentricOf(latitude: number, heightKm: number): { geocentric: number; radiusKm: number } {
  const eccentricity2 = FLATTENING * (2 - FLATTENING);
  const curvatureKm = SEMI_MAJOR_KM / Math.sqrt(1 - eccentricity2 * Math.sin(latitude) ** 2);
  const across = (curvatureKm + heightKm) * Math.cos(latitude);
  const up = (curvatureKm * (1 - eccentricity2) + heightKm) * Math.sin(latitude);
  return { geocentric: Math.atan2(up, across), radiusKm: Math.hypot(across, up) };
}

function indexOf(n: number, m: number): number {
  return (n * (n + 1)) / 2 + m;
}

/**
 * Schmidt semi-normalized associated Legendre functions of a latitude, and their slopes by it.
 *
 *     P(n, n) = sqrt((2n-1)/(2n)) cos f P(n-1, n-1), without the root for n = 1
 *     P(n, m) = ((2n-1) sin f P(n-1, m) - sqrt((n-1)^2 - m^2) P(n-2, m)) / sqrt(n^2 - m^2)
 *     cos f dP(n, m)/df = sqrt(n^2 - m^2) P(n-1, m) - n sin f P(n, m)
 */
function legendre(sin: number, cos: number): { readonly value: Float64Array; readonly slope: Float64Array } {
  const value = new Float64Array(indexOf(DEGREE + 1, 0));
  const slope = new Float64Array(value.length);
  value[0] = 1;
  for (let n = 1; n <= DEGREE; n++)
    for (let m = 0; m <= n; m++) {
      const at = indexOf(n, m);
      const below = m < n ? value[indexOf(n - 1, m)]! : 0;
      const root = Math.sqrt(n * n - m * m);
      if (m === n)
        value[at] = cos * value[indexOf(n - 1, n - 1)]! * (n === 1 ? 1 : Math.sqrt((2 * n - 1) / (2 * n)));
      else {
        const twoBelow = m < n - 1 ? value[indexOf(n - 2, m)]! : 0;
        value[at] = ((2 * n - 1) * sin * below - Math.sqrt((n - 1) ** 2 - m * m) * twoBelow) / root;
      }
      slope[at] = (root * below - n * sin * value[at]!) / cos;
    }
  return { value, slope };
}
