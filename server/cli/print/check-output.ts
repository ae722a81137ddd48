/**
 * Shape of `check --format json`. `hopwright schema check` prints its JSON Schema, which is generated from these
 * types. A change that a script could notice raises the number in `schema`.
 */

import type { Acceptance } from "../../../shared/design/acceptance.js";
import type { Demand, TrafficAtSite, TrafficTerms } from "../../../shared/design/demand.js";
import type { Hop, Site } from "../../../shared/design/design.js";
import type { SiteEquipment, SpareRule } from "../../../shared/design/equipment.js";
import type { Severity } from "../../../shared/design/severity.js";
import type { State } from "../../../shared/design/state.js";
import type { Counts } from "../../findings/summary.js";
import type { Without } from "../../findings/without.js";
import type { InterferenceOutput } from "./interference-output.js";
import type { ResultOutput } from "./result-output.js";

export interface CheckOutput {
  readonly schema: "hopwright-check/3";
  readonly version: string;
  /** The folder checked, as seen from the working directory. Every other path is relative to it and parted by `/`. */
  readonly root: string;
  readonly counts: CountsOutput;
  /** `.hop` files and catalogue folders that could not be read. */
  readonly unreadable: readonly FileProblemOutput[];
  readonly designs: readonly DesignOutput[];
}

export type CountsOutput = Counts;

export interface FileProblemOutput {
  readonly file: string;
  /** Cause; remedy. */
  readonly message: string;
  /** The file was used all the same. */
  readonly reservation?: true;
}

export interface DesignOutput {
  readonly folder: string;
  readonly title?: string;
  /** The time that the figures of `hops` are of, in words; left out where nothing in the design has a state. */
  readonly shows?: string;
  /** With `--without`: what is taken out, and what that does to demands; all else is of what remains. */
  readonly without?: Without;
  readonly counts: CountsOutput;
  /** Terrain that could not be used, and terrain used with a reservation. */
  readonly terrainProblems: readonly FileProblemOutput[];
  readonly findings: readonly FindingOutput[];
  readonly hops: readonly HopOutput[];
  /** The design with names, templates and defaults resolved: with `--resolved` only. */
  readonly resolved?: DesignDocument;
}

/** A place in a text file. Lines and columns count from 1, columns and offsets in UTF-16 units. */
export interface PlaceOutput {
  readonly file: string;
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  readonly endColumn: number;
  readonly startOffset: number;
  /** Behind the last unit. */
  readonly endOffset: number;
}

export interface FindingOutput {
  /** Identifier of the rule; `hopwright explain` tells of it. */
  readonly rule: string;
  /**
   * Rule and address, and the day on which it ends where it does: the same as long as it is the same finding, whatever
   * its figures and lines; for `--baseline`.
   */
  readonly key: string;
  readonly severity: Severity;
  readonly message: string;
  readonly help?: string;
  /** The hop that it was found on, or in whose text it stands. */
  readonly hop?: string;
  readonly place?: PlaceOutput;
  readonly related?: readonly RelatedOutput[];
  /** Of `not-judged`: the rules whose criteria have no verdict. */
  readonly notJudged?: readonly string[];
  /** The design accepts it: it is shown, and never counts. */
  readonly accepted?: { readonly reason?: string; readonly until?: string };
  /** ISO dates between which it holds, where it does not at all times that were judged; the message tells it too. */
  readonly from?: string;
  readonly until?: string;
}

export interface HopOutput extends ResultOutput {
  /** At each receiver of the hop; of a hop that has left nothing. */
  readonly interference?: readonly InterferenceOutput[];
  /** As the hop states it; left out: it stands at all times, or as long as its sites do. */
  readonly state?: State;
  /** ISO date of the first judged day on which it stands no more; its figures are those before. */
  readonly until?: string;
}

export interface RelatedOutput {
  readonly message: string;
  readonly place?: PlaceOutput;
  /** A file without places: terrain or a survey. */
  readonly file?: string;
}

/** The resolved design: SI units, angles in degrees; see the names of the properties for units. */
export interface DesignDocument {
  readonly schema: "hopwright-design/1";
  readonly title?: string;
  readonly terrain: readonly string[];
  readonly sites: readonly Site[];
  readonly hops: readonly Hop[];
  /** What stands at the sites; left out where nothing is stated. */
  readonly equipment?: readonly SiteEquipment[];
  /** What sites accept; a hop's acceptances stand in the hop. */
  readonly acceptedAt?: readonly { readonly site: string; readonly accepts: readonly Acceptance[] }[];
  readonly spares?: readonly SpareRule[];
  readonly groundingEveryM?: number;
  readonly demands?: readonly Demand[];
  /** What the network says of all demands. */
  readonly traffic?: TrafficTerms;
  /** Sites where traffic leaves to fibre, or that have a clock of their own. */
  readonly trafficAt?: readonly ({ readonly site: string } & TrafficAtSite)[];
}
