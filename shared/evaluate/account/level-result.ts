/** What the evaluation makes of the level of a hop: its way through the equipment, and each mode. */
import type { Arm } from "../../equipment/branches.js";
import type { Bound, CauseOutage, Outage, OutageTime, Verdict } from "./outage-result.js";

/** What a signal passes. Its words are in `words/elements.ts`. */
export type LevelElement =
  | {
      readonly code: "transmitter";
      /** Undefined: not stated yet. */
      readonly radio?: string;
      readonly bandwidthHz: number;
      readonly modulation: string;
    }
  | {
      readonly code: "coupler";
      readonly coupler: string;
      readonly kind: "coupler" | "splitter" | "relay" | "orthomode";
      /** Where its arms lose different amounts. */
      readonly arm?: Arm;
    }
  | { readonly code: "branching-network" }
  | { readonly code: "feeder"; readonly feeder: string; readonly lengthM: number }
  /** A flexible guide that is not chosen yet, with the usual loss of its length. */
  | { readonly code: "guide-to-choose"; readonly lengthM: number }
  | { readonly code: "further-loss" }
  | { readonly code: "transmit-antenna" | "receive-antenna"; readonly antenna: string }
  | { readonly code: "free-space" }
  | { readonly code: "gases" }
  /** Over an obstructed path. */
  | { readonly code: "diffraction" }
  | { readonly code: "receiver"; readonly radio?: string };

/** One row of the level diagram: an element the signal passes, and the level behind it. */
export interface LevelRow {
  readonly passes: LevelElement;
  /** Undefined: between the sites. */
  readonly site?: string;
  /** 0 for the first row. */
  readonly changeDb: number;
  readonly levelDbm: number;
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
  /** By how much interference raises the threshold: as stated or as computed, the greater. */
  readonly degradationDb?: number;
  /** As computed from the network; undefined: it was not. */
  readonly computedDegradationDb?: number;
  /** Received level less threshold and degradation. */
  readonly fadeMarginDb: number;
  /** With the best channel, where that is still to be chosen and the figures are those of the worst. */
  readonly bestFadeMarginDb?: number;
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
  /** Free space, gases and diffraction between its antennas, at the frequency of its sender, dB. */
  readonly betweenDb: number;
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
