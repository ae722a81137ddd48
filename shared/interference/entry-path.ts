/** What lies between a sender and a receiver: the loss by P.452 over the terrain, or the least of any. */
import type { InterferenceTerms } from "../design/interference.js";
import { inverse } from "../geodesy/geodesic.js";
import { type Direction, leastOffAxisAngleDeg, offAxisAngleDeg } from "../geodesy/off-axis.js";
import { clearAirLosses } from "../propagation/p452/clear-air.js";
import { type ClearAirGeometry, clearAirGeometry } from "../propagation/p452/geometry.js";
import { lowerBoundDb } from "../propagation/p452/lower-bound.js";
import type { TerrainProfile } from "../terrain/profile.js";
import type { AntennaView } from "./antenna-view.js";
import { gasDbPerKm, PRESSURE_HPA, TEMPERATURE_K } from "./search.js";
import type { Receiver, Sender } from "./station.js";

/** Values for a preview where nothing is stated: middle latitudes, from memory. */
const PREVIEW_LAPSE_N_PER_KM = 45;
const PREVIEW_SEA_LEVEL_N = 325;
const MEAN_EARTH_M = 6_371_000;

/** What a path is computed with, the same for all of a network. */
export interface PathTerms {
  readonly longTermPercent: number;
  readonly shortTermPercent: number;
  readonly lapseNPerKm: number;
  readonly seaLevelN: number;
  readonly seaBelowM?: number;
  /** 0 to 1; counts where `seaBelowM` is not stated. */
  readonly seaShare?: number;
}

export function pathTermsOf(terms: InterferenceTerms): PathTerms {
  return {
    longTermPercent: terms.longTermPercent ?? 20,
    shortTermPercent: terms.shortTermPercent ?? 0.01,
    lapseNPerKm: terms.lapseNPerKm ?? PREVIEW_LAPSE_N_PER_KM,
    seaLevelN: terms.surfaceRefractivity ?? PREVIEW_SEA_LEVEL_N,
    ...(terms.seaBelowM !== undefined && { seaBelowM: terms.seaBelowM }),
    ...(terms.seaSharePercent !== undefined && { seaShare: terms.seaSharePercent / 100 }),
  };
}

/** `own`: as close as the raster is. */
export type ProfileStep = "coarse" | "own";

/** What lies between two stations. */
export interface EntryPath {
  readonly distanceM: number;
  /** `profile`: P.452 over the terrain; `bound`: its least loss over any, since the terrain is not known. */
  readonly by: "profile" | "bound";
  readonly longTermLossDb: number;
  readonly shortTermLossDb: number;
  /** What of these lies above the least loss of any terrain. */
  readonly longTermShieldDb: number;
  readonly shortTermShieldDb: number;
  /** Of the profile: the one the network wants, or the raster's own; undefined: there is none. */
  readonly step?: ProfileStep;
  /** What rules the long-term loss; undefined: the bound. */
  readonly ruledBy?: string;
  /** Line of sight or over a horizon; undefined: not known. */
  readonly transHorizon?: boolean;
  /** Directions at sender and receiver; the elevation is that of the ray, or of the horizon. Undefined: not known. */
  readonly leaves: Direction | undefined;
  readonly arrives: Direction | undefined;
}

/**
 * @param profile from the sender to the receiver; undefined: not known, or with gaps
 * @param step what it was read at
 */
export function entryPath(
  sender: Sender,
  receiver: Receiver,
  terms: PathTerms,
  profile: TerrainProfile | undefined,
  step: ProfileStep = "coarse",
): EntryPath {
  const geometry = profile && geometryOf(sender, receiver, terms, profile);
  const course = inverse({ from: sender.place.position, to: receiver.place.position });
  if (geometry === undefined) return boundPath(sender, receiver, terms, course);
  const leaves = { azimuthDeg: course.azimuthFromDeg, elevationDeg: degrees(geometry.thetaTMrad) };
  const arrives = { azimuthDeg: course.azimuthToDeg, elevationDeg: degrees(geometry.thetaRMrad) };
  const losses = clearAirLosses(
    geometry,
    {
      frequencyHz: sender.frequencyHz,
      polarization: sender.polarization === "horizontal" ? "horizontal" : "vertical",
      gainTDbi: gainTowards(sender, leaves),
      gainRDbi: gainTowards(receiver, arrives),
      dryPressureHPa: PRESSURE_HPA,
      temperatureK: TEMPERATURE_K,
    },
    [terms.longTermPercent, terms.shortTermPercent],
  );
  if (!losses.ok) return boundPath(sender, receiver, terms, course);
  const [long, short] = losses.losses;
  const least = leastLosses(sender, terms, course.distanceM);
  return {
    distanceM: course.distanceM,
    by: "profile",
    longTermLossDb: long!.LbDb,
    shortTermLossDb: short!.LbDb,
    longTermShieldDb: Math.max(0, long!.LbDb - least.longDb),
    shortTermShieldDb: Math.max(0, short!.LbDb - least.shortDb),
    step,
    ruledBy: long!.ruledBy,
    transHorizon: geometry.transHorizon,
    leaves,
    arrives,
  };
}

