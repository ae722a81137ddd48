/** Diffraction over one obstacle. Rec. ITU-R P.526-15 (10/2019) sections 4.1 and 4.2. */

import { wavelengthM } from "../constants.js";
import type { MethodReference } from "../method.js";
import { requireFinite, requireNotNegative, requirePositive } from "../validity.js";
import { fresnelIntegrals, fresnelRadiusM } from "./fresnel.js";

export const METHOD_KNIFE_EDGE: MethodReference = {
  recommendation: "ITU-R P.526-15",
  section: "4.1",
  title: "Single knife edge",
  status: "verified",
  note: "The approximate form for v > -0.78; the exact form is within 0.13 dB of it up to v = 5.",
};

export const METHOD_ROUNDED_OBSTACLE: MethodReference = {
  recommendation: "ITU-R P.526-15",
  section: "4.2",
  title: "Single rounded obstacle",
  status: "from memory",
  note: "Also read in one public source file; no published number was found to check it.",
};

/** An edge between the ends of a path. */
export interface KnifeEdge {
  /** Height of the top above the straight line between the antennas, m; negative below it. */
  readonly heightM: number;
  /** Distances to the two ends, m, > 0. */
  readonly d1M: number;
  readonly d2M: number;
  readonly frequencyHz: number;
}

/** Loss over a knife edge with the quantities that lead to it. */
export interface KnifeEdgeResult {
  /** Loss in dB by the approximate form, 0 at v <= -0.78. */
  readonly lossDb: number;
  /** Diffraction parameter v (nu). */
  readonly v: number;
  readonly firstFresnelRadiusM: number;
  /** Clearance over the edge in first Fresnel radii: -h/R1, positive when the edge lies below the line. */
  readonly clearanceRatio: number;
}

/**
 * Loss over a single knife edge: v = h sqrt((2/lambda)(1/d1 + 1/d2)), loss J(v).
 * @throws RangeError for a distance or frequency that is not positive
 * @see Rec. ITU-R P.526-15 section 4.1
 * @example knifeEdge({ heightM: 0, d1M: 5000, d2M: 5000, frequencyHz: 7e9 }).lossDb // 6.03 dB
 */
export function knifeEdge(edge: KnifeEdge): KnifeEdgeResult {
  requireFinite("heightM", edge.heightM);
  requirePositive("d1M", edge.d1M);
  requirePositive("d2M", edge.d2M);
  const firstFresnelRadiusM = fresnelRadiusM(edge.d1M, edge.d2M, edge.frequencyHz);
  const v = (Math.SQRT2 * edge.heightM) / firstFresnelRadiusM;
  return {
    lossDb: knifeEdgeLossDb(v),
    v,
    firstFresnelRadiusM,
    clearanceRatio: -edge.heightM / firstFresnelRadiusM,
  };
}

/**
 * J(v), approximate form: 6.9 + 20 log(sqrt((v - 0.1)^2 + 1) + v - 0.1) for v > -0.78, else 0.
 *
 * Within 0.13 dB of the exact form for -0.78 < v <= 5 (largest difference of the checked values: 0.123 dB).
 * @returns loss in dB, never negative
 * @see Rec. ITU-R P.526-15 section 4.1; P.1812-6 eq (12), P.452-17 eq (13)
 */
export function knifeEdgeLossDb(v: number): number {
  if (v <= -0.78) return 0;
  const u = v - 0.1;
  return Math.max(0, 6.9 + 20 * Math.log10(Math.sqrt(u * u + 1) + u));
}

/**
 * J(v), exact form from the Fresnel integrals.
 * @returns loss in dB; below v = -0.78 it oscillates about 0 and may be negative (a gain)
 * @see Rec. ITU-R P.526-15 section 4.1; checked against an independent library's Fresnel integrals
 */
export function knifeEdgeLossExactDb(v: number): number {
  const { cosine: C, sine: S } = fresnelIntegrals(v);
  return -20 * Math.log10(Math.sqrt((1 - C - S) ** 2 + (C - S) ** 2) / 2);
}

/**
 * Loss over a single obstacle with a rounded top: J(v) + T(m, n).
 *
 * UNCONFIRMED: from memory and read in one public source file; no published number was found to check it.
 * @param edge the vertex, where the tangents from both ends meet; the method is for v > 0
 * @param radiusM radius of curvature of the top, >= 0; 0 gives the knife edge
 * @returns loss in dB and notes; for v <= 0 the knife-edge figure alone, with a note
 * @see Rec. ITU-R P.526-15 section 4.2, not checked against the Recommendation
 */
export function roundedObstacle(
  edge: KnifeEdge,
  radiusM: number,
): { lossDb: number; notes: readonly string[] } {
  requireNotNegative("radiusM", radiusM);
  const { lossDb, v } = knifeEdge(edge);
  const unconfirmed = "rounded obstacle: formula not checked against Rec. ITU-R P.526 section 4.2";
  if (v <= 0) {
    return {
      lossDb,
      notes: [unconfirmed, "vertex at or below the direct line: knife edge used, curvature left out"],
    };
  }
  if (radiusM === 0) return { lossDb, notes: [unconfirmed] };
  const q = (Math.PI * radiusM) / wavelengthM(edge.frequencyHz);
  const m = (radiusM * (1 / edge.d1M + 1 / edge.d2M)) / Math.cbrt(q);
  const n = (edge.heightM * Math.cbrt(q) ** 2) / radiusM;
  const mn = m * n;
  const common = 7.2 * Math.sqrt(m) - 2 * m + 3.6 * m ** 1.5 - 0.8 * m * m;
  const T = mn <= 4 ? common + 12.5 * mn : common + 17 * mn - 6 - 20 * Math.log10(mn);
  return { lossDb: lossDb + T, notes: [unconfirmed] };
}
