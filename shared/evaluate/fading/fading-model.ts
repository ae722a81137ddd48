/** How a path fades, as the methods of `evaluate/` hand it to each other. */

import type { DiversityImprovement } from "../../propagation/p530/diversity.js";
import type { FadeDistribution } from "../../propagation/p530/fade-distribution.js";
import type { RainDistribution } from "../../propagation/p530/rain.js";
import type { PrecipitationDistribution } from "../../propagation/p530/wet-snow.js";
import type { ProfileSummary } from "../account/path-result.js";
import type { Course, Heights } from "../path/geometry.js";

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
  readonly frequencyHz: number;
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

/** What two polarizations on one channel do to each other, the same for every mode. */
export interface CrossPolar {
  /** Least discrimination of the antennas on boresight. */
  readonly antennaXpdDb: number;
  readonly improvementDb: number;
}

/** What diversity a direction has; the receiving end counts. Absent: none, or its method refuses. */
export interface Diversity {
  readonly space?: DiversityImprovement;
  readonly frequency?: DiversityImprovement;
}
