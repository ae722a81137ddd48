/** Shape of `demands --format json`; `hopwright schema demands` prints its JSON Schema. */
import type { DemandResult, FailureResult, HopLoad } from "../../../shared/demands/result.js";
import type { Demand } from "../../../shared/design/demand.js";
import type { Severity } from "../../../shared/design/severity.js";

export interface DemandsOutput {
  readonly schema: "hopwright-demands/1";
  readonly version: string;
  readonly designs: readonly DesignDemandsOutput[];
}

export interface DesignDemandsOutput {
  /** As seen from the working directory, parted by `/`. */
  readonly folder: string;
  readonly title?: string;
  /** The time that the figures are of, in words; left out where nothing in the design has a state. */
  readonly shows?: string;
  /** In the order in which they are carried. */
  readonly demands: readonly DemandOutput[];
  /** By name; hops that carry nothing too. */
  readonly hops: readonly HopLoad[];
  /** Each hop, then each site, then each card, that any route passes. */
  readonly failures: readonly FailureResult[];
  readonly rings: readonly RingOutput[];
  /** More than rings: any one hop among these sites may fail. */
  readonly meshes: readonly RingOutput[];
  readonly findings: readonly DemandFindingOutput[];
}

export interface DemandOutput extends Omit<DemandResult, "demand"> {
  readonly name: string;
  /** As the design states it. */
  readonly asked: Demand;
}

export interface RingOutput {
  readonly sites: readonly string[];
  readonly hops: readonly string[];
}

export interface DemandFindingOutput {
  readonly rule: string;
  readonly severity: Severity;
  readonly message: string;
  readonly accepted?: true;
}
