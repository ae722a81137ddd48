/** What a network is for: what must be carried from one site to another, and what it may cost in time and failure. */
import type { Acceptance } from "./acceptance.js";
import type { State } from "./state.js";

export interface Demand {
  readonly name: string;
  readonly title?: string;
  /** When it must be carried; undefined: at all times. */
  readonly state?: State;
  /** Names of sites; undefined: not stated, or no site of the design. */
  readonly from?: string;
  /** A site, or whichever site of those with a handover its route reaches first. */
  readonly to?: { readonly site: string } | "handover";
  /** Ethernet, as the customer counts it: frames from destination address to check sequence. Both directions the same. */
  readonly committedBps?: number;
  /** What it may take where there is room; undefined: no more than what is committed. */
  readonly peakBps?: number;
  /** 2.048 Mbit/s each. */
  readonly e1?: number;
  /** 155.52 Mbit/s each. */
  readonly stm1?: number;
  /** TDM crosses the hops in packets, payload bytes each; undefined: natively. */
  readonly tdmPacketBytes?: number;
  /** Mean Ethernet frame; undefined: the network's. */
  readonly frameBytes?: number;
  /** What the network adds to each frame (tags, labels); undefined: the network's. */
  readonly frameOverheadBytes?: number;
  /** End to end, average year: of propagation alone, and with failures of equipment. */
  readonly availabilityPercent?: number;
  readonly availabilityWithEquipmentPercent?: number;
  /** Most from end to end, one way, s. */
  readonly latencyS?: number;
  /** 1 is carried first; undefined: last. */
  readonly priority?: number;
  /** Of rates, a year. */
  readonly growthPercent?: number;
  readonly growthYears?: number;
  /** A clock is wanted at `from`; `two-feeds`: over two ways that share no hop. */
  readonly clock?: "one-feed" | "two-feeds";
  /** Sites or hops that its route passes, in this order; undefined: found. */
  readonly via?: readonly RoutePoint[];
  /** Undefined: none is asked for. */
  readonly secondRoute?: {
    /** What both routes may not share besides their ends. `structure`: sites near each other count as one. */
    readonly disjoint: "hop" | "site" | "structure";
    readonly via?: readonly RoutePoint[];
  };
  readonly accepts: readonly Acceptance[];
}

export type RoutePoint = { readonly site: string } | { readonly hop: string };

/** What the network says of all its demands. */
export interface TrafficTerms {
  /**
   * What happens to traffic whose route fails. `any`: it takes the shortest that remains; `none`: only a demand's own
   * second route helps. Undefined: `any`.
   */
  readonly rerouting?: "any" | "none";
  /** Interruption while traffic moves to another route, s. */
  readonly switchingS?: number;
  /** Latency of a hop's two radios together, and of the switch at a site, s. */
  readonly hopLatencyS?: number;
  readonly siteLatencyS?: number;
  readonly frameBytes?: number;
  readonly frameOverheadBytes?: number;
  /** Most hops that a clock may pass. */
  readonly clockHops?: number;
}

/** What a site is to demands; those that are nothing to them are not listed. */
export interface TrafficAtSite {
  /** Traffic leaves to fibre here. */
  readonly handover?: true;
  /** A clock of its own (a receiver of satellites, a primary reference). */
  readonly clockSource?: true;
}
