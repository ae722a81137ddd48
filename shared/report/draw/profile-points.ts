/** The profile of a hop point by point: ground, ray and Fresnel zone at one k. Tables, drawings and CSV start from it. */

import type { Hop } from "../../design/design.js";
import type { HopResult } from "../../evaluate/account/result.js";
import { STANDARD_K_FACTOR } from "../../evaluate/path/climate.js";
import { bridgedFor } from "../../evaluate/path/known-ground.js";
import { earthBulgeM } from "../../propagation/earth.js";
import { fresnelRadiusM } from "../../propagation/p526/fresnel.js";
import { evenly, withPointsAt } from "../../terrain/between.js";
import type { TerrainProfile } from "../../terrain/profile.js";

export interface ProfilePoint {
  readonly distanceM: number;
  /** Bare ground above sea level; undefined where none is known. */
  readonly groundM?: number;
  /** What stands on it as a survey tells it; undefined: nothing, or nothing known. */
  readonly coverM?: number;
  /** Set where the ground is not known and a straight line stands in for it, as the network states. */
  readonly bridged?: true;
  /** How far the Earth rises above the chord between the ends, at the k of the profile. */
  readonly bulgeM: number;
  /** Height of the straight ray above the same chord; undefined while antennas or grounds are not known. */
  readonly rayM?: number;
  /** Radius of the first Fresnel zone, 0 at the ends; undefined without a frequency. */
  readonly fresnelRadiusM?: number;
}

export interface ProfileLine {
  readonly kFactor: number;
  readonly lengthM: number;
  readonly points: readonly ProfilePoint[];
}

/** A k so near to 0 that the Earth would stand above everything is a slip of the keyboard. */
const BEYOND_ANY_BULGE_M = 1e8;

/** @returns undefined when the path has no length, or k gives no Earth to draw */
export function profileLine(
  hop: Hop,
  result: HopResult,
  profile: TerrainProfile,
  kFactor: number,
): ProfileLine | undefined {
  const lengthM = result.distanceM ?? profile.distanceM.at(-1) ?? 0;
  if (!(lengthM > 0) || !(bulgeM(lengthM / 2, lengthM, kFactor) < BEYOND_ANY_BULGE_M)) return undefined;
  const antennas = antennaHeightsM(result);
  const frequencyHz = fresnelFrequencyHz(hop);
  const { heightM, coverM } = bridgedFor(hop, profile).profile;
  const points: ProfilePoint[] = [];
  for (let i = 0; i < heightM.length; i++) {
    const distanceM = Math.min(profile.distanceM[i]!, lengthM);
    const height = heightM[i]!;
    points.push({
      distanceM,
      groundM: Number.isFinite(height) ? height : undefined,
      coverM: coverM?.[i] || undefined,
      bridged: Number.isNaN(profile.heightM[i]!) && Number.isFinite(height) ? true : undefined,
      bulgeM: bulgeM(distanceM, lengthM, kFactor),
      rayM: antennas && antennas[0] + ((antennas[1] - antennas[0]) * distanceM) / lengthM,
      fresnelRadiusM: frequencyHz && fresnelRadiusM(distanceM, lengthM - distanceM, frequencyHz),
    });
  }
  return { kFactor, lengthM, points };
}

/** Of a survey with few points the Earth's curve and the Fresnel zone want more to be drawn. */
const DRAWN_INTERVALS = 300;

/** The same as it is drawn: with points between those surveyed. */
export function drawnLine(
  hop: Hop,
  result: HopResult,
  profile: TerrainProfile,
  kFactor: number,
): ProfileLine | undefined {
  const lengthM = profile.distanceM.at(-1) ?? 0;
  if (!profile.straight || !(lengthM > 0)) return profileLine(hop, result, profile, kFactor);
  const counted = bridgedFor(hop, profile).profile;
  return profileLine(hop, result, withPointsAt(counted, evenly(lengthM, DRAWN_INTERVALS)), kFactor);
}

/** Median k of the hop as the engine takes it: 4/3 where the climate states none that gives a straight ray. */
export function drawnKFactor(hop: Hop): number {
  const stated = hop.climate.kFactor;
  return stated !== undefined && stated > 0 ? stated : STANDARD_K_FACTOR;
}

export function bulgeM(distanceM: number, lengthM: number, kFactor: number): number {
  return earthBulgeM(distanceM, lengthM - distanceM, kFactor);
}

/** 1.33 is written for 4/3. */
export function sameK(a: number, b: number): boolean {
  return Math.abs(a - b) < 0.01;
}

/** Antenna centres above sea level. */
export function antennaHeightsM(result: HopResult): readonly [number, number] | undefined {
  const [from, to] = result.geometry ?? [];
  return from && to && [from.groundM + from.antennaHeightM, to.groundM + to.antennaHeightM];
}

/** The lower of both directions, whose zone is the wider; the middle of the radio's tuning range while there is none. */
function fresnelFrequencyHz(hop: Hop): number | undefined {
  const stated = hop.ends.map((end) => end.transmitFrequencyHz).filter((hz) => hz !== undefined);
  const tuning = hop.radio?.tuning;
  const frequencyHz = stated.length > 0 ? Math.min(...stated) : tuning && (tuning.fromHz + tuning.toHz) / 2;
  return frequencyHz !== undefined && frequencyHz > 0 ? frequencyHz : undefined;
}
