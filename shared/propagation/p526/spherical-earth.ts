/**
 * Diffraction over a smooth spherical Earth. Rec. ITU-R P.526-15 (10/2019) sections 3.1.1 and 3.2. The first term
 * stands here in the form of P.1812-6 (GHz, km); P.526 prints it with MHz, which moves its constants by powers of ten.
 */

import { wavelengthM } from "../constants.js";
import type { MethodReference } from "../method.js";
import { requirePositive } from "../required.js";

export const METHOD_SPHERICAL_EARTH: MethodReference = {
  recommendation: "ITU-R P.526-15",
  section: "3.1.1, 3.2",
  title: "Diffraction over a smooth spherical Earth",
  status: "verified",
  note: "Agrees with two published reference implementations; ground constants of P.1812 and P.452.",
  checked: {
    by: "a reference implementation",
    vectors: ["p526-spherical-earth"],
    tolerance: "1e-7 dB",
  },
};

/** Polarization of a wave against the ground. */
export type GroundPolarization = "horizontal" | "vertical";

/** A path over a smooth Earth. */
export interface SphericalPath {
  readonly distanceM: number;
  /** Antenna heights above the smooth surface, m, > 0. */
  readonly height1M: number;
  readonly height2M: number;
  /** Effective Earth radius k a, m, > 0; Infinity for a flat Earth. */
  readonly effectiveRadiusM: number;
  readonly frequencyHz: number;
  readonly polarization: GroundPolarization;
  /** Part of the path over sea, 0 (default) to 1. */
  readonly seaFraction?: number;
  /** Default c/f. Published examples round c; give theirs to repeat them to the last digit. */
  readonly wavelengthM?: number;
}

/** The loss and, where the ends see each other, the steps of section 3.2. */
export interface SphericalEarthResult {
  /** Diffraction loss relative to free space, dB, >= 0 within sight of each other. */
  readonly lossDb: number;
  /** Distance at which the path would just graze the surface, m; undefined for a flat Earth. */
  readonly marginalDistanceM: number | undefined;
  /** Only within that distance: */
  readonly clearance?: SmoothClearance;
}

/** Smallest clearance between ray and smooth Earth. */
interface SmoothClearance {
  /** Clearance and where it is, measured from end 1. */
  readonly clearanceM: number;
  readonly distanceFromEnd1M: number;
  /** Clearance at which the loss vanishes. */
  readonly requiredClearanceM: number;
  /** Only where it is not reached: the radius that puts the path at its horizon, and the loss there. */
  readonly horizonRadiusM?: number;
  readonly horizonLossDb?: number;
}

/** Electrical constants of the ground that P.1812 and P.452 take: relative permittivity, conductivity in S/m. */
const LAND = { permittivity: 22, conductivity: 0.003 };
const SEA = { permittivity: 80, conductivity: 5 };

/**
 * Diffraction loss over a smooth Earth at any distance, all lengths in m.
 *
 *     dlos = sqrt(2 ae) (sqrt h1 + sqrt h2)
 *     d >= dlos:            L = Ldft(ae)
 *     d < dlos, h > hreq:   L = 0
 *     d < dlos else:        L = (1 - h/hreq) max(Ldft(aem), 0),   aem = 0.5 (d/(sqrt h1 + sqrt h2))^2
 *
 * Ldft is the first term (`firstTermOverGroundDb`), h and hreq the smallest clearance and the one that is enough
 * (`smoothClearance`), aem the radius that would put the path at its horizon. From 10 MHz on.
 * @throws RangeError for heights, distance, radius or frequency that are not positive
 * @see Rec. ITU-R P.526-15 section 3.2; P.1812-6 eq (22) to (27). Agrees with two published reference
 *   implementations to 1e-7 dB; the ITU-R's own examples agree within 0.005 dB (their ground is unknown)
 */
export function sphericalEarth(path: SphericalPath): SphericalEarthResult {
  const { distanceM, height1M: h1, height2M: h2, effectiveRadiusM } = path;
  requirePositive("distanceM", distanceM);
  requirePositive("height1M", h1);
  requirePositive("height2M", h2);
  requirePositive("frequencyHz", path.frequencyHz);
  if (!(effectiveRadiusM > 0))
    throw new RangeError(`effectiveRadiusM must be above 0, not ${effectiveRadiusM}`);

  const dlos = Math.sqrt(2 * effectiveRadiusM) * (Math.sqrt(h1) + Math.sqrt(h2));
  if (distanceM >= dlos) {
    return { lossDb: firstTermLossDb(path, effectiveRadiusM), marginalDistanceM: dlos };
  }
  const clearance = smoothClearance(path);
  const { clearanceM: h, requiredClearanceM: hreq } = clearance;
  const reported = Number.isFinite(dlos) ? dlos : undefined;
  if (h > hreq) return { lossDb: 0, marginalDistanceM: reported, clearance };

  const aem = 0.5 * (distanceM / (Math.sqrt(h1) + Math.sqrt(h2))) ** 2;
  const horizonLossDb = firstTermLossDb(path, aem);
  const lossDb = (1 - h / hreq) * Math.max(0, horizonLossDb);
  const steps = { ...clearance, horizonRadiusM: aem, horizonLossDb };
  return { lossDb, marginalDistanceM: reported, clearance: steps };
}

