/** What a network carries, kept up to date while it is edited. */
import { Demands } from "../demands/demands.js";
import type { DemandsResult } from "../demands/result.js";
import type { Design } from "../design/design.js";
import type { HopResult } from "../evaluate/account/result.js";
import type { Memory } from "./memory.js";

const STEP = {};
const NONE = new Map();

/** @returns undefined where the design states no demand */
export function demandsInNetwork(
  { hops, sites, demands, traffic = {}, trafficAt = NONE }: Design,
  results: ReadonlyMap<string, HopResult>,
  memory: Memory,
): DemandsResult | undefined {
  if (demands === undefined || demands.size === 0) return undefined;
  const known = memory.renew(STEP, STEP, (before: Demands | undefined) => before ?? new Demands());
  return known.of({ hops, results, sites, demands, terms: traffic, atSites: trafficAt });
}
