/** Shares of time: what causes take, what failures take, and what is asked of both. */
import type { MethodId } from "./methods.js";

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

interface Protected {
  readonly kind: "n+1" | "pairs" | "none";
  readonly sets: number;
}

export interface EquipmentOutage {
  /** Both ends in series, percent of time. */
  readonly unavailabilityPercent: number;
  readonly secondsPerYear: number;
  /** What protects: one standby for so many units, so many pairs, or nothing, with so many units in series. */
  readonly protection: Protected;
  /** Where the ends are built differently: of each; the above is that of the first. */
  readonly protectionByEnd?: readonly ({ readonly site: string } & Protected)[];
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