/**
 * The smallest clearance between the ray and the curved Earth, by the geometry of a reflection point; lengths in m.
 *
 *     c = (h1 - h2)/(h1 + h2),   m = d^2/(4 ae (h1 + h2))
 *     b = 2 sqrt((m + 1)/(3 m)) cos(pi/3 + acos((3 c/2) sqrt(3 m/(m + 1)^3))/3)
 *     d1 = (d/2) (1 + b),   d2 = d - d1
 *     h = [(h1 - d1^2/(2 ae)) d2 + (h2 - d2^2/(2 ae)) d1]/d
 *     hreq = 17.456 sqrt(d1 d2 lambda/d)    with d1, d2, d in km: 0.552 sqrt of the same in m
 */
function smoothClearance(path: SphericalPath): SmoothClearance {
  const { distanceM: d, height1M: h1, height2M: h2, effectiveRadiusM: ae } = path;
  const c = (h1 - h2) / (h1 + h2);
  const m = (d * d) / (4 * ae * (h1 + h2));
  // Rounding may push the argument of the arc cosine a hair beyond 1. For m towards 0 (flat Earth) b tends to c.
  const argument = Math.min(1, Math.max(-1, ((3 * c) / 2) * Math.sqrt((3 * m) / (m + 1) ** 3)));
  const b = m === 0 ? c : 2 * Math.sqrt((m + 1) / (3 * m)) * Math.cos(Math.PI / 3 + Math.acos(argument) / 3);
  const d1 = (d / 2) * (1 + b);
  const d2 = d - d1;
  const h = ((h1 - (d1 * d1) / (2 * ae)) * d2 + (h2 - (d2 * d2) / (2 * ae)) * d1) / d;
  const lambda = path.wavelengthM ?? wavelengthM(path.frequencyHz);
  const hreq = 17.456 * Math.sqrt((1e-3 * d1 * d2 * lambda) / d);
  return { clearanceM: h, distanceFromEnd1M: d1, requiredClearanceM: hreq };
}

/**
 * First term of the residue series, for a path at or beyond its horizon, over land and sea.
 *
 *     Ldft = omega Lsea + (1 - omega) Lland    P.1812-6 eq (28), omega the part of the path over sea
 */
function firstTermLossDb(path: SphericalPath, radiusM: number): number {
  const omega = path.seaFraction ?? 0;
  if (omega <= 0) return firstTermOverGroundDb(path, radiusM, LAND);
  if (omega >= 1) return firstTermOverGroundDb(path, radiusM, SEA);
  return (
    omega * firstTermOverGroundDb(path, radiusM, SEA) +
    (1 - omega) * firstTermOverGroundDb(path, radiusM, LAND)
  );
}

/**
 * First term over one ground; a, d in km, h1, h2 in m, f in GHz, sigma in S/m. P.1812-6 eq (29) to (36).
 *
 *     KH = 0.036 (a f)^(-1/3) [(eps - 1)^2 + (18 sigma/f)^2]^-0.25,   KV = KH [eps^2 + (18 sigma/f)^2]^0.5
 *     beta = (1 + 1.6 K^2 + 0.67 K^4)/(1 + 4.5 K^2 + 1.53 K^4)         K that of the polarization
 *     X = 21.88 beta (f/a^2)^(1/3) d,   Y1 = 0.9575 beta (f^2/a)^(1/3) h1,   Y2 likewise
 *     Ldft = -F(X) - G(Y1) - G(Y2)
 */
function firstTermOverGroundDb(path: SphericalPath, radiusM: number, ground: typeof LAND): number {
  const f = path.frequencyHz / 1e9;
  const a = radiusM / 1000;
  const d = path.distanceM / 1000;
  const { permittivity: eps, conductivity: sigma } = ground;

  const loss2 = ((18 * sigma) / f) ** 2;
  const KH = 0.036 * Math.cbrt(a * f) ** -1 * ((eps - 1) ** 2 + loss2) ** -0.25;
  const K = path.polarization === "horizontal" ? KH : KH * Math.sqrt(eps ** 2 + loss2);
  const K2 = K * K;
  const beta = (1 + 1.6 * K2 + 0.67 * K2 * K2) / (1 + 4.5 * K2 + 1.53 * K2 * K2);
  const X = 21.88 * beta * Math.cbrt(f / a ** 2) * d;
  const heightScale = 0.9575 * beta * Math.cbrt(f ** 2 / a);
  return (
    -distanceTerm(X) -
    heightGain(heightScale * path.height1M, beta, K) -
    heightGain(heightScale * path.height2M, beta, K)
  );
}

/** `F(X) = 11 + 10 log X - 17.6 X` for X >= 1.6, else `-20 log X - 5.6488 X^1.425`. */
function distanceTerm(X: number): number {
  return X >= 1.6 ? 11 + 10 * Math.log10(X) - 17.6 * X : -20 * Math.log10(X) - 5.6488 * X ** 1.425;
}

/**
 * With B = beta Y:
 *
 *     G(Y) = 17.6 sqrt(B - 1.1) - 5 log(B - 1.1) - 8    B > 2
 *     G(Y) = 20 log(B + 0.1 B^3)                        B <= 2
 *
 * and never below 2 + 20 log K.
 */
function heightGain(Y: number, beta: number, K: number): number {
  const B = beta * Y;
  const G =
    B > 2 ? 17.6 * Math.sqrt(B - 1.1) - 5 * Math.log10(B - 1.1) - 8 : 20 * Math.log10(B + 0.1 * B ** 3);
  return Math.max(G, 2 + 20 * Math.log10(K));
}
