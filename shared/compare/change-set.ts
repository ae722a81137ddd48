/** What a change does to the network: the result of a comparison, plain data for every printer. */
import type { DemandsResult } from "../demands/result.js";
import type { Design, Hop } from "../design/design.js";
import type { Finding } from "../design/finding.js";
import type { HopResult } from "../evaluate/account/result.js";
import type { FigureChange } from "./consequences.js";
import type { DecisionChange } from "./decisions.js";
import type { DemandChange, LoadChange } from "./demand-change.js";
import type { Decisions } from "./facts.js";
import type { FindingChange } from "./findings.js";
import type { LicenceChange } from "./licences.js";
import type { OrderChange } from "./orders.js";
import type { PortMove } from "./ports.js";

/** A hop with what was computed for it. */
export interface ComparedHop {
  readonly hop: Hop;
  readonly result: HopResult;
  readonly findings: readonly Finding[];
  /** Hops whose transmissions come in at its receivers; undefined: interference was not computed. */
  readonly hears?: readonly string[];
}

/** One side of a comparison. */
export interface ComparedSide {
  readonly decisions: Decisions;
  readonly design: Design;
  /**
   * Hops that may differ, evaluated. One that is the same on both sides, its ground included, need not be here;
   * one that cannot be evaluated is not.
   */
  readonly hops: ReadonlyMap<string, ComparedHop>;
  /** What it carries; undefined: the design states no demand, or nothing that they rest on differs. */
  readonly demands?: DemandsResult;
  /** Findings on what hops share, and on the text. */
  readonly findings: readonly Finding[];
}

export interface HopChange {
  readonly hop: string;
  readonly title?: string;
  /** Not judged: it is still there, but cannot be evaluated any more. */
  readonly status: "added" | "removed" | "changed" | "not judged";
  readonly renamedFrom?: string;
  /** It is written on both sides, and stands on one of them only. */
  readonly byState?: true;
  /** Whether its own text decides something else now; false: others' changes reach it. */
  readonly edited: boolean;
  readonly decisions: readonly DecisionChange[];
  readonly figures: readonly FigureChange[];
  /** What other than its own text changed for it. */
  readonly causes: readonly Cause[];
  readonly findings: readonly FindingChange[];
  /** Whether it got worse: a finding to mend, or a figure that fell. */
  readonly worse: boolean;
}

export interface Cause {
  readonly kind:
    | "catalogue"
    | "defaults"
    | "climate"
    | "objective"
    | "site"
    | "network"
    | "terrain"
    | "survey"
    | "neighbour";
  /** For example `antenna DISH60-18`, `terrain`, `hop KELD-MOSS`. */
  readonly text: string;
  /** Whether it came, went or says something else. */
  readonly status: "added" | "removed" | "renamed" | "changed" | "not judged" | "judged again";
  /** Its new name, which the hop does not use. */
  readonly renamedTo?: string;
  /** What it says else; of what came or went nothing, and of the ground nothing either. */
  readonly decisions: readonly DecisionChange[];
  /** What the ground under the path became. */
  readonly ground?: readonly { readonly label: string; readonly was?: string; readonly is?: string }[];
}

export interface SiteChange {
  readonly site: string;
  readonly status: "added" | "removed" | "renamed" | "changed";
  readonly renamedFrom?: string;
  readonly decisions: readonly DecisionChange[];
  readonly findings: readonly FindingChange[];
  /** Hops that end here and were added, removed or edited: what others may have done to the site. */
  readonly because: readonly string[];
}

/** A change of something that many hops share. */
export interface SharedChange {
  /** `radio R18`, `climate`, `defaults hop`. */
  readonly entry: string;
  readonly status: "added" | "removed" | "renamed" | "changed";
  readonly renamedFrom?: string;
  readonly decisions: readonly DecisionChange[];
  /** Hops for which it counts now. */
  readonly usedBy: number;
  /** Those of them whose figures or findings it changes. */
  readonly affects: number;
  readonly findings: readonly FindingChange[];
}

export interface ChangeSet {
  /** What matters most comes first. */
  readonly hops: readonly HopChange[];
  readonly sites: readonly SiteChange[];
  readonly shared: readonly SharedChange[];
  /** Findings on nothing of the above: a file, the network as a whole. */
  readonly findings: readonly FindingChange[];
  /** Demands of both sides with other figures than before. */
  readonly demands: readonly DemandChange[];
  /** Hops of both sides that carried too much, or were outgrown, on both: by how much more or less. */
  readonly loads: readonly LoadChange[];
  readonly orders: readonly OrderChange[];
  /** Units of both sides that are plugged in elsewhere now. */
  readonly ports: readonly PortMove[];
  readonly licences: readonly LicenceChange[];
  readonly counts: ChangeCounts;
  /** Whether anything got worse. */
  readonly worse: boolean;
  /** Whether there is a finding to mend that was not there, or not so grave. */
  readonly newFindings: boolean;
}

export interface ChangeCounts {
  readonly added: number;
  readonly removed: number;
  readonly renamed: number;
  readonly edited: number;
  /** Hops that changed without being edited. */
  readonly affected: number;
  readonly worse: number;
  /** Demands with a figure that fell. */
  readonly demandsWorse: number;
  /** Errors and warnings that were not there, not so grave, or excused. */
  readonly newFindings: number;
  /** Errors and warnings that are gone, those that were accepted too. */
  readonly fixedFindings: number;
  readonly newlyAccepted: number;
  /** Remarks (of severity info) that were not there. */
  readonly newRemarks: number;
  /** Remarks that are gone. */
  readonly fixedRemarks: number;
}

export function isEmpty(changes: ChangeSet): boolean {
  const { hops, sites, shared, findings, demands, loads, orders, ports, licences } = changes;
  return [hops, sites, shared, findings, demands, loads, orders, ports, licences].every(
    (list) => list.length === 0,
  );
}

/** Every finding that came, went or changed. */
export function findingsIn({
  hops,
  sites,
  shared,
  findings,
}: Pick<ChangeSet, "hops" | "sites" | "shared" | "findings">): readonly FindingChange[] {
  return [...[...hops, ...sites, ...shared].flatMap((change) => change.findings), ...findings];
}
