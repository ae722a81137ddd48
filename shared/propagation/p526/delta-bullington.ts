/**
 * Diffraction loss of a general terrestrial path, the delta-Bullington method.
 * Rec. ITU-R P.526-15 (10/2019) section 4.5.2; P.1812-6 section 4.3.4, eq (37) to (39) and (85) to (89).
 */

import { wavelengthM } from "../constants.js";
import type { MethodReference } from "../method.js";
import { requireFinite, requirePositive } from "../required.js";
import { type BullingtonResult, bullington } from "./bullington.js";
import { type GroundPolarization, type SphericalEarthResult, sphericalEarth } from "./spherical-earth.js";

export const METHOD_DELTA_BULLINGTON: MethodReference = {
  recommendation: "ITU-R P.526-15",
  section: "4.5",
  title: "Diffraction over general terrain, delta-Bullington",
  status: "verified",
  note: "Agrees with the ITU-R examples within 0.006 dB, whose speed of light and ground are not published. P.526-16 (11/2025) exists; its text was not seen.",
  checked: {
    by: "20 ITU-R examples, two reference implementations",
    vectors: ["p526-delta-bullington", "p526-general-paths"],
    tolerance: "0.01 dB; 1e-7 dB",
  },
};

/** A terrain profile. Heights of inner points may be NaN where the terrain is unknown, those of the ends not. */
export interface PathProfile {
  /** Distances from end 1, m, rising, both ends included, first 0. */
  readonly distanceM: Float64Array;
  /** Bare terrain above sea level, m. */
  readonly heightM: Float64Array;
  /** Trees and buildings on top of the terrain, m; ignored at the two ends. */
  readonly coverHeightM?: Float64Array;
}

/** The radio side of the path. */
export interface DiffractionLink {
  /** Antenna heights above sea level, m. */
  readonly antenna1HeightM: number;
  readonly antenna2HeightM: number;
  /** Effective Earth radius k a, m, > 0; Infinity for a flat Earth. */
  readonly effectiveRadiusM: number;
  readonly frequencyHz: number;
  readonly polarization: GroundPolarization;
  /** Part of the path over sea, 0 (default) to 1. */
  readonly seaFraction?: number;
  /** Default c/f. Published examples round c; give theirs to repeat them to the last digit. */
  readonly wavelengthM?: number;
}

/** What a figure of diffraction does not know. */
export type DiffractionRemark =
  | { readonly code: "terrain-unknown" }
  | { readonly code: "points-left-out"; readonly unknown: number; readonly of: number }
  /** An antenna is not above the smooth surface: the loss is a lower bound. */
  | { readonly code: "spherical-left-out" };

/** The loss and every step that leads to it. */
export interface DeltaBullingtonResult {
  /** Diffraction loss relative to free space, dB, >= 0; 0 means no diffraction loss. */
  readonly lossDb: number;
  /** Bullington loss of the terrain; undefined when the profile has no known inner point. */
  readonly actual: BullingtonResult | undefined;
  /** Bullington loss of the smooth surface in its place. */
  readonly smooth: BullingtonResult | undefined;
  /** Loss over the smooth spherical Earth; undefined when an antenna is not above the smooth surface. */
  readonly spherical: SphericalEarthResult | undefined;
  /** Heights of the smooth surface at the two ends, m above sea level. */
  readonly smoothHeight1M: number;
  readonly smoothHeight2M: number;
  /** What the figure does not know; empty when it is whole. */
  readonly remarks: readonly DiffractionRemark[];
}

/**
 * Diffraction loss of a path over terrain.
 *
 *     L = Lba + max(Lsph - Lbs, 0)
 *     h1' = hts - hstd,   h2' = hrs - hsrd
 *
 * Lba is the Bullington loss of the terrain with its cover. Lbs is that of a smooth surface in its place: all inner
 * heights 0, the antennas at h1' and h2' above the smooth surface (hstd, hsrd). Lsph is the loss over a spherical Earth
 * with h1' and h2'. It is the median loss where ae is of the median gradient; other shares of time take other ae.
 *
 * Made for irregular terrain; for one known isolated edge on an otherwise clear hop the knife edge fits better.
 * @throws RangeError for unequal or too short arrays, unknown heights at the ends, or values that are not positive
 * @see Rec. ITU-R P.526-15 section 4.5.2. Agrees with the ITU-R's 20 examples within 0.006 dB (their c and ground
 *   are not published) and with two published reference implementations to 1e-7 dB
 */
export function deltaBullington(profile: PathProfile, link: DiffractionLink): DeltaBullingtonResult {
  requireUsable(profile, link);
  const { antenna1HeightM: hts, antenna2HeightM: hrs, effectiveRadiusM } = link;
  const lambda = link.wavelengthM ?? wavelengthM(link.frequencyHz);
  const { distanceM, heightM } = profile;
  const distance = distanceM[distanceM.length - 1]!;
  const path = {
    distanceM,
    antenna1HeightM: hts,
    antenna2HeightM: hrs,
    effectiveRadiusM,
    wavelengthM: lambda,
  };
  const remarks: DiffractionRemark[] = [];

  const actual = bullington(path, withCover(profile));
  if (actual === undefined) remarks.push({ code: "terrain-unknown" });
  const unknown = countUnknown(heightM);
  if (unknown > 0) remarks.push({ code: "points-left-out", unknown, of: heightM.length });

  const { smoothHeight1M, smoothHeight2M } = smoothSurface(distanceM, heightM, hts, hrs);
  const height1M = hts - smoothHeight1M;
  const height2M = hrs - smoothHeight2M;
  const smooth = bullington({ ...path, antenna1HeightM: height1M, antenna2HeightM: height2M }, undefined);

  let spherical: SphericalEarthResult | undefined;
  if (height1M > 0 && height2M > 0) {
    const { frequencyHz, polarization, seaFraction } = link;
    const over = { distanceM: distance, effectiveRadiusM, frequencyHz, polarization, seaFraction };
    spherical = sphericalEarth({ ...over, height1M, height2M, wavelengthM: lambda });
  } else {
    remarks.push({ code: "spherical-left-out" });
  }
  const added = spherical === undefined ? 0 : Math.max(spherical.lossDb - (smooth?.lossDb ?? 0), 0);
  return {
    lossDb: (actual?.lossDb ?? 0) + added,
    actual,
    smooth,
    spherical,
    smoothHeight1M,
    smoothHeight2M,
    remarks,
  };
}

