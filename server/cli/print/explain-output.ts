/** Shape of `explain --hop HOP --format json` and of `explain --site SITE --format json`; `hopwright schema explain` prints its JSON Schema. */
import type { ExplanationOutput } from "./result-output.js";

export interface ExplainOutput {
  readonly schema: "hopwright-explain/2";
  readonly version: string;
  /** Of whose equipment and path the figures are; else there is a site. */
  readonly hop?: string;
  readonly site?: string;
  /** Every computed figure with what it rests on; what could not be computed stands last. */
  readonly figures: readonly ExplanationOutput[];
}
