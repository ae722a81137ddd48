/**
 * A format that a command prints in: a row, beside what prints it. `formats.ts` lists the rows; the option, the help, the
 * refusal of others, the page of the reference and the tests come from there.
 */

import type { DemandsResult } from "../../../shared/demands/result.js";
import type { Hop } from "../../../shared/design/design.js";
import type { Severity } from "../../../shared/design/severity.js";
import type { HopResult } from "../../../shared/evaluate/account/result.js";
import type { List } from "../../../shared/lists/subjects/list.js";
import type { Page, PrintedFile } from "../../../shared/report/document/document.js";
import type { Explanation } from "../../../shared/report/explanation.js";
import type { TerrainProfile } from "../../../shared/terrain/profile.js";
import type { FolderComparison } from "../../compare/compare-folders.js";
import type { HistoryEntry } from "../../compare/hop-history.js";
import type { JudgedDesign, JudgedFolder } from "../../findings/judged-folder.js";
import type { PlacedFinding } from "../../findings/placed.js";
import type { TriedChannel } from "../../session/channels.js";
import type { Baseline } from "../baseline.js";
import type { Paint } from "../streams.js";

export interface Format<Of, Printed = Iterable<string>> {
  /** As the option names it. */
  readonly name: string;
  /** What it is for, in one line. */
  readonly what: string;
  print(of: Of): Printed | Promise<Printed>;
}

/** A terminal, or what takes its place. */
interface Shown {
  readonly paint: Paint;
  /** Sentences are broken at this width; otherwise they stay in one line, as programs like it. */
  readonly columns?: number;
}

export interface Checked extends Shown {
  readonly judged: JudgedFolder;
  /** Paths are printed as seen from here. */
  readonly cwd: string;
  /** Of findings in text, milder ones are left out and only counted; `remarks` too prints those on what figures rest on one by one. */
  readonly show: Severity | "remarks";
  /** Adds the resolved design. */
  readonly resolved?: boolean;
  /** Findings that were there before. */
  readonly baseline?: Baseline;
  /** Whether a finding makes the exit status 1. */
  counts(finding: PlacedFinding): boolean;
}

export type CheckFormat = Format<Checked>;
export type DiffFormat = Format<FolderComparison>;

export interface Explained extends Shown {
  /** What the figures are of. */
  readonly of: { readonly hop: string } | { readonly site: string };
  readonly figures: readonly Explanation[];
}
export type ExplainFormat = Format<Explained>;

export interface HistoryOfHop extends Shown {
  readonly hop: string;
  readonly entries: readonly HistoryEntry[];
  /** What is left out or cannot be read, a sentence each. */
  readonly notes: readonly string[];
}
export type HistoryFormat = Format<HistoryOfHop>;

export interface ChannelsOfHop extends Shown {
  readonly hop: Hop;
  readonly tried: readonly TriedChannel[];
}
export type ChannelsFormat = Format<ChannelsOfHop>;

export interface DesignDemands {
  readonly design: JudgedDesign;
  /** Undefined: it states none. */
  readonly result?: DemandsResult;
  /** Those on demands. */
  readonly findings: readonly PlacedFinding[];
}

export interface DemandsOfFolder extends Shown {
  readonly designs: readonly DesignDemands[];
  /** The one that is looked at alone. */
  readonly only?: string;
}
export type DemandsFormat = Format<DemandsOfFolder>;

export interface ProfileOfHop extends Shown {
  readonly hop: Hop;
  readonly result: HopResult;
  readonly profile?: TerrainProfile;
}
export type ProfileFormat = Format<ProfileOfHop>;

export interface Listed {
  readonly lists: readonly List[];
  readonly title?: string;
  /** The time that figures are of, in words. */
  readonly shows?: string;
}

/** Bytes are no text for a terminal. */
export interface ListFormat extends Format<Listed, Iterable<string> | Uint8Array> {
  readonly bytes?: true;
  /** It holds a single list. */
  readonly single?: true;
  /** It shows places: lists without any are not for it. */
  readonly map?: true;
}

/** A page as bytes, signs that its font lacks, and the words of a picture that could not be read. */
export interface PrintedBytes {
  readonly path: string;
  readonly bytes: Uint8Array;
  readonly missing: readonly string[];
  readonly unread?: string;
  readonly unreadReason?: string;
}

export interface ReportFormat extends Format<Page, readonly (PrintedFile | PrintedBytes)[]> {
  /** Made only where it is named. */
  readonly named?: true;
}
