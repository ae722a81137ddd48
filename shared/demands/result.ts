/** What a design's demands come to. Plain data; names instead of numbers, shares of time as percent. */
import type { Demand } from "../design/demand.js";
import type { Verdict } from "../evaluate/account/outage-result.js";
import type { Element } from "./failures.js";
import type { Grown, Outgrown } from "./growth.js";
import type { Latency } from "./latency.js";
import type { Taken } from "./rates.js";
import type { RouteProblem, SecondProblem } from "./routes.js";

export interface Route {
  readonly sites: readonly string[];
  readonly hops: readonly string[];
  readonly lengthM: number;
  readonly latency: Latency;
}

/** What takes part of the average year, percent. */
export interface DemandOutage {
  readonly multipathPercent: number;
  readonly rainIndependentPercent: number;
  readonly rainTogetherPercent: number;
  /** Undefined: of a hop on the way it is not known. */
  readonly equipmentPercent?: number;
  /** Both routes down for different causes. */
  readonly mixedPercent: number;
  readonly propagationPercent: number;
  readonly allPercent?: number;
}

/** One hop of a route, for the demand. */
export interface HopOfRoute {
  readonly hop: string;
  /** What must be carried before or with the demand. */
  readonly neededBps: number;
  /** Of the mode that carries it; undefined: none does, or none is known. */
  readonly modulation?: string;
  readonly bps?: number;
  /** Of propagation; 100 where no mode carries it; undefined: not known. */
  readonly outagePercent?: number;
  /** What the hop may take, of what the demand may lose: by its length. Undefined: nothing is asked. */
  readonly sharePercent?: number;
}

/**
 * What is not known of a hop: what its modes carry, what they lose, rain that is only bounded, where its ends are, its
 * ground, its failures.
 */
export type OpenLack = "capacity" | "outage" | "rain" | "length" | "ground" | "equipment";

export interface DemandResult {
  readonly demand: Demand;
  readonly taken: Taken;
  readonly route?: Route;
  readonly problem?: RouteProblem;
  readonly second?: Route;
  readonly secondProblem?: SecondProblem;
  /** Of the first route, then of the second where it is not on the first. */
  readonly hops: readonly HopOfRoute[];
  /** Undefined: a hop on its way has no figures. */
  readonly outage?: DemandOutage;
  readonly verdicts: {
    readonly availability?: Verdict;
    readonly availabilityWithEquipment?: Verdict;
    readonly latency?: Verdict;
    readonly clock?: Verdict;
    /** Whether there is the second route that it asks for. */
    readonly secondRoute?: Verdict;
  };
  /** Hops of which too little is known for what it asks. */
  readonly open: readonly { readonly hop: string; readonly lacks: readonly OpenLack[] }[];
  /** Hops that no mode takes through with all that must be carried. */
  readonly short: readonly string[];
  /** Of its site; undefined: none is wanted, or none comes there. */
  readonly clock?: { readonly source: string; readonly hops: number; readonly secondHops?: number };
  /** Elements between its ends whose failure leaves it without a route. */
  readonly singlePoints: readonly Element[];
}

export interface ExceededShare {
  readonly demand: string;
  readonly leftPercent: number;
  readonly outagePercent: number;
  /** The mode that carries the demand; undefined: none does. */
  readonly modulation?: string;
  /** What the demand asks end to end is met all the same. */
  readonly othersMakeUp: boolean;
}

export interface HopLoad {
  readonly hop: string;
  readonly demands: readonly string[];
  readonly committedBps: number;
  readonly peakBps: number;
  /** In clear air. */
  readonly clearAirBps?: number;
  /** The strictest that a demand on it asks end to end, and what is carried then. */
  readonly percent?: number;
  readonly carriedBps?: number;
  /**
   * What `carriedBps` is: what it carries for `percent` of the year; more than that, in a mode that is in use since what
   * its demands ask end to end is met all the same; or, where none asks for a share of time, what it carries in clear air.
   */
  readonly carriedAs?: "share" | "in use" | "clear air";
  /** What it may lose, by what its demands ask; undefined: none asks. */
  readonly share?: {
    /** The one that leaves it least, by its length along the route, and what: percent of the year, of propagation. */
    readonly demand: string;
    readonly leftPercent: number;
    /** What its own objective leaves it; undefined: none is stated. */
    readonly ownPercent?: number;
    readonly stricter: "demand" | "objective";
    /** Demands whose share it is known to exceed, the one exceeded most first. */
    readonly exceeded: readonly ExceededShare[];
  };
  /** With the most committed traffic of all failures of one element; undefined: none brings more than is normal. */
  readonly worst?: {
    readonly element: Element;
    readonly committedBps: number;
    /** Demands that come to it then. */
    readonly demands: readonly string[];
    /** More than it carries. */
    readonly overloaded: boolean;
  };
  /** The year within the horizons of its demands in which most is committed on it; undefined: never more than today. */
  readonly grown?: Grown;
  /** First year in which growth outgrows it, and what must be carried then; undefined: within all horizons none does. */
  readonly outgrown?: Outgrown;
  /**
   * The same while an element is down, the earliest of all failures; undefined too where it is outgrown as it is by then,
   * and where a failure overloads it today.
   */
  readonly outgrownWithout?: Outgrown & { readonly element: Element };
}

export interface FailureResult {
  readonly element: Element;
  readonly lost: readonly string[];
  readonly moved: readonly string[];
  /** Hops that carry less than what is committed on them then. */
  readonly overloaded: readonly {
    readonly hop: string;
    readonly committedBps: number;
    readonly carriedBps: number;
  }[];
}

interface Ring {
  /** In turn, from the earliest name. */
  readonly sites: readonly string[];
  readonly hops: readonly string[];
}

/** Figures of our own that were taken since neither the network nor the demand that wants one states any. */
export interface DefaultsTaken {
  readonly hopLatency: boolean;
  readonly siteLatency: boolean;
  readonly frameBytes: boolean;
  readonly clockHops: boolean;
}

export interface DemandsResult {
  readonly defaults: DefaultsTaken;
  readonly demands: ReadonlyMap<string, DemandResult>;
  /** By name; hops that carry nothing too. */
  readonly hops: ReadonlyMap<string, HopLoad>;
  readonly failures: readonly FailureResult[];
  readonly rings: readonly Ring[];
  /** More than rings: any one hop among these sites may fail. */
  readonly meshes: readonly { readonly sites: readonly string[]; readonly hops: readonly string[] }[];
}