const SEA = 3;
const INLAND = 2;

function geometryOf(
  sender: Sender,
  receiver: Receiver,
  terms: PathTerms,
  { distanceM, heightM, coverM, gaps }: TerrainProfile,
): ClearAirGeometry | undefined {
  if (gaps.length > 0 || heightM.length < 4) return undefined;
  const heights = heightM.slice();
  if (sender.place.groundM !== undefined) heights[0] = sender.place.groundM;
  if (receiver.place.groundM !== undefined) heights[heights.length - 1] = receiver.place.groundM;
  const zone = zonesOf(terms, heightM);
  const made = clearAirGeometry({
    distanceM,
    heightM: heights,
    ...(coverM && { coverHeightM: coverM }),
    ...(zone && { zone }),
    antennaTM: sender.place.antennaM,
    antennaRM: receiver.place.antennaM,
    latitudeDeg: (sender.place.position.latitudeDeg + receiver.place.position.latitudeDeg) / 2,
    lapseNPerKm: terms.lapseNPerKm,
    seaLevelN: terms.seaLevelN,
    ...(sender.place.coastM !== undefined && { coastTM: sender.place.coastM }),
    ...(receiver.place.coastM !== undefined && { coastRM: receiver.place.coastM }),
  });
  return made.ok ? made.geometry : undefined;
}

/** Sea by the height of the terrain; else by the stated share, in one piece in the middle of the path. */
function zonesOf({ seaBelowM, seaShare = 0 }: PathTerms, heightM: Float64Array): Uint8Array | undefined {
  if (seaBelowM !== undefined)
    return Uint8Array.from(heightM, (height) => (height <= seaBelowM ? SEA : INLAND));
  if (!(seaShare > 0)) return undefined;
  const last = heightM.length - 1;
  return Uint8Array.from(heightM, (_, i) => (Math.abs(i / last - 0.5) <= seaShare / 2 ? SEA : INLAND));
}

function boundPath(
  sender: Sender,
  receiver: Receiver,
  terms: PathTerms,
  course: ReturnType<typeof inverse>,
): EntryPath {
  const { distanceM, azimuthFromDeg, azimuthToDeg } = course;
  const { longDb, shortDb } = leastLosses(sender, terms, distanceM);
  const elevation = straightElevationsDeg(sender, receiver, terms, distanceM);
  return {
    distanceM,
    by: "bound",
    longTermLossDb: longDb,
    shortTermLossDb: shortDb,
    longTermShieldDb: 0,
    shortTermShieldDb: 0,
    leaves: { azimuthDeg: azimuthFromDeg, elevationDeg: elevation?.[0] ?? Number.NaN },
    arrives: { azimuthDeg: azimuthToDeg, elevationDeg: elevation?.[1] ?? Number.NaN },
  };
}

/** Over any terrain. */
function leastLosses(
  { frequencyHz }: Sender,
  { seaLevelN, longTermPercent, shortTermPercent }: PathTerms,
  distanceM: number,
): { readonly longDb: number; readonly shortDb: number } {
  const gammaDbPerKm = gasDbPerKm(frequencyHz);
  const loss = (timePercent: number) =>
    lowerBoundDb(distanceM, { frequencyHz, timePercent, gammaDbPerKm, seaLevelN });
  return { longDb: loss(longTermPercent), shortDb: loss(shortTermPercent) };
}

/** Over the effective Earth; undefined where a ground is not known. */
function straightElevationsDeg(
  { place: { groundM: from, antennaM: above } }: Sender,
  { place: { groundM: to, antennaM: farAbove } }: Receiver,
  { lapseNPerKm }: PathTerms,
  distanceM: number,
): readonly [number, number] | undefined {
  if (from === undefined || to === undefined) return undefined;
  const radiusM = (MEAN_EARTH_M * 157) / (157 - lapseNPerKm);
  const rise = (to + farAbove - from - above) / distanceM;
  const bulge = distanceM / (2 * radiusM);
  return [degrees(1000 * Math.atan(rise - bulge)), degrees(1000 * Math.atan(-rise - bulge))];
}

function degrees(mrad: number): number {
  return (mrad / 1000) * (180 / Math.PI);
}

/** Angle off the axis; where the elevation is not known the least of any; 0 where the antenna looks is not known. */
export function offAxisDeg(boresight: Direction | undefined, direction: Direction | undefined): number {
  if (boresight === undefined || direction === undefined) return 0;
  return Number.isNaN(direction.elevationDeg)
    ? leastOffAxisAngleDeg(boresight, direction.azimuthDeg)
    : offAxisAngleDeg(boresight, direction);
}

function gainTowards(
  { antenna, place }: { readonly antenna: AntennaView; readonly place: Sender["place"] },
  direction: Direction,
): number {
  return antenna.gainDbi - antenna.at(offAxisDeg(place.boresight, direction)).coDb;
}
