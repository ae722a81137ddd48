import { MEAN_EARTH_RADIUS_M } from "../constants.js";
import type { MethodReference } from "../method.js";
import { figures, notPositive, type Outcome, refuse } from "../outcome.js";

export const METHOD: MethodReference = {
  recommendation: "ITU-R P.530-18",
  section: "6.1",
  title: "Reflection point on a spherical earth",
  status: "verified",
  note: "From memory of the text, but confirmed: equal to a bisection on equal grazing angles and to an independent closed solution.",
  checked: {
    by: "two independent computations of each step, one of them by bisection",
    vectors: ["reflection"],
    tolerance: "1e-6 of each value (ten digits given)",
  },
};

export const METHOD_SPACING: MethodReference = {
  recommendation: "ITU-R P.530-18",
  section: "6.2.1",
  title: "Antenna spacing against surface reflection",
  status: "verified",
  note: "The derivative of the path difference; half a lobe apart is the best spacing.",
  checked: {
    by: "derivative of the path difference",
    tolerance: "1 % (a finite difference)",
  },
};

const EARTH_RADIUS_KM = MEAN_EARTH_RADIUS_M / 1000;
/** 12.742: the bulge is d1 d2/(12.742 k) metres with distances in km. */
const TWICE_RADIUS = (2 * EARTH_RADIUS_KM) / 1000;

interface ReflectionSteps {
  readonly m: number;
  readonly c: number;
  readonly b: number;
}

export interface ReflectionGeometry {
  readonly distanceFromHigherM: number;
  readonly distanceFromLowerM: number;
  readonly grazingMrad: number;
  /** Reflected path longer than the direct one, in wavelengths. */
  readonly pathDifferenceWavelengths: number;
  /** Spread of the reflected wave by the earth's curvature, 0..1. */
  readonly divergence: number;
  readonly steps: ReflectionSteps;
}

export interface ReflectionInputs {
  readonly distanceM: number;
  readonly frequencyHz: number;
  /** Effective earth radius factor. */
  readonly k: number;
  /** Heights of the antennas above the reflecting surface, > 0, in either order. */
  readonly antenna1AboveSurfaceM: number;
  readonly antenna2AboveSurfaceM: number;
}

/**
 * Where a level surface reflects, at what angle, and how much longer the reflected path is. With h1 >= h2 above the
 * surface in m, d in km, f in GHz, ae = k a in km:
 *
 *     m = d^2 10^3/(4 ae (h1 + h2)),   c = (h1 - h2)/(h1 + h2)
 *     b = 2 sqrt((m + 1)/(3 m)) cos(pi/3 + (1/3) acos((3 c/2) sqrt(3 m/(m + 1)^3)))
 *     d1 = d (1 + b)/2 from the higher antenna,   d2 = d (1 - b)/2
 *     tau = (2 f/(0.3 d)) (h1 - d1^2/(12.74 k)) (h2 - d2^2/(12.74 k)) 10^-3      path difference, wavelengths
 *     D = sqrt((1 - m (1 + b^2))/(1 + m (1 - 3 b^2)))                            divergence factor
 *     psi = (h1 + h2) (1 - m (1 + b^2))/d                                        grazing angle, mrad
 *
 * @returns refused where the antennas are beyond each other's horizon over that surface
 * @see Rec. ITU-R P.530-18 section 6.1. Confirmed by independent computation.
 */
export function reflectionGeometry(inputs: ReflectionInputs): Outcome<ReflectionGeometry> {
  const { distanceM, frequencyHz, k, antenna1AboveSurfaceM, antenna2AboveSurfaceM } = inputs;
  const unusable = notPositive({ distanceM, frequencyHz, k, antenna1AboveSurfaceM, antenna2AboveSurfaceM });
  if (unusable) return refuse(unusable);
  const d = distanceM / 1000;
  const h1 = Math.max(antenna1AboveSurfaceM, antenna2AboveSurfaceM);
  const h2 = Math.min(antenna1AboveSurfaceM, antenna2AboveSurfaceM);
  const m = (d ** 2 * 1000) / (4 * EARTH_RADIUS_KM * k * (h1 + h2));
  const c = (h1 - h2) / (h1 + h2);
  const b =
    2 *
    Math.sqrt((m + 1) / (3 * m)) *
    Math.cos(Math.PI / 3 + Math.acos(Math.min(((3 * c) / 2) * Math.sqrt((3 * m) / (m + 1) ** 3), 1)) / 3);
  const d1 = (d * (1 + b)) / 2;
  const d2 = (d * (1 - b)) / 2;
  const opening = 1 - m * (1 + b ** 2);
  if (opening <= 0) return refuse({ code: "beyond-horizon" });
  const f = frequencyHz / 1e9;
  const tau =
    ((2 * f) / (0.3 * d)) * (h1 - d1 ** 2 / (TWICE_RADIUS * k)) * (h2 - d2 ** 2 / (TWICE_RADIUS * k)) * 1e-3;
  return figures({
    distanceFromHigherM: 1000 * d1,
    distanceFromLowerM: 1000 * d2,
    grazingMrad: ((h1 + h2) * opening) / d,
    pathDifferenceWavelengths: tau,
    divergence: Math.sqrt(opening / (1 + m * (1 - 3 * b ** 2))),
    steps: { m, c, b },
  });
}

/**
 * Vertical distance at antenna 1 between neighbouring maxima of the received level: half of it, or an odd multiple
 * of that half, is the best diversity spacing against the reflection.
 *
 *     L1 = 0.3 d 10^3/(2 f (h2 - d2^2/(12.74 k)))    m; best spacing (n + 1/2) L1
 *
 * h2 and d2 here are of the other antenna, whether it is the lower or not.
 * @see Rec. ITU-R P.530-18 section 6.2.1. Confirmed by computation (derivative of the path difference).
 */
export function lobeSpacing(
  inputs: ReflectionInputs,
): Outcome<{ readonly lobeSpacingM: number; readonly bestSpacingM: number }> {
  const geometry = reflectionGeometry(inputs);
  if (!geometry.ok) return geometry;
  const { distanceM, frequencyHz, k, antenna1AboveSurfaceM: own, antenna2AboveSurfaceM: far } = inputs;
  const farDistanceKm = (far <= own ? geometry.distanceFromLowerM : geometry.distanceFromHigherM) / 1000;
  const reducedM = far - farDistanceKm ** 2 / (TWICE_RADIUS * k);
  if (reducedM <= 0) return refuse({ code: "reflection-point-unseen" });
  const lobeSpacingM = (0.3 * (distanceM / 1000) * 1000) / (2 * (frequencyHz / 1e9) * reducedM);
  return figures({ lobeSpacingM, bestSpacingM: lobeSpacingM / 2 });
}
