/** What the demands of a network come to: routes, loads, outage, latency, clock, and what failures do to them. */
import type { Demand, TrafficAtSite, TrafficTerms } from "../design/demand.js";
import type { Hop, Site } from "../design/design.js";
import type { HopResult } from "../evaluate/account/result.js";
import { type Capacity, capacityOf } from "./capacity.js";
import { clockFeeds } from "./clocks.js";
import type { Element } from "./failures.js";
import { hopLoadsOf } from "./hop-loads.js";
import { judgedDemand } from "./judged-demand.js";
import { type Carried, loadsOf } from "./load.js";
import { takenBy } from "./rates.js";
import type { DemandResult, DemandsResult } from "./result.js";
import type { Ranked, Traffic } from "./traffic.js";
import { numbersOf, type Ways, waysOf } from "./ways.js";

export interface DemandsInputs {
  readonly hops: ReadonlyMap<string, Hop>;
  /** Hops that are not evaluated are no way for any demand. */
  readonly results: ReadonlyMap<string, HopResult>;
  readonly sites: ReadonlyMap<string, Site>;
  readonly demands: ReadonlyMap<string, Demand>;
  readonly terms: TrafficTerms;
  readonly atSites: ReadonlyMap<string, TrafficAtSite>;
  /** Cards whose failure takes hops with it. */
  readonly cards?: readonly Extract<Element, { kind: "card" }>[];
}

export class Demands {
  private ways: Ways | undefined;
  private readonly capacities = new WeakMap<HopResult, { readonly hop: Hop; readonly capacity: Capacity }>();

  /** Routes and failures are those of before where neither the map nor the demands' routes have changed. */
  of(inputs: DemandsInputs): DemandsResult {
    const standing = [...inputs.hops.values()].filter(({ name }) => inputs.results.has(name));
    const ways = (this.ways = waysOf(
      {
        hops: standing.map(({ name, ends }) => ({
          name,
          sites: [ends[0].site.name, ends[1].site.name],
          lengthM: inputs.results.get(name)!.distanceM,
        })),
        demands: inputs.demands,
        terms: inputs.terms,
        atSites: inputs.atSites,
        sites: inputs.sites,
        cards: inputs.cards ?? [],
      },
      this.ways,
    ));
    const traffic = this.trafficOf(inputs, ways);
    const demands = new Map<string, DemandResult>();
    for (const demand of inputs.demands.values()) demands.set(demand.name, judgedDemand(demand, traffic));
    const named = ({
      sites,
      hops,
    }: {
      readonly sites: readonly number[];
      readonly hops: readonly number[];
    }) => ({
      sites: sites.map((site) => ways.graph.sites[site]!),
      hops: hops.map((hop) => ways.graph.hops[hop]!),
    });
    return {
      demands,
      ...hopLoadsOf(traffic, demands),
      rings: ways.rings.map(named),
      meshes: ways.meshes.map(named),
    };
  }

  private trafficOf({ hops, results, demands, terms, atSites }: DemandsInputs, ways: Ways): Traffic {
    const { graph } = ways;
    const ranked = rankedOf(demands, terms);
    const carried = new Map<string, Carried>();
    for (const [name, { first }] of ways.routes) {
      const { committedBps, peakBps } = ranked.get(name)!.taken;
      if (first !== undefined) carried.set(name, { name, way: first, committedBps, peakBps });
    }
    const byHop = new Map<number, { rank: number; bps: number }[]>();
    for (const { name, way, committedBps } of carried.values())
      for (const hop of way.hops) {
        const one = { rank: ranked.get(name)!.rank, bps: committedBps };
        const known = byHop.get(hop);
        if (known === undefined) byHop.set(hop, [one]);
        else known.push(one);
      }
    const stated = numbersOf(graph, atSites, ({ clockSource }) => clockSource === true);
    const sources = stated.size > 0 ? stated : ways.handovers;
    return {
      ways,
      hops: graph.hops.map((name, number) => {
        const [hop, result] = [hops.get(name)!, results.get(name)!];
        const percent = result.availability?.equipment?.unavailabilityPercent;
        return {
          name,
          lengthM: graph.lengthM[number]!,
          capacity: this.capacityOf(hop, result),
          ...(percent !== undefined && { equipmentFraction: percent / 100 }),
          groundUnknown: result.unknownGround !== undefined,
        };
      }),
      ranked,
      carried,
      normal: loadsOf(graph.hops.length, carried.values()),
      terms,
      clocks: { sources, feeds: clockFeeds(graph, sources) },
      committedUpTo: (hop, rank) =>
        (byHop.get(hop) ?? []).reduce((sum, one) => (one.rank <= rank ? sum + one.bps : sum), 0),
    };
  }

  private capacityOf(hop: Hop, result: HopResult): Capacity {
    const known = this.capacities.get(result);
    if (known?.hop === hop) return known.capacity;
    const capacity = capacityOf(hop, result);
    this.capacities.set(result, { hop, capacity });
    return capacity;
  }
}

function rankedOf(demands: ReadonlyMap<string, Demand>, terms: TrafficTerms): ReadonlyMap<string, Ranked> {
  const keyOf = ({
    priority = Number.POSITIVE_INFINITY,
    availabilityPercent,
    availabilityWithEquipmentPercent,
  }: Demand) => [priority, -(availabilityPercent ?? availabilityWithEquipmentPercent ?? 0)] as const;
  const sorted = [...demands.values()]
    .map((demand) => ({ demand, key: keyOf(demand) }))
    .sort((a, b) => compare(a.key, b.key));
  const ranked = new Map<string, Ranked>();
  let rank = 0;
  for (const [index, { demand, key }] of sorted.entries()) {
    if (index > 0 && compare(sorted[index - 1]!.key, key) !== 0) rank++;
    ranked.set(demand.name, { demand, taken: takenBy(demand, terms), rank });
  }
  return ranked;
}

function compare(a: readonly [number, number], b: readonly [number, number]): number {
  // Two infinities are alike, and their difference is none.
  return a[0] === b[0] ? a[1] - b[1] : a[0] < b[0] ? -1 : 1;
}
