/**
 * What the engine computes for one hop. Plain data; every number is finite, and what could not be
 * computed is undefined with a reason in `missing`. Serialized into `--format json` by the host.
 */
import type { Climate, Polarization, SurveySource } from "../../design/design.js";
import type { Arm } from "../../equipment/branches.js";
import type { SurveyFit } from "../../terrain/survey.js";
import type { CarrierResult } from "./carrier-result.js";
import type { InputUsed } from "./input.js";
import type { Lack } from "./lack.js";
import type { MethodId } from "./methods.js";
import type { Note } from "./note.js";
import type { ReflectionResult } from "./reflection-result.js";

/** One row of the level diagram: an element the signal passes, and the level behind it. */
export interface LevelRow {
  /** For example `transmitter output`, `coupler main arm`, `transmit antenna`, `free space`. */
  readonly element: string;
  /** What it is, for example the catalogue name and length. */
  readonly detail?: string;
  readonly site?: string;
  /** Set where the element is not chosen yet, and its loss a usual one. */
  readonly estimated?: true;
  /** An antenna: its gain, dBi. */
  readonly gain?: true;
  /** 0 for the first row. */
  readonly changeDb: number;
  readonly levelDbm: number;
}

/**
 * A share of time that its method only bounds. The law of rain reaches from 0.001 to 1 % of the year: more frequent
 * outage is told as 1 % with `at least`; rarer, where the design insists on the bound, as 0.001 % with `at most`. The
 * truth may be far larger or smaller. An availability turns the bound round: it is then `at most` or `at least` its
 * figure. Undefined: the figure itself, or an estimate (see `AtMost`).
 */
export type Bound = "at most" | "at least";

/**
 * Stands beside a figure that is an estimate: rain takes less than 0.001 % of the year, outside the range of
 * Rec. ITU-R P.530-18 section 2.4.1, whose law was continued. This is what the Recommendation itself says: at most so
 * much. Print it with the figure.
 */
export interface AtMost {
  readonly yearPercent: number;
  /** Average worst month; undefined: not computed. */
  readonly worstMonthPercent?: number;
}

export type Cause =
  | "flat fading"
  | "selective fading"
  /** Flat and selective fading together, with diversity. */
  | "fading with diversity"
  | "cross-polar interference in clear air"
  | "rain"
  | "cross-polar interference in rain";

/** What one cause takes, percent of time. */
export interface CauseOutage {
  readonly cause: Cause;
  readonly yearPercent: number;
  /** Average worst month; undefined: not computed. */
  readonly worstMonthPercent?: number;
  /** Holds for both shares of time; see `Bound`. */
  readonly bound?: Bound;
  /** Set: both shares of time are estimates. */
  readonly atMost?: AtMost;
}

/** Outage of one cause, as a percentage of the average year (multipath converted from the worst month). */
export interface Outage {
  readonly timePercent: number;
  readonly bound?: Bound;
  /** Set: an estimate, see `AtMost`. */
  readonly atMostPercent?: number;
}

export interface ModeResult {
  readonly modulation: string;
  readonly bandwidthHz: number;
  readonly bitRateBps?: number;
  readonly transmitPowerDbm: number;
  readonly receivedLevelDbm: number;
  readonly thresholdDbm: number;
  readonly thresholdFrom: "catalogue" | "noise figure and required SNR";
  /** Of a computed threshold: the bandwidth in which thermal noise is counted. */
  readonly noiseBandwidthHz?: number;
  /** By how much interference raises the threshold; 0 when not stated. */
  readonly degradationDb?: number;
  /** Received level less threshold and degradation. */
  readonly fadeMarginDb: number;
  /** All of clear air: flat and selective fading (with diversity where there is any), cross-polar interference. */
  readonly multipath?: Outage;
  /** Fraction of the worst month that multipath takes, percent. */
  readonly multipathWorstMonthPercent?: number;
  /** Precipitation: the larger of attenuation and cross-polar interference. */
  readonly rain?: Outage;
  /** The parts of the above, largest share of the year first; empty when the mode has no margin. */
  readonly causes?: readonly CauseOutage[];
  /** Part of the year in which this is the highest mode that works, hysteresis counted. */
  readonly timeInUsePercent?: number;
  /** Set where the part of the year rests on an estimate of rain, see `AtMost`. */
  readonly timeInUseEstimated?: true;
  /** Propagation only, this direction; undefined when a cause could not be computed. */
  readonly availabilityPercent?: number;
  /** Of the availability: `at least` where rain is bounded `at most`. */
  readonly availabilityBound?: Bound;
  /** Set: the availability is an estimate, and the Recommendation itself says at least this; see `AtMost`. */
  readonly availabilityAtLeastPercent?: number;
  /** What this direction loses by itself, in time; undefined like the availability. */
  readonly outage?: OutageTime;
}

