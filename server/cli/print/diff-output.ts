/**
 * Shape of `diff --format json`. `hopwright schema diff` prints its JSON Schema, which is generated from these types.
 * A change that a script could notice raises the number in `schema`.
 */
import type {
  Cause,
  ChangeCounts,
  HopChange,
  SharedChange,
  SiteChange,
} from "../../../shared/compare/change-set.js";
import type { DemandChange, LoadChange } from "../../../shared/compare/demand-change.js";
import type { FindingStatus } from "../../../shared/compare/findings.js";
import type { LicenceChange } from "../../../shared/compare/licences.js";
import type { OrderChange } from "../../../shared/compare/orders.js";
import type { PortMove } from "../../../shared/compare/ports.js";
import type { Severity } from "../../../shared/design/severity.js";
import type { FileProblemOutput, PlaceOutput } from "./check-output.js";

export interface DiffOutput {
  readonly schema: "hopwright-diff/2";
  readonly version: string;
  /** The old side. */
  readonly was: RevisionOutput;
  /** The new side; left out: the work tree. */
  readonly is?: RevisionOutput;
  /** The one day on which both are looked at; left out: each from today on that changes something. */
  readonly on?: string;
  /** Whether anything got worse in any design. */
  readonly worse: boolean;
  readonly notes: readonly string[];
  readonly unreadable: readonly FileProblemOutput[];
  readonly designs: readonly DesignChangeOutput[];
}

export interface RevisionOutput {
  readonly name: string;
  readonly commit: string;
}

export interface DesignChangeOutput {
  /** From the repository's root. */
  readonly folder: string;
  readonly movedFrom?: string;
  readonly title?: string;
  readonly worse: boolean;
  readonly counts: ChangeCounts;
  /** What matters most comes first. */
  readonly hops: readonly HopChangeOutput[];
  readonly sites: readonly (Omit<SiteChange, "findings"> & WithFindings)[];
  /** Catalogue, defaults, climate, objectives. */
  readonly shared: readonly (Omit<SharedChange, "findings"> & WithFindings)[];
  /** On nothing of the above. */
  readonly findings: readonly FindingChangeOutput[];
  /** Demands with other figures than before. */
  readonly demands: readonly DemandChange[];
  /** Hops that carried too much, or were outgrown, on both sides: by how much more or less. */
  readonly loads: readonly LoadChange[];
  readonly orders: readonly OrderChange[];
  /** Units of both sides that are plugged in elsewhere now. */
  readonly ports: readonly PortMove[];
  readonly licences: readonly LicenceChange[];
  /** The same and what passes before all that is planned stands, each with its time; left out where there is one. */
  readonly times?: readonly TimedChangeOutput[];
}

export interface TimedChangeOutput
  extends Omit<DesignChangeOutput, "folder" | "movedFrom" | "title" | "times"> {
  /** ISO date from which on; left out: from today. */
  readonly from?: string;
  /** ISO date of the first day on which it is so no more; left out: it stays. */
  readonly until?: string;
}

export interface WithFindings {
  readonly findings: readonly FindingChangeOutput[];
}

export type HopChangeOutput = Omit<HopChange, "findings" | "causes"> & {
  readonly causes: readonly Cause[];
} & WithFindings;

export interface FindingChangeOutput {
  readonly status: FindingStatus;
  readonly rule: string;
  readonly severity: Severity;
  readonly message: string;
  /** What it said before, where it was there. */
  readonly was?: string;
  /** Rule and address: the same from revision to revision. */
  readonly key: string;
  readonly place?: PlaceOutput;
  readonly accepted?: { readonly reason?: string; readonly until?: string };
}
