/** Shape of `explain --hop HOP --format json`; `hopwright schema explain` prints its JSON Schema. */
import type { Explanation } from "../../../shared/report/explanation.js";

export interface ExplainOutput {
  readonly schema: "hopwright-explain/1";
  readonly version: string;
  readonly hop: string;
  /** Every computed figure with what it rests on; what could not be computed stands last. */
  readonly figures: readonly Explanation[];
}