/** A way from one branch to another: see the arrangement. */
export interface PathLevel {
  readonly state: "normal" | "receiver on standby" | "sender on standby" | "both on standby";
  /** Branch of the sender, and of the receiver, with the arm of the coupler that it has there. */
  readonly from: string;
  readonly to: string;
  readonly fromArm: Arm;
  readonly toArm: Arm;
  /** Couplers and branching networks of both ends, dB; feeders are not in it. */
  readonly branchingLossDb: number;
  /** Of the ray between its antennas; undefined: none. */
  readonly diffractionDb?: number;
  readonly receivedLevelDbm: number;
}

/** The standby units held against what is asked of them, in every state that can occur with one of them in use. */
export interface StandbyResult {
  /** The objective's `standby-margin`; undefined: the level must reach the threshold. */
  readonly askedDb?: number;
  /** Open where the level of a state is not known. */
  readonly verdict: Verdict;
  /** The state with the least margin, in the mode that the objective is held against; undefined: none is known. */
  readonly weakest?: {
    readonly state: Exclude<PathLevel["state"], "normal">;
    /** Sites. */
    readonly from: string;
    readonly to: string;
    readonly modulation: string;
    readonly bandwidthHz: number;
    readonly receivedLevelDbm: number;
    readonly thresholdDbm: number;
    readonly degradationDb?: number;
    /** Received level less threshold and degradation. */
    readonly fadeMarginDb: number;
    /** By how much the level is below that of the normal state. */
    readonly lessThanNormalDb: number;
    /** Of its ray; undefined: none. */
    readonly diffractionDb?: number;
  };
}

export interface DirectionResult {
  readonly from: string;
  readonly to: string;
  /** Of the carrier of which least arrives: the direction is judged by it. */
  readonly frequencyHz: number;
  /** In the reference mode, the highest of the range; of the same carrier. */
  readonly eirpDbm: number;
  /** In the mode with the most power, of any unit; what the distances to keep are for. One carrier. */
  readonly greatestEirpDbm: number;
  /** Level diagram of the reference mode, of the carrier of which least arrives. */
  readonly levels: readonly LevelRow[];
  /** Median, in the reference mode: what is measured at line-up. */
  readonly receivedLevelDbm: number;
  /** The mode that the objective is held against and its level; undefined: no mode has a threshold. */
  readonly judged?: {
    readonly modulation: string;
    readonly bandwidthHz: number;
    readonly receivedLevelDbm: number;
  };
  /** Lowest rate first; the last one is the reference mode. */
  readonly modes: readonly ModeResult[];
  /** Received level in the strongest mode, over the strongest way through the branches, against the overload level. */
  readonly overload?: {
    /** The mode of most power, of several the lowest. */
    readonly modulation: string;
    readonly transmitPowerDbm: number;
    readonly receivedLevelDbm: number;
    readonly overloadDbm: number;
    readonly marginDb: number;
    /** Part of the average worst month in which multipath lifts the level above it; undefined: not known. */
    readonly worstMonthPercent?: number;
  };
  /** Every way through the branches of both ends, reference mode; left out where there is one way only. */
  readonly paths?: readonly PathLevel[];
  /** True when an antenna or a figure for a standby unit is not known: its ways are left out of `paths`. */
  readonly pathsIncomplete?: boolean;
  /** Least level of any state with a unit on standby, reference mode; set where it is less than in the normal state. */
  readonly standbyReceivedLevelDbm?: number;
  /** Mean over the year of what the working carriers carry, propagation only; with several modes of known rate. */
  readonly expectedCapacityBps?: number;
}

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

export interface OutageTime {
  readonly yearPercent: number;
  /** Of every figure here: the outage takes `at most` or `at least` so long. */
  readonly bound?: Bound;
  /** Set: every figure here is an estimate. */
  readonly atMost?: AtMost;
  readonly secondsPerYear: number;
  readonly minutesPerYear: number;
  readonly worstMonthPercent?: number;
  readonly worstMonthSeconds?: number;
}

export interface EquipmentOutage {
  /** Both ends in series, percent of time. */
  readonly unavailabilityPercent: number;
  readonly secondsPerYear: number;
  /** What protects: one standby for so many units, so many pairs, or nothing, with so many units in series. */
  readonly protection: { readonly kind: "n+1" | "pairs" | "none"; readonly sets: number };
  /** Of one unit. */
  readonly unitUnavailabilityPercent: number;
  /** Interruptions by switching over, a part of the above. */
  readonly switchOverPercent?: number;
}

/**
 * What the figures say of something asked. `open`: they can't tell, since ground is unknown or a method only bounds the
 * outage; unknown is never met.
 */
export type Verdict = "met" | "missed" | "open";

