/** What the demands of a network come to: routes, loads, outage, latency, clock, and what failures do to them. */
import type { Demand, TrafficAtSite, TrafficTerms } from "../design/demand.js";
import type { Hop, Site } from "../design/design.js";
import type { HopResult } from "../evaluate/account/result.js";
import { capacityOf } from "./capacity.js";
import { clockFeeds } from "./clocks.js";
import type { Element } from "./failures.js";
import { type Flows, flowsOf } from "./flows.js";
import { HopLoads } from "./hop-loads.js";
import { judgedDemand } from "./judged-demand.js";
import { isTdmOnly } from "./rates.js";
import type { DefaultsTaken, DemandResult, DemandsResult } from "./result.js";
import { atOnce, type Steps } from "./steps.js";
import type { Clocks, HopOfNetwork, Traffic } from "./traffic.js";
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

interface KnownHop {
  readonly hop: Hop;
  readonly result: HopResult;
  readonly made: HopOfNetwork;
}

interface KnownDemand {
  readonly demand: Demand;
  readonly flows: string;
  readonly ways: Ways;
  readonly clocks: Clocks;
  readonly terms: string;
  /** Those that it passes. */
  readonly hops: readonly HopOfNetwork[];
  readonly result: DemandResult;
}

/** So many demands are judged between two stops. */
const AT_ONCE = 256;

/** Keeps what does not change from look to look: an edited hop costs the demands that pass it. */
export class Demands {
  private ways: Ways | undefined;
  private flows: Flows | undefined;
  private clocks: { readonly ways: Ways; readonly clocks: Clocks } | undefined;
  private hops = new Map<string, KnownHop>();
  private judged = new Map<string, KnownDemand>();
  private readonly loads = new HopLoads();

  of(inputs: DemandsInputs): DemandsResult {
    return atOnce(this.inSteps(inputs));
  }

  /** The same with stops; broken off between two of them, what was done whole is kept. */
  *inSteps(inputs: DemandsInputs): Steps<DemandsResult> {
    const { demands, terms } = inputs;
    const standing = [...inputs.hops.values()].filter(({ name }) => inputs.results.has(name));
    const ways = (this.ways = yield* waysOf(
      {
        hops: standing.map(({ name, ends }) => ({
          name,
          sites: [ends[0].site.name, ends[1].site.name],
          lengthM: inputs.results.get(name)!.distanceM,
        })),
        demands,
        terms,
        atSites: inputs.atSites,
        sites: inputs.sites,
        cards: inputs.cards ?? [],
      },
      this.ways,
    ));
    const flows = (this.flows = yield* flowsOf(ways, demands, terms, this.flows));
    yield;
    const traffic: Traffic = {
      flows,
      hops: this.hopsOf(inputs, ways),
      terms,
      clocks: this.clocksOf(ways, inputs.atSites),
    };
    const results = yield* this.demandsOf(traffic);
    yield;
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
      defaults: defaultsTaken(results, terms),
      demands: results,
      ...this.loads.of(traffic, results),
      rings: ways.rings.map(named),
      meshes: ways.meshes.map(named),
    };
  }

  private *demandsOf(traffic: Traffic): Steps<ReadonlyMap<string, DemandResult>> {
    const { flows, hops, clocks } = traffic;
    const terms = JSON.stringify(traffic.terms);
    const judged = new Map<string, KnownDemand>();
    for (const { demand } of flows.ranked.values()) {
      const { name } = demand;
      if (judged.size % AT_ONCE === AT_ONCE - 1) yield;
      const known = this.judged.get(name);
      const { first, second } = flows.ways.routes.get(name) ?? {};
      const passed = [...(first?.hops ?? []), ...(second?.hops ?? [])].map((hop) => hops[hop]!);
      const holds =
        known?.demand === demand &&
        known.flows === flows.key &&
        known.ways === flows.ways &&
        known.clocks === clocks &&
        known.terms === terms &&
        known.hops.every((hop, index) => hop === passed[index]);
      judged.set(
        name,
        holds
          ? known
          : {
              demand,
              flows: flows.key,
              ways: flows.ways,
              clocks,
              terms,
              hops: passed,
              result: judgedDemand(demand, traffic),
            },
      );
    }
    this.judged = judged;
    return new Map([...judged].map(([name, { result }]) => [name, result]));
  }

  private hopsOf({ hops, results }: DemandsInputs, { graph }: Ways): readonly HopOfNetwork[] {
    const made = new Map<string, KnownHop>();
    for (const [number, name] of graph.hops.entries()) {
      const [hop, result] = [hops.get(name)!, results.get(name)!];
      const known = this.hops.get(name);
      made.set(
        name,
        known?.hop === hop && known.result === result
          ? known
          : { hop, result, made: hopOf(hop, result, graph.lengthM[number]!) },
      );
    }
    this.hops = made;
    return [...made.values()].map(({ made: one }) => one);
  }

  /** Where no site states a clock of its own it comes from where traffic leaves. */
  private clocksOf(ways: Ways, atSites: ReadonlyMap<string, TrafficAtSite>): Clocks {
    if (this.clocks?.ways === ways) return this.clocks.clocks;
    const stated = numbersOf(ways.graph, atSites, ({ clockSource }) => clockSource === true);
    const sources = stated.size > 0 ? stated : ways.handovers;
    const clocks = { sources, feeds: clockFeeds(ways.graph, sources) };
    this.clocks = { ways, clocks };
    return clocks;
  }
}

/** Of what the results stand on. */
function defaultsTaken(results: ReadonlyMap<string, DemandResult>, terms: TrafficTerms): DefaultsTaken {
  const routed = [...results.values()].filter(({ route }) => route !== undefined);
  return {
    hopLatency: routed.length > 0 && terms.hopLatencyS === undefined,
    siteLatency: routed.length > 0 && terms.siteLatencyS === undefined,
    frameBytes:
      terms.frameBytes === undefined &&
      routed.some(({ demand }) => demand.frameBytes === undefined && !isTdmOnly(demand)),
    clockHops: terms.clockHops === undefined && routed.some(({ clock }) => clock !== undefined),
  };
}

function hopOf(hop: Hop, result: HopResult, lengthM: number): HopOfNetwork {
  const capacity = capacityOf(hop, result);
  const percent = result.availability?.equipment?.unavailabilityPercent;
  const own = hop.objective?.availabilityPercent;
  return {
    name: hop.name,
    lengthM,
    lengthUnknown: result.distanceM === undefined,
    capacity,
    capacityPartly: capacity.length < hop.modes.length,
    ...(percent !== undefined && { equipmentFraction: percent / 100 }),
    groundUnknown: result.unknownGround !== undefined,
    ...(own !== undefined && { ownPercent: 100 - own }),
  };
}
