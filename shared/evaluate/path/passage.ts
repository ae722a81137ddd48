import type { Hop, HopEnd } from "../../design/design.js";
import type { Trace } from "../account/trace.js";
import type { ClimateInUse } from "./climate.js";

/** One direction of a hop at one frequency: what level, fading and outage are computed for, chapter by chapter. */
export interface Passage {
  readonly hop: Hop;
  /** The sender first. */
  readonly ends: readonly [HopEnd, HopEnd];
  readonly frequencyHz: number;
  readonly climate: ClimateInUse;
  /** What other transmissions cost the receiver, as computed from the network; undefined: it was not. */
  readonly interferenceDb?: number;
  /** Takes what is told of the way. */
  readonly trace: Trace;
}
