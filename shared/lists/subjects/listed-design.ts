import type { Design, Hop } from "../../design/design.js";
import type { HopResult } from "../../evaluate/result.js";
import type { ReportFinding } from "../../report/document/document.js";

/** A design with what was found, as the lists tell it. */
export interface ListedDesign {
  readonly design: Design;
  /** All hops of the text, in its order. */
  readonly hopNames: readonly string[];
  readonly results: ReadonlyMap<string, { readonly hop: Hop; readonly result: HopResult }>;
  /** Of everything, in the order of files and places. */
  readonly findings: readonly ListedFinding[];
}

export interface ListedFinding extends ReportFinding {
  readonly file?: string;
  readonly line?: number;
  readonly column?: number;
}
