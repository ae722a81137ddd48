import type { Design, Hop } from "../../design/design.js";
import type { Span } from "../../design/state.js";
import type { HopResult } from "../../evaluate/account/result.js";
import type { ReportFinding } from "../../report/document/document.js";

/** A design with what was found, as the lists tell it. */
export interface ListedDesign {
  /** As it stands at the time that is shown. */
  readonly design: Design;
  /** Sites and hops that stand at a time that was judged, each as it stands last, in the order of the text. */
  readonly last: Pick<Design, "sites" | "hops">;
  /** ISO date of the one day that is told of; undefined: each thing is told as it stands last. */
  readonly shownOn?: string;
  /** ISO date of today: of two licences for the same the one in force counts. */
  readonly today?: string;
  /** All hops that stand at a time that was judged, in the order of the text. */
  readonly hopNames: readonly string[];
  readonly results: ReadonlyMap<string, ListedHop>;
  /** Of everything, in the order of files and places. */
  readonly findings: readonly ListedFinding[];
}

interface ListedHop {
  readonly hop: Hop;
  readonly result: HopResult;
  /** ISO date of the day on which it stands no more, before all that is planned does; its figures are those before. */
  readonly until?: string;
}

export interface ListedFinding extends ReportFinding {
  /** ISO dates between which it holds, where it does not at all times that were judged. */
  readonly time?: Partial<Span>;
  readonly file?: string;
  readonly line?: number;
  readonly column?: number;
}