/** An objective beside the plain availability. */
export interface ObjectiveResult {
  /** The method that sets it, and so which it is. */
  readonly method: Extract<MethodId, "link-availability" | "link-quality">;
  /** Outage allowed and found, percent of time. */
  readonly allowedPercent: number;
  readonly foundPercent: number;
  /** Of `foundPercent`. */
  readonly bound?: Bound;
  /** Set: `foundPercent` is an estimate, see `AtMost`. */
  readonly atMostPercent?: number;
  /** Of it failures of equipment, where they count and are known. */
  readonly failuresPercent?: number;
  /** What was held against it. */
  readonly counts:
    | "precipitation"
    | "precipitation-and-equipment"
    | "precipitation-equipment-unknown"
    | "clear-air";
  readonly verdict: Verdict;
}

export interface HopResult {
  readonly hop: string;
  readonly ends: readonly [string, string];
  /** Geodesic on WGS84, along the ground: what clearance, rain and multipath count. */
  readonly distanceM?: number;
  /** Straight distance between the antennas: what free space and gases count. */
  readonly slantDistanceM?: number;
  readonly geometry?: readonly [EndGeometry, EndGeometry];
  readonly polarization?: Polarization;
  readonly profile?: ProfileSummary;
  /** Set when the design names a survey. */
  readonly survey?: SurveyUse;
  /**
   * Ground of the path that is not known: a part of it, or all. An obstruction may stand there, so that levels and
   * margins are the greatest that may be, and nothing that rests on them is met: it is missed or open.
   */
  readonly unknownGround?: "part" | "all";
  readonly clearance: readonly ClearanceResult[];
  /** One for each ray that units use over an antenna beside the first. */
  readonly furtherPaths?: readonly FurtherPath[];
  /** Frequency-dependent losses and rain: of the direction with the higher figure. Level diagrams hold each its own. */
  readonly freeSpaceLossDb?: number;
  readonly gasLossDb?: number;
  readonly diffractionLossDb?: number;
  readonly rainAttenuation001Db?: number;
  readonly directions: readonly DirectionResult[];
  /** What is on the air in the normal state, in the order of the arrangement's units. */
  readonly carriers: readonly CarrierResult[];
  /** Set on an arrangement with hot standby. */
  readonly standby?: StandbyResult;
  /** Propagation only, both directions together: rain of the worse direction, multipath of both added. */
  readonly availability?: {
    /** Two-way, of the mode the objective asks for (its capacity, or the lowest mode). */
    readonly availabilityPercent: number;
    /**
     * Set when rain is only bounded: the availability is `at least` or `at most` its figure (so is `totalPercent`), and
     * `outage` the other way round. Print it with the figure: 99.999 with `at least`.
     */
    readonly bound?: Bound;
    /**
     * Set when rain takes less than 0.001 % of the year and its law was continued: the availability is an estimate
     * outside the Recommendation's range, which itself says at least this. Print it with the figure. Judged is the
     * estimate.
     */
    readonly atLeastPercent?: number;
    readonly modulation: string;
    readonly bandwidthHz: number;
    readonly multipathPercent: number;
    readonly rainPercent: number;
    /** Of `rainPercent`. */
    readonly rainBound?: Bound;
    /** Set: `rainPercent` is an estimate, see `AtMost`. */
    readonly rainAtMostPercent?: number;
    /** Not decided: rain is only bounded from above, and the bound is more than multipath takes. */
    readonly dominant: "multipath" | "rain" | "none" | "not decided";
    /** What the objective asks. */
    readonly objectivePercent?: number;
    /** Undefined when the objective asks no availability. */
    readonly verdict?: Verdict;
    /** By how much every margin would have to grow to meet it; undefined: met, open, or not by 60 dB. */
    readonly shortfallDb?: number;
    /** What is lost, in time: of an average year, and of its worst month (30.4 days) where that is known. */
    readonly outage: OutageTime;
    /** Parts of the outage, both directions together, largest first. */
    readonly causes: readonly CauseOutage[];
    /** True when the multipath method had no figure of the place to start from: a planning figure only. */
    readonly planningOnly?: boolean;
    /** The highest mode that both directions keep up for the time the objective asks. */
    readonly committed?: { readonly modulation: string; readonly capacityBps?: number };
    /** Failures of equipment, both ends; undefined: MTBF or repair time is not stated. */
    readonly equipment?: EquipmentOutage;
    /** Propagation and equipment together. */
    readonly totalPercent?: number;
    /** Set: `totalPercent` is an estimate, see `atLeastPercent`. */
    readonly totalAtLeastPercent?: number;
  };
  /** Further objectives, each held against what was computed. */
  readonly objectives?: readonly ObjectiveResult[];
  /** One for each surface of the design that may reflect. */
  readonly reflections?: readonly ReflectionResult[];
  /** The climate computed with: the design's, completed from maps. */
  readonly climate?: Climate;
  readonly inputs: readonly InputUsed[];
  /** Identifiers; what they are stands in a table (`methods.ts`). */
  readonly methods: readonly MethodId[];
  /** What could not be computed, and why. */
  readonly missing: readonly Lack[];
  /** Remarks on how the figures were made, and of the methods about their validity. */
  readonly notes: readonly Note[];
}
