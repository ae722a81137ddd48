/** What a network carries, kept up to date while it is edited. */
import { Demands, type DemandsInputs } from "../demands/demands.js";
import type { DemandsResult } from "../demands/result.js";
import { atOnce, type Steps } from "../demands/steps.js";
import type { Design } from "../design/design.js";
import { cardHops } from "../equipment/card-hops.js";
import type { HopResult } from "../evaluate/account/result.js";
import type { Memory } from "./memory.js";
import { type SiteInNetwork, sitesInNetwork } from "./sites.js";

const STEP = {};
const NONE = new Map();

/**
 * @param inNetwork of the same design and results, where they are at hand
 * @returns undefined where the design states no demand, and while a hop of it waits for its result: routes would go round it
 */
export function demandsInNetwork(
  design: Design,
  results: ReadonlyMap<string, HopResult>,
  memory: Memory,
): DemandsResult | undefined {
  return atOnce(demandsInSteps(design, results, memory));
}

/** The same with stops. */
export function* demandsInSteps(
  design: Design,
  results: ReadonlyMap<string, HopResult>,
  memory: Memory,
  inNetwork?: ReadonlyMap<string, SiteInNetwork>,
): Steps<DemandsResult | undefined> {
  const { hops, sites, demands, traffic = {}, trafficAt = NONE } = design;
  if (demands === undefined || demands.size === 0) return undefined;
  if ([...hops.keys()].some((name) => !results.has(name))) return undefined;
  const known = memory.renew(STEP, STEP, (before: Demands | undefined) => before ?? new Demands());
  return yield* known.inSteps({
    hops,
    results,
    sites,
    demands,
    terms: traffic,
    atSites: trafficAt,
    cards: sharedCards(inNetwork ?? sitesInNetwork(design, results, memory)),
  });
}

/** Cards whose failure takes several hops: of one alone the hop's own failure says as much. */
function sharedCards(sites: ReadonlyMap<string, SiteInNetwork>): NonNullable<DemandsInputs["cards"]> {
  return [...sites.values()].flatMap(({ plan }) =>
    cardHops(plan).flatMap(({ name, hops }) =>
      hops.length > 1 ? { kind: "card" as const, name, hops } : [],
    ),
  );
}