/** Heights of a straight line at the two ends, m above sea level. */
export interface SmoothLine {
  readonly height1M: number;
  readonly height2M: number;
}

/**
 * Straight line fitted to the bare terrain by least squares. P.1812-6 eq (85) to (86a), P.452-17 eq (161) to (164).
 *
 *     v1 = sum (d_i - d_{i-1}) (h_i + h_{i-1})                                       i = 1..n
 *     v2 = sum (d_i - d_{i-1}) [h_i (2 d_i + d_{i-1}) + h_{i-1} (d_i + 2 d_{i-1})]
 *     hst = (2 v1 d - v2)/d^2,   hsr = (v2 - v1 d)/d^2
 *
 * Unknown points are bridged by a straight line.
 * @see Rec. ITU-R P.526-15 section 4.5.2
 */
export function smoothLine(distanceM: Float64Array, heightM: Float64Array): SmoothLine {
  const d = distanceM[distanceM.length - 1]!;
  let v1 = 0;
  let v2 = 0;
  let d0 = 0;
  let h0 = heightM[0]!;
  for (let i = 1; i < distanceM.length; i++) {
    const h = heightM[i]!;
    if (Number.isNaN(h)) continue;
    const di = distanceM[i]!;
    v1 += (di - d0) * (h + h0);
    v2 += (di - d0) * (h * (2 * di + d0) + h0 * (di + 2 * d0));
    d0 = di;
    h0 = h;
  }
  return { height1M: (2 * v1 * d - v2) / d ** 2, height2M: (v2 - v1 * d) / d ** 2 };
}

/**
 * Smooth surface: the fitted line, lowered under obstructions and never above the ground at the ends. P.1812-6 eq (87)
 * to (89), P.452-17 eq (165) to (167).
 *
 *     H_i = h_i - (hts (d - d_i) + hrs d_i)/d                                        i = 1..n-1
 *     hobs = max H_i,   at = max H_i/d_i,   ar = max H_i/(d - d_i)
 *     hobs > 0: hstp = hst - hobs at/(at + ar),   hsrp = hsr - hobs ar/(at + ar);   else hstp = hst, hsrp = hsr
 *     hstd = min(hstp, h_0),   hsrd = min(hsrp, h_n)
 *
 * H_i is measured from the direct line, without Earth bulge. Unknown points obstruct nothing.
 */
function smoothSurface(distanceM: Float64Array, heightM: Float64Array, hts: number, hrs: number) {
  const last = distanceM.length - 1;
  const d = distanceM[last]!;
  let { height1M: hst, height2M: hsr } = smoothLine(distanceM, heightM);
  let hobs = Number.NEGATIVE_INFINITY;
  let at = Number.NEGATIVE_INFINITY;
  let ar = Number.NEGATIVE_INFINITY;
  for (let i = 1; i < last; i++) {
    const di = distanceM[i]!;
    const H = heightM[i]! - (hts * (d - di) + hrs * di) / d;
    // All false for NaN.
    if (H > hobs) hobs = H;
    if (H > at * di) at = H / di;
    if (H > ar * (d - di)) ar = H / (d - di);
  }
  // Only for hobs > 0, whose sign the slopes have. Those of a denormal one may vanish; nothing is to be lowered then.
  if (at + ar > 0) {
    hst -= (hobs * at) / (at + ar);
    hsr -= (hobs * ar) / (at + ar);
  }
  return { smoothHeight1M: Math.min(hst, heightM[0]!), smoothHeight2M: Math.min(hsr, heightM[last]!) };
}

function withCover({ heightM, coverHeightM }: PathProfile): Float64Array {
  if (coverHeightM === undefined) return heightM;
  const surfaceM = heightM.slice();
  for (let i = 1; i < surfaceM.length - 1; i++) surfaceM[i]! += coverHeightM[i]!;
  return surfaceM;
}

function countUnknown(heightM: Float64Array): number {
  let unknown = 0;
  for (let i = 0; i < heightM.length; i++) if (Number.isNaN(heightM[i]!)) unknown++;
  return unknown;
}

function requireUsable(profile: PathProfile, link: DiffractionLink): void {
  const { distanceM, heightM, coverHeightM } = profile;
  const points = distanceM.length;
  if (
    points < 2 ||
    heightM.length !== points ||
    (coverHeightM !== undefined && coverHeightM.length !== points)
  ) {
    throw new RangeError("a profile needs at least two points, and as many heights as distances");
  }
  requirePositive("path length", distanceM[points - 1]!);
  requireFinite("height at end 1", heightM[0]!);
  requireFinite("height at end 2", heightM[points - 1]!);
  requireFinite("antenna1HeightM", link.antenna1HeightM);
  requireFinite("antenna2HeightM", link.antenna2HeightM);
  requirePositive("frequencyHz", link.frequencyHz);
  if (!(link.effectiveRadiusM > 0)) {
    throw new RangeError(
      `effectiveRadiusM must be above 0 (ducting has no diffraction figure), not ${link.effectiveRadiusM}`,
    );
  }
}
