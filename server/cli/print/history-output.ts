/** Shape of `history --format json`; `hopwright schema history` prints its JSON Schema. */

import type { DecisionChange } from "../../../shared/compare/decisions.js";
import type { Bound } from "../../../shared/evaluate/account/outage-result.js";
import type { ClearanceResult } from "../../../shared/evaluate/account/path-result.js";

export interface HistoryOutput {
  readonly schema: "hopwright-history/1";
  readonly version: string;
  readonly hop: string;
  /** What is left out, or could not be read at a commit, one sentence each. */
  readonly notes: readonly string[];
  /** Newest first. */
  readonly entries: readonly HistoryEntryOutput[];
}

export interface HistoryEntryOutput {
  /** Left out: the work tree, not committed. */
  readonly commit?: string;
  /** Year-month-day. */
  readonly date?: string;
  readonly author?: string;
  readonly title?: string;
  /** Name of the hop then. */
  readonly hop: string;
  readonly status: "added" | "removed" | "renamed" | "changed";
  readonly decisions: readonly DecisionChange[];
  readonly shared: readonly { readonly entry: string; readonly decisions: readonly DecisionChange[] }[];
  readonly terrainChanged: boolean;
  /** By how much interference raises its thresholds changed. */
  readonly interferenceChanged: boolean;
  /** Of the weaker direction, in the mode that the objective is held against. */
  readonly fadeMarginDb?: number;
  /** Of that mode. */
  readonly modulation?: string;
  /** That of the objective which has least to spare; where nothing is asked, for information. */
  readonly clearance?: ClearanceResult;
  /**
   * In the text of the hop and of its own judgement, without those that are accepted; what hops share at a site or on
   * a channel is not among them. Left out: the hop is gone.
   */
  readonly errors?: number;
  readonly availabilityPercent?: number;
  /** The availability is at least or at most its figure. */
  readonly availabilityBound?: Bound;
  /** Set: the availability is an estimate outside the range of its method, which itself says at least this. */
  readonly availabilityAtLeastPercent?: number;
}
