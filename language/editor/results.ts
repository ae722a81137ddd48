/** What the editor features need to know of computed results; the host hands it in. */
import type { Hop } from "../../shared/design/design.js";
import type { Finding } from "../../shared/design/finding.js";
import type { HopResult } from "../../shared/evaluate/account/result.js";
import type { InterferenceAt } from "../../shared/interference/receiver-result.js";

export interface JudgedHop {
  readonly hop: Hop;
  readonly result: HopResult;
  readonly findings: readonly Finding[];
  /** What others' transmissions do at its receivers; undefined: it was not computed, or nobody asks. */
  readonly interference?: readonly InterferenceAt[];
}

/** The latest result of a hop; undefined while there is none. */
export type Results = (hop: string) => JudgedHop | undefined;
