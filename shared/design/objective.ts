/** What is asked of a hop. */

/** `fresnelFraction` of the first Fresnel zone must be free at effective Earth radius factor `kFactor`. */
export interface ClearanceCriterion {
  readonly fresnelFraction: number;
  readonly kFactor: number;
}

export interface Objective {
  readonly name: string;
  readonly title?: string;
  /** Both directions together, average year, 0..100. */
  readonly availabilityPercent?: number;
  /** Capacity that must hold at that availability. */
  readonly capacityBps?: number;
  readonly fadeMarginDb?: number;
  /** Least fade margin that is left with a unit on standby: at the receiver, at the sender, at both ends. */
  readonly standbyMarginDb?: number;
  /** How far a measured level may be from the promised one; undefined: the usual. */
  readonly levelWindowDb?: number;
  readonly clearance: readonly ClearanceCriterion[];
  /** Of the second antenna of space diversity; undefined: as of the first. */
  readonly diversityClearance?: readonly ClearanceCriterion[];
  /** Availability of the link that the hop is part of, all causes together (F.1703). */
  readonly availabilityClass?: AvailabilityClass;
  /** Severely errored seconds in any month (F.1668). */
  readonly quality?: QualityShare;
}

export interface AvailabilityClass {
  readonly portion: "long-haul" | "short-haul" | "access";
  /** Length of the link; undefined: the hop is a link of its own. */
  readonly linkLengthM?: number;
  /** Part of the unavailability that propagation may take; undefined: equipment must be known too. */
  readonly propagationPercent?: number;
}

export interface QualityShare {
  readonly portion: "intermediate" | "terminating" | "short-haul" | "access";
  readonly linkLengthM?: number;
  /** Share of the end-to-end objective of a national portion; undefined: 8 %. */
  readonly sharePercent?: number;
  /** Block ratio of the international portion; undefined: 1. */
  readonly blockRatio?: number;
}
