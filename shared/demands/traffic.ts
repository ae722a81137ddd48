/** Everything that demands and the hops under them are judged by, put together once. */
import type { TrafficTerms } from "../design/demand.js";
import type { Capacity } from "./capacity.js";
import type { ClockFeed } from "./clocks.js";
import type { Flows } from "./flows.js";

/** A hop as demands meet it, by its number; the same object as long as it is the same. */
export interface HopOfNetwork {
  readonly name: string;
  readonly lengthM: number;
  readonly capacity: Capacity;
  readonly equipmentFraction?: number;
  /** Its ends are not known, and its length counts as none. */
  readonly lengthUnknown: boolean;
  /** Of a mode in use rate or level is not known: it may carry what the others do not. */
  readonly capacityPartly: boolean;
  /** An obstruction may stand where nobody knows the ground. */
  readonly groundUnknown: boolean;
  /** What its own objective leaves it of the year, percent. */
  readonly ownPercent?: number;
}

export interface Traffic {
  readonly flows: Flows;
  readonly hops: readonly HopOfNetwork[];
  readonly terms: TrafficTerms;
  /** The same object as long as it is the same. */
  readonly clocks: Clocks;
}

export interface Clocks {
  readonly sources: ReadonlySet<number>;
  readonly feeds: ReadonlyMap<number, ClockFeed>;
}
