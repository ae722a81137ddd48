/** What propagation and equipment take of a route, and of two routes of which one stands in for the other. */
import { seriesMultipathOutage } from "../propagation/p530/several-hops.js";

/** What one hop takes, as shares of the average year, in the mode that carries what the demand needs. */
export interface HopShare {
  readonly multipathFraction: number;
  readonly fadeMarginDb: number;
  readonly rainFraction: number;
  /** Of both ends; undefined: not known, and not counted. */
  readonly equipmentFraction?: number;
}

/** Shares of the average year. */
export interface RouteOutage {
  readonly multipath: number;
  /** As if it rained on each hop by itself, and as if on all at once: the truth lies between. */
  readonly rainIndependent: number;
  readonly rainTogether: number;
  readonly equipment: number;
  /** Of two routes that are down for different causes at once: of propagation alone, and with equipment. */
  readonly mixedPropagation: number;
  readonly mixed: number;
  /** With the worse of both for rain; of propagation alone, and with equipment. */
  readonly propagation: number;
  readonly all: number;
}

interface Series {
  readonly multipath: number;
  readonly rainIndependent: number;
  readonly rainTogether: number;
  readonly equipment: number;
}

/**
 * Hops one behind the other.
 *
 *     multipath: P.530 section 2.3.7
 *     rain, each by itself: 1 - prod(1 - r),   on all at once: max r
 *     equipment: 1 - prod(1 - e)
 */
function inSeries(hops: readonly HopShare[]): Series {
  const joint = seriesMultipathOutage(
    hops.map(({ multipathFraction, fadeMarginDb }) => ({
      outageFraction: Math.min(1, multipathFraction),
      fadeMarginDb: Math.max(0, fadeMarginDb),
    })),
  );
  const sum = hops.reduce((all, { multipathFraction }) => all + multipathFraction, 0);
  return {
    // Beyond what the method is for the sum stands in: more is lost than is left.
    multipath: Math.min(1, joint.ok ? joint.outageFraction : sum),
    rainIndependent: any(hops.map(({ rainFraction }) => rainFraction)),
    rainTogether: hops.reduce((most, { rainFraction }) => Math.max(most, rainFraction), 0),
    equipment: any(hops.map(({ equipmentFraction = 0 }) => equipmentFraction)),
  };
}

/** That any of several independent things fails. */
function any(fractions: readonly number[]): number {
  // By logarithms: a share of 1e-9 is lost in 1 - (1 - 1e-9).
  return 0 - Math.expm1(fractions.reduce((sum, p) => sum + Math.log1p(-Math.min(1, p)), 0));
}

/** @param hops of a route */
export function routeOutage(hops: readonly HopShare[]): RouteOutage {
  return outage({ ...inSeries(hops), mixedPropagation: 0, mixed: 0 });
}

/**
 * Two routes, one standing in for the other: what both share counts once, the rest where both are down at once.
 *
 *     U = U_shared + U_one U_other,   U = multipath + rain + equipment of each
 *
 * Of rain on all at once the smaller takes the place of the product of both.
 * @param shared hops of both routes; `one` and `other` those of each alone
 */
export function protectedOutage(
  shared: readonly HopShare[],
  one: readonly HopShare[],
  other: readonly HopShare[],
): RouteOutage {
  const [s, a, b] = [inSeries(shared), inSeries(one), inSeries(other)];
  const both = (of: (series: Series) => number) => of(a) * of(b);
  const multipath = both((x) => x.multipath);
  const equipment = both((x) => x.equipment);
  const independent = both((x) => x.rainIndependent);
  const together = Math.min(a.rainTogether, b.rainTogether);
  const cross = (rain: (series: Series) => number, counts: 0 | 1) =>
    both((x) => x.multipath + counts * x.equipment + rain(x)) - multipath - counts * equipment - both(rain);
  const mixed = (counts: 0 | 1) =>
    Math.max(
      0,
      cross((x) => x.rainIndependent, counts),
      cross((x) => x.rainTogether, counts),
    );
  return outage({
    multipath: any([s.multipath, multipath]),
    rainIndependent: any([s.rainIndependent, independent]),
    rainTogether: Math.max(s.rainTogether, together),
    equipment: any([s.equipment, equipment]),
    mixedPropagation: mixed(0),
    mixed: mixed(1),
  });
}

function outage(of: Omit<RouteOutage, "propagation" | "all">): RouteOutage {
  const rain = Math.max(of.rainIndependent, of.rainTogether);
  return {
    ...of,
    propagation: Math.min(1, of.multipath + rain + of.mixedPropagation),
    all: Math.min(1, of.multipath + rain + of.equipment + of.mixed),
  };
}
