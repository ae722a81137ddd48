import type { Hop, HopEnd } from "../design/design.js";
import type { FadeDistribution } from "../propagation/p530/fade-distribution.js";
import type { RainDistribution } from "../propagation/p530/rain.js";
import type { PrecipitationDistribution } from "../propagation/p530/wet-snow.js";
import type { ClimateInUse } from "./climate.js";
import { type CrossPolar, crossPolarOf } from "./cross-polar.js";
import { type Diversity, diversityOf } from "./diversity.js";
import type { Course, Heights } from "./geometry.js";
import { multipathOf } from "./multipath.js";
import { rainOf } from "./rain.js";
import type { ProfileSummary } from "./result.js";
import type { Trace } from "./trace.js";

/** The path as the fading methods see it. */
export interface FadingPath {
  readonly course: Course;
  readonly heights: Heights;
  /** The known part of the profile; its mean height enters the multipath method. */
  readonly terrain?: ProfileSummary;
  /** What the ray to the receiving end's second antenna loses beyond the first one's, dB. */
  readonly moreLossDb?: number;
}

/** How the path fades in one direction, prepared once and asked for each mode and margin. */
export interface Fading {
  readonly distanceM: number;
  readonly frequencyGHz: number;
  /** Undefined: clear-air fading could not be computed. */
  readonly multipath?: MultipathFading;
  /** Undefined: rain could not be computed. */
  readonly rain?: RainDistribution;
  /** Rain with wet snow, where the rain height is known. */
  readonly precipitation?: PrecipitationDistribution;
  /** Set on an arrangement with two polarizations on one channel. */
  readonly crossPolar?: CrossPolar;
  readonly diversity?: Diversity;
}

export interface MultipathFading {
  /** p0 of the average worst month, percent; 0 on short paths. */
  readonly occurrencePercent: number;
  /** Multipath activity parameter. */
  readonly eta: number;
  readonly month: FadeDistribution;
  readonly year: FadeDistribution;
  /** Share of the year per share of the worst month in the deep tail. */
  readonly yearFactor: number;
  /** True when the gradient was assumed. */
  readonly planningOnly?: boolean;
}

/** Everything that takes signal away in one direction, each only when its inputs are known. */
export function fadingOf(
  hop: Hop,
  [from, to]: readonly [HopEnd, HopEnd],
  path: FadingPath,
  climate: ClimateInUse,
  frequencyHz: number,
  trace: Trace,
): Fading {
  const frequencyGHz = frequencyHz / 1e9;
  const { distanceM } = path.course;
  const multipath = multipathOf(path, climate, frequencyGHz, trace);
  return {
    distanceM,
    frequencyGHz,
    multipath,
    ...rainOf(hop, path, climate, frequencyGHz, trace),
    crossPolar: crossPolarOf(hop, from, to, trace),
    diversity:
      multipath && multipath.occurrencePercent > 0
        ? diversityOf(
            hop,
            to,
            {
              distanceM,
              frequencyHz,
              occurrencePercent: multipath.occurrencePercent,
              moreLossDb: path.moreLossDb ?? 0,
            },
            climate.climate,
            trace,
          )
        : undefined,
  };
}
