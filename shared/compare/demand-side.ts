/** The demands of one side of a comparison, told by the names that the new side has for demands and hops. */
import type { DemandResult, DemandsResult, HopLoad, HopOfRoute } from "../demands/result.js";
import { hopNow, type Renames } from "./renames.js";

export interface DemandSide {
  demand(name: string): DemandResult | undefined;
  load(hop: string): HopLoad | undefined;
  /** Of its first route, then of the second. */
  way(name: string): ReadonlySet<string>;
  /** What a hop of its way is to it. */
  onWay(name: string, hop: string): HopOfRoute | undefined;
  /** Demands that pass a hop as things are. */
  passing(hop: string): ReadonlySet<string>;
  /** Those, and those that come to it in its worst failure. */
  coming(hop: string): ReadonlySet<string>;
}

/** @param renames of the old side; undefined: its names are the new ones */
export function demandSide(result: DemandsResult | undefined, renames: Renames | undefined): DemandSide {
  const hop = (name: string) => (renames ? hopNow(name, renames) : name);
  const demand = (name: string) => (renames ? demandNow(name, renames) : name);
  const demands = new Map([...(result?.demands ?? [])].map(([name, one]) => [demand(name), one]));
  const loads = new Map([...(result?.hops ?? [])].map(([name, one]) => [hop(name), one]));
  return {
    demand: (name) => demands.get(name),
    load: (name) => loads.get(name),
    way: (name) => new Set((demands.get(name)?.hops ?? []).map((one) => hop(one.hop))),
    onWay: (name, at) => demands.get(name)?.hops.find((one) => hop(one.hop) === at),
    passing: (at) => new Set((loads.get(at)?.demands ?? []).map(demand)),
    coming: (at) =>
      new Set([...(loads.get(at)?.demands ?? []), ...(loads.get(at)?.worst?.demands ?? [])].map(demand)),
  };
}

export function demandNow(name: string, { entries }: Renames): string {
  return (entries.get(`demand ${name}`) ?? `demand ${name}`).slice("demand ".length);
}
