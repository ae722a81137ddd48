/** What the evaluation makes of a hop's way over the ground. */
import type { SurveySource } from "../../design/design.js";
import type { SurveyFit } from "../../terrain/survey.js";
import type { Verdict } from "./outage-result.js";

export interface EndGeometry {
  readonly site: string;
  readonly groundM: number;
  readonly groundFrom: "design" | "terrain" | "survey";
  readonly antennaHeightM: number;
  /** Bearing to the far end, clockwise from true north, 0..360. */
  readonly azimuthDeg: number;
  /** Elevation of the ray at this antenna for the median k, degrees above the horizontal. */
  readonly elevationDeg: number;
  /** Ground here after the terrain or the survey, when the design states it too. */
  readonly terrainGroundM?: number;
}

/** The most critical point of the path for one criterion. */
export interface ClearanceResult {
  readonly kFactor: number;
  readonly requiredFraction: number;
  /** Clearance over the critical point in first Fresnel radii; negative: the ray is blocked. */
  readonly fraction: number;
  readonly clearanceM: number;
  readonly fresnelRadiusM: number;
  readonly distanceM: number;
  /** Height of what stands there, above sea level. */
  readonly obstacleM: number;
  /** Title of the obstacle when the critical point is one, otherwise terrain. */
  readonly obstacle?: string;
  /** Open where the known ground clears and some ground is not known. */
  readonly verdict: Verdict;
  /** True when no objective asks for it: shown for k = 4/3, never judged. */
  readonly forInformation?: boolean;
  /**
   * Least antenna height above ground of each end (alone) at which the criterion would be met; where any would do,
   * half the antenna's diameter. Undefined: not by this end alone (above 300 m). It may lie above the structure's top.
   */
  readonly heightNeededM: readonly [number | undefined, number | undefined];
}

/** A ray with an antenna beside the first at one end or both. */
export interface FurtherPath {
  /** Antenna of each end, from 1, in the order of `ends`. */
  readonly antennas: readonly [number, number];
  /** For example `diversity antenna at KELD`, `second antennas`. */
  readonly name: string;
  /** Of diversity and standby the ray from the far end's first antenna. */
  readonly of: "diversity" | "standby" | "carriers";
  /**
   * By the objective's `clearance`, of diversity by its `diversity-clearance` where it states one; heights needed are
   * those of the antennas that the ray hangs on.
   */
  readonly clearance: readonly ClearanceResult[];
  /** At median k; undefined: the frequency is not known. */
  readonly diffractionLossDb?: number;
  /** Of that, what the first antennas' ray does not lose. */
  readonly moreLossDb?: number;
}

export interface ProfileSummary {
  /** Spacing of samples, the usual one of surveyed points. */
  readonly stepM: number;
  readonly points: number;
  /** What is not known, after bridging. */
  readonly gaps: readonly {
    readonly fromM: number;
    readonly toM: number;
    readonly reason: "void" | "uncovered";
  }[];
  /** Stretches of unknown ground that count as a straight line, as the network states with `bridge-gaps`. */
  readonly bridges?: readonly { readonly fromM: number; readonly toM: number }[];
  readonly sources: readonly { readonly file: string; readonly sharePercent: number }[];
  /** Highest and mean ground of what is known, without what stands on it; the mean by length. */
  readonly highestM?: number;
  readonly meanM?: number;
  readonly kind: "terrain" | "survey";
}

/** The survey that a design names. */
export interface SurveyUse {
  /** Why it could not be used. */
  readonly problem?: string;
  /** How it was made; taken as from a map where that is not stated. */
  readonly source: SurveySource;
  readonly sourceStated: boolean;
  /** How it lies on the path, distances from the end that it counts from; undefined: it could not be used. */
  readonly fit?: SurveyFit;
}
