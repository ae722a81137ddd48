/**
 * What a path is before a frequency and a share of time are asked: shared by all of them.
 * Rec. ITU-R P.452-18 section 3 and Attachment 2.
 */
import { MEAN_EARTH_RADIUS_M } from "../constants.js";
import { figures, type Outcome, outsideRange, refuse } from "../outcome.js";
import { type PathProfile, smoothLine } from "../p526/index.js";
import { type AnomalousPropagation, anomalousPropagation } from "./anomalous-propagation.js";
import { type DuctingHeights, ductingHeights } from "./ducting-heights.js";
import { type Horizons, horizons } from "./horizons.js";
import { type ClearAirPath, coastDistances, pathRefusal } from "./path.js";
import { type ZoneLengths, zoneLengths } from "./zones.js";

/** kbeta = 3, eq (6b): the Earth radius that is exceeded for beta0. */
const K_BETA = 3;

/** Nearer to an end than this no cover counts, m. */
const NO_COVER_M = 50;

export interface ClearAirGeometry extends ZoneLengths, AnomalousPropagation, Horizons, DuctingHeights {
  readonly dKm: number;
  /** Antennas above sea level, m. */
  readonly htsM: number;
  readonly hrsM: number;
  /** Straight line fitted to the terrain, at the two ends, m above sea level. */
  readonly smoothTM: number;
  readonly smoothRM: number;
  /** Median effective Earth radius, eq (5), (6a), and the one exceeded for beta0. */
  readonly k50: number;
  readonly aeM: number;
  readonly aBetaM: number;
  /** Straight distance of the antennas, eq (8a), km. */
  readonly d3Km: number;
  readonly dctKm: number;
  readonly dcrKm: number;
  readonly seaLevelN: number;
  /** As diffraction takes it: bare terrain, and the cover that counts. */
  readonly profile: PathProfile;
}

/**
 *     hts = h_0 + htg,   hrs = h_n + hrg
 *     k50 = 157/(157 - DN)                                  (5)
 *     ae = 6371 k50,   abeta = 6371 * 3 km                  (6a), (6b)
 *     d3 = sqrt(d^2 + ((hts - hrs)/1000)^2)    km           (8a)
 *
 * Everything but diffraction uses the bare terrain. O(n).
 * @returns refused for a profile that is none (fewer than 4 points, distances that do not rise, an unknown height or
 *   zone), antennas not above the ground, DN not from 0 to 156; remarked beyond 10 000 km
 * @see Rec. ITU-R P.452-18 section 3 (its number from memory) and Attachment 2
 */
export function clearAirGeometry(path: ClearAirPath): Outcome<{ readonly geometry: ClearAirGeometry }> {
  const unusable = pathRefusal(path);
  if (unusable) return refuse(unusable);
  const { distanceM, heightM } = path;
  const last = distanceM.length - 1;
  const dKm = distanceM[last]! / 1000;
  const htsM = heightM[0]! + path.antennaTM;
  const hrsM = heightM[last]! + path.antennaRM;
  const k50 = 157 / (157 - path.lapseNPerKm);
  const aeM = k50 * MEAN_EARTH_RADIUS_M;
  const zones = zoneLengths(path);
  const seen = horizons(path, htsM, hrsM, aeM);
  const line = smoothLine(distanceM, heightM);
  const heights = ductingHeights(path, htsM, hrsM, line, seen);
  const { dctM, dcrM } = coastDistances(path);
  const numbers = {
    dKm,
    htsM,
    hrsM,
    smoothTM: line.height1M,
    smoothRM: line.height2M,
    k50,
    aeM,
    aBetaM: K_BETA * MEAN_EARTH_RADIUS_M,
    d3Km: Math.hypot(dKm, (htsM - hrsM) / 1000),
    ...zones,
    ...anomalousPropagation(zones, path.latitudeDeg),
    ...seen,
    ...heights,
    dctKm: dctM / 1000,
    dcrKm: dcrM / 1000,
    seaLevelN: path.seaLevelN,
  };
  // The profile is known to be finite; its points are not walked through again.
  const found = figures(numbers, [outsideRange(dKm, 0, 10_000, "path length", "km")]);
  if (!found.ok) return found;
  const profile = { distanceM, heightM, coverHeightM: coverThatCounts(path) };
  return { ok: true, validity: found.validity, geometry: { ...numbers, profile } };
}

/** Cover without that within 50 m of the ends. */
function coverThatCounts({ distanceM, coverHeightM }: ClearAirPath): Float64Array | undefined {
  if (coverHeightM === undefined) return undefined;
  const d = distanceM[distanceM.length - 1]!;
  return coverHeightM.map((height, i) => {
    const nearest = Math.min(distanceM[i]!, d - distanceM[i]!);
    return nearest < NO_COVER_M ? 0 : height;
  });
}
