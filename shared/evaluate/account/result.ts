/**
 * What the engine computes for one hop. Plain data; every number is finite, and what could not be
 * computed is undefined with a reason in `missing`. Serialized into `--format json` by the host.
 */
import type { Climate } from "../../design/climate.js";
import type { Polarization } from "../../design/design.js";
import type { CarrierResult } from "./carrier-result.js";
import type { InputUsed } from "./input.js";
import type { Lack } from "./lack.js";
import type { DirectionResult, StandbyResult } from "./level-result.js";
import type { MethodId } from "./methods.js";
import type { Note } from "./note.js";
import type {
  Bound,
  CauseOutage,
  EquipmentOutage,
  ObjectiveResult,
  OutageTime,
  Verdict,
} from "./outage-result.js";
import type { ClearanceResult, EndGeometry, FurtherPath, ProfileSummary, SurveyUse } from "./path-result.js";
import type { ReflectionResult } from "./reflection-result.js";

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
