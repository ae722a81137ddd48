/** Everything that demands and the hops under them are judged by, put together once. */
import type { Demand, TrafficTerms } from "../design/demand.js";
import type { Capacity } from "./capacity.js";
import type { ClockFeed } from "./clocks.js";
import type { Carried, Loads } from "./load.js";
import type { Taken } from "./rates.js";
import type { Ways } from "./ways.js";

/** A hop as demands meet it, by its number. */
export interface HopOfNetwork {
  readonly name: string;
  readonly lengthM: number;
  readonly capacity: Capacity;
  readonly equipmentFraction?: number;
  /** An obstruction may stand where nobody knows the ground. */
  readonly groundUnknown: boolean;
}

/** Demands in the order in which a hop carries them: by priority, then those that may fail least. */
export interface Ranked {
  readonly demand: Demand;
  readonly taken: Taken;
  /** Equal for those that go together. */
  readonly rank: number;
}

/** Everything that demands are judged by. */
export interface Traffic {
  readonly ways: Ways;
  readonly hops: readonly HopOfNetwork[];
  readonly ranked: ReadonlyMap<string, Ranked>;
  readonly carried: ReadonlyMap<string, Carried>;
  readonly normal: Loads;
  readonly terms: TrafficTerms;
  readonly clocks: { readonly sources: ReadonlySet<number>; readonly feeds: ReadonlyMap<number, ClockFeed> };
  /** Committed on a hop by demands that go before one of such a rank, or with it. */
  committedUpTo(hop: number, rank: number): number;
}
