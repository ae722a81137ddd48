/**
 * Where a ray clears straight ground least. Between two surveyed points the ground is a line, the Earth's bulge a
 * parabola and the Fresnel zone an ellipse: the least clearance may lie anywhere between them, and sampling would find
 * another one for each way of sampling.
 */

/** A ray over ground, as the clearance sees it. */
export interface RayOverGround {
  readonly lengthM: number;
  /** Antenna centres above sea level. */
  readonly antennaAslM: readonly [number, number];
  /** 1/(2 k a) of the bulge d1 d2/(2 k a), 1/m. */
  readonly halfCurvature: number;
  /** F1^2/(d1 d2), that is wavelength/length. */
  readonly fresnelScale: number;
  /** The Fresnel radius counts no smaller than this. */
  readonly leastRadiusM: number;
  /** Share of the zone that shall be free. */
  readonly requiredFraction: number;
}

/** The top of ground and cover, a straight line between two distances, m above sea level. */
export interface Stretch {
  readonly fromM: number;
  readonly toM: number;
  readonly fromTopM: number;
  readonly toTopM: number;
}

/**
 * Distances within a stretch at which the clearance in Fresnel radii is least, or the height needed of an antenna
 * greatest; what is not listed lies at the ends of the stretch. At most five, in no order.
 *
 * With the clearance n(d) and R = sqrt(d (D - d)): n/R is stationary where g = 2 n' d (D - d) - n (D - 2 d) vanishes, a
 * cubic with the leading coefficient -1/(k a), which rises through 0 at most once, between its two turning points;
 * there is the minimum. The height that antenna 1 needs, (w - y2 t)/(1 - t) with t = d/D and w the height that the ray
 * must have, rises while w' (D - d) + w - y2 > 0, which falls all along; for antenna 2 likewise.
 */
export function criticalDistances(stretch: Stretch, ray: RayOverGround): number[] {
  const { lengthM: D, halfCurvature: h, fresnelScale, leastRadiusM, requiredFraction: q } = ray;
  const { fromM, toM, fromTopM, toTopM } = stretch;
  const [y1, y2] = ray.antennaAslM;
  const slope = (toTopM - fromTopM) / (toM - fromM);
  const raySlope = (y2 - y1) / D;
  const top = (d: number) => fromTopM + slope * (d - fromM);
  const found: number[] = [];
  const inside = (d: number) => d > fromM && d < toM;

  // Nearer to an end the radius counts as constant, and the ray over a line is a line: nothing lies between.
  const product = leastRadiusM ** 2 / fresnelScale;
  const root = Math.sqrt(Math.max(0, (D * D) / 4 - product));
  const nearM = product / (D / 2 + root);
  for (const d of [nearM, D - nearM]) if (inside(d)) found.push(d);
  const low = Math.max(fromM, nearM);
  const high = Math.min(toM, D - nearM);
  if (!(low < high)) return found;

  const clearance = (d: number) => y1 + raySlope * d - top(d) - h * d * (D - d);
  const rise = (d: number) => raySlope - slope - h * (D - 2 * d);
  const g = (d: number) => 2 * rise(d) * d * (D - d) - clearance(d) * (D - 2 * d);
  const bothEnds = y1 - top(0) + (y2 - top(D)) - h * D * D;
  const turning = h > 0 ? (D * D) / 4 + bothEnds / (6 * h) : bothEnds > 0 ? Number.POSITIVE_INFINITY : 0;
  if (turning > 0) {
    const half = Math.sqrt(turning);
    push(found, rootOf(g, Math.max(low, D / 2 - half), Math.min(high, D / 2 + half)));
  }

  const wanted = (d: number) => top(d) + h * d * (D - d) + q * Math.sqrt(fresnelScale * d * (D - d));
  const wantedRise = (d: number) =>
    slope + (D - 2 * d) * (h + (q / 2) * Math.sqrt(fresnelScale / (d * (D - d))));
  push(
    found,
    rootOf((d) => y2 - wanted(d) - wantedRise(d) * (D - d), low, high),
  );
  push(
    found,
    rootOf((d) => wanted(d) - y1 - wantedRise(d) * d, low, high),
  );
  return found;
}

function push(found: number[], d: number | undefined): void {
  if (d !== undefined) found.push(d);
}

/** Where a function rises through 0; undefined when it does not between these two. */
function rootOf(f: (d: number) => number, low: number, high: number): number | undefined {
  if (!(low < high && f(low) < 0 && f(high) > 0)) return undefined;
  let [a, b] = [low, high];
  for (let i = 0; i < 60; i++) {
    const middle = (a + b) / 2;
    if (f(middle) < 0) a = middle;
    else b = middle;
  }
  return (a + b) / 2;
}
