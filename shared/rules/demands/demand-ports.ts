import { lineRateBps, USUAL_FRAME_BYTES } from "../../demands/rates.js";
import type { DemandsResult } from "../../demands/result.js";
import { address } from "../../design/address.js";
import type { Demand, TrafficTerms } from "../../design/demand.js";
import type { PortType } from "../../design/equipment.js";
import { ETHERNET_RATE_BPS } from "../../equipment/port-rate.js";
import { portsThere } from "../../equipment/ports.js";
import { bitRate } from "../../format/numbers.js";
import { someOf } from "../../words/demands.js";
import { equipped } from "../equipment/example-equipment.js";
import { hasIndoorUnit } from "../equipment/site-rules.js";
import type { NetworkRule, Report } from "../rule.js";

const SERVED = "chassis COPSE {\n  slot 4 FERN\n}";

export const demandPorts: NetworkRule = {
  scope: "network",
  id: "demand-ports",
  severity: "error",
  ofResults: true,
  title: "A demand needs ports at both its ends",
  checks:
    "At sites with an indoor unit: an Ethernet port for each demand that begins or ends there, fast enough for its frames with what stands between them, and ports for its E1 and STM-1 of either kind. Where the site states `service` of such a kind, that stands for its demands.",
  why: "The capacity is there and nowhere to plug it in.",
  fix: "Another card, or a `service` that says how the demands are handed over.",
  source: "IEEE 802.3 for rates; common practice",
  good: `${equipped(SERVED)}\n\ndemand SCHOOL {\n  from MOSS to TARN\n  committed 100 Mbit/s\n}`,
  bad: `${equipped(SERVED)}\n\ndemand SCHOOL {\n  from MOSS to TARN\n  committed 100 Mbit/s\n  E1 4\n}`,
  check({ design, sites, demands, report }) {
    if (demands === undefined) return;
    for (const [site, ending] of endsOf(demands)) {
      const plan = sites.get(site)?.plan;
      if (plan === undefined || !hasIndoorUnit(plan)) continue;
      const there = portsThere(plan);
      const stated = new Set((plan.equipment?.services ?? []).map(({ type }) => kindOf(type)));
      for (const lack of [
        ...(stated.has("Ethernet") ? [] : ethernetLacks(site, ending, there, design.traffic ?? {})),
        ...(stated.has("E1") ? [] : countLack(site, ending, there, "E1", ["E1-75", "E1-120"])),
        ...(stated.has("STM-1")
          ? []
          : countLack(site, ending, there, "STM-1", ["STM-1-electrical", "STM-1-optical"])),
      ])
        report(lack);
    }
  },
};

type Kind = "Ethernet" | "E1" | "STM-1";

function kindOf(type: PortType): Kind | undefined {
  if (ETHERNET_RATE_BPS[type] !== undefined) return "Ethernet";
  return type.startsWith("E1") ? "E1" : type.startsWith("STM-1") ? "STM-1" : undefined;
}

/** Demands that begin or end at each site. */
function endsOf({ demands }: DemandsResult): ReadonlyMap<string, readonly Demand[]> {
  const ending = new Map<string, Demand[]>();
  for (const { demand, route } of demands.values()) {
    const ends = new Set([demand.from, typeof demand.to === "object" ? demand.to.site : route?.sites.at(-1)]);
    for (const site of ends) {
      if (site === undefined) continue;
      const known = ending.get(site);
      if (known === undefined) ending.set(site, [demand]);
      else known.push(demand);
    }
  }
  return ending;
}

/** The fastest are served first, each by the slowest port that is fast enough. Where traffic leaves it may share a port. */
function ethernetLacks(
  site: string,
  ending: readonly Demand[],
  there: ReadonlyMap<PortType, number>,
  terms: TrafficTerms,
): readonly Report[] {
  const ports = [...there]
    .flatMap(([type, count]) => Array.from({ length: count }, () => ETHERNET_RATE_BPS[type] ?? 0))
    .filter((bps) => bps > 0)
    .sort((a, b) => a - b);
  const wanting = ending
    .filter(({ from, committedBps = 0 }) => from === site && committedBps > 0)
    .map((demand) => {
      const { committedBps = 0, peakBps = 0, frameBytes = terms.frameBytes ?? USUAL_FRAME_BYTES } = demand;
      return { demand, lineBps: lineRateBps(Math.max(committedBps, peakBps), frameBytes) };
    })
    .sort((a, b) => b.lineBps - a.lineBps);
  const unserved = wanting.filter(({ lineBps }) => {
    const port = ports.findIndex((bps) => bps >= lineBps);
    if (port >= 0) ports.splice(port, 1);
    return port < 0;
  });
  const [first] = unserved;
  if (first === undefined) return [];
  const rate = bitRate(first.lineBps);
  const lacking =
    unserved.length === 1
      ? `an Ethernet port for ${first.demand.name}, which takes ${rate}`
      : `Ethernet ports for ${someOf(unserved.map(({ demand }) => demand.name))}; the fastest takes ${rate}`;
  return [
    {
      at: address("demand", first.demand.name, "from"),
      about: site,
      message: `${site} lacks ${lacking} on the line`,
      related: [{ at: address("site", site), message: `has no port left for it` }],
    },
  ];
}

function countLack(
  site: string,
  ending: readonly Demand[],
  there: ReadonlyMap<PortType, number>,
  kind: "E1" | "STM-1",
  types: readonly PortType[],
): readonly Report[] {
  const of = ({ e1 = 0, stm1 = 0 }: Demand) => (kind === "E1" ? e1 : stm1);
  const needed = ending.reduce((sum, demand) => sum + of(demand), 0);
  const ports = types.reduce((sum, type) => sum + (there.get(type) ?? 0), 0);
  if (needed <= ports) return [];
  const needing = ending.filter((demand) => of(demand) > 0);
  return [
    {
      at: address("demand", needing[0]!.name, kind),
      about: site,
      message: `${site} has ${ports} ${kind} ${ports === 1 ? "port" : "ports"}, and ${someOf(needing.map(({ name }) => name))} ${needing.length === 1 ? "needs" : "need"} ${needed}`,
      related: [{ at: address("site", site), message: `has ${ports}` }],
    },
  ];
}
