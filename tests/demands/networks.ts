/** Small networks for demands, with hops whose figures are stated and not computed. */

import { Demands } from "../../shared/demands/demands.js";
import type { Element } from "../../shared/demands/failures.js";
import type { DemandsResult } from "../../shared/demands/result.js";
import type { Demand, TrafficAtSite, TrafficTerms } from "../../shared/design/demand.js";
import type { Hop, Site } from "../../shared/design/design.js";
import type { HopResult } from "../../shared/evaluate/account/result.js";

interface MadeMode {
  readonly bps: number;
  /** Percent of the year, of each direction; undefined: not known. */
  readonly multipath?: number;
  readonly rain?: number;
  readonly marginDb?: number;
}

export interface MadeHop {
  readonly km?: number;
  readonly modes?: readonly MadeMode[];
  /** Percent. */
  readonly equipment?: number;
  /** Availability that its own objective asks, percent. */
  readonly objective?: number;
}

/** `A-B` is a hop from A to B, `A-B/2` another. */
export function network(
  hops: Readonly<Record<string, MadeHop>>,
  demands: Readonly<Record<string, Omit<Demand, "name" | "accepts">>>,
  more: {
    readonly terms?: TrafficTerms;
    readonly at?: Readonly<Record<string, TrafficAtSite>>;
    readonly cards?: readonly Extract<Element, { kind: "card" }>[];
    readonly positions?: Readonly<Record<string, readonly [number, number]>>;
  } = {},
): DemandsResult {
  return new Demands().of(inputs(hops, demands, more));
}

export function inputs(
  hops: Readonly<Record<string, MadeHop>>,
  demands: Readonly<Record<string, Omit<Demand, "name" | "accepts">>>,
  { terms = {}, at = {}, cards = [], positions = {} }: Parameters<typeof network>[2] = {},
): Parameters<Demands["of"]>[0] {
  const made = Object.entries(hops).map(([name, hop]) => madeHop(name, hop));
  const names = new Set(made.flatMap(({ hop }) => hop.ends.map(({ site }) => site.name)));
  const sites = [...names].map((name): Site => {
    const place = positions[name];
    return { name, ...(place && { position: { latitudeDeg: place[0], longitudeDeg: place[1] } }) };
  });
  return {
    hops: new Map(made.map(({ hop }) => [hop.name, hop])),
    results: new Map(made.map(({ hop, result }) => [hop.name, result])),
    sites: new Map(sites.map((site) => [site.name, site])),
    demands: new Map(Object.entries(demands).map(([name, of]) => [name, { ...of, name, accepts: [] }])),
    terms,
    atSites: new Map(Object.entries(at)),
    cards,
  };
}

const FIXED: readonly MadeMode[] = [{ bps: 400e6, multipath: 0, rain: 0 }];

function madeHop(
  name: string,
  { km = 10, modes = FIXED, equipment, objective }: MadeHop,
): { hop: Hop; result: HopResult } {
  const [from, to] = name.replace(/\/.*/, "").split("-") as [string, string];
  const direction = {
    modes: modes.map(({ bps, multipath, rain, marginDb = 30 }, k) => ({
      modulation: `MODE ${k + 1}`,
      bandwidthHz: 55e6,
      bitRateBps: bps,
      transmitPowerDbm: 20,
      receivedLevelDbm: -40,
      thresholdDbm: -70,
      thresholdFrom: "catalogue" as const,
      fadeMarginDb: marginDb,
      ...(multipath !== undefined && { multipath: { timePercent: multipath } }),
      ...(rain !== undefined && { rain: { timePercent: rain } }),
    })),
  };
  const hop = {
    name,
    ends: [{ site: { name: from } }, { site: { name: to } }],
    arrangement: { name: "1+0" },
    modes: [],
    climate: {},
    ...(objective !== undefined && { objective: { availabilityPercent: objective } }),
    obstacles: [],
    accepts: [],
  } as unknown as Hop;
  const result = {
    hop: name,
    ends: [from, to],
    distanceM: 1000 * km,
    directions: [
      { ...direction, from, to },
      { ...direction, from: to, to: from },
    ],
    ...(equipment !== undefined && { availability: { equipment: { unavailabilityPercent: equipment } } }),
  } as unknown as HopResult;
  return { hop, result };
}
