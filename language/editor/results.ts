/** What the editor features need to know of computed results; the host hands it in. */
import type { DemandsResult } from "../../shared/demands/result.js";
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

/** What the network carries, as last judged; undefined: not known yet, or the design states no demand. */
export type Carried = () => DemandsResult | undefined;

/** The latest result of a hop; undefined while there is none. */
export type Results = (hop: string) => JudgedHop | undefined;
