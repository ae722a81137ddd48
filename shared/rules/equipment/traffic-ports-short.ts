import { address } from "../../design/address.js";
import type { Card, PortType } from "../../design/equipment.js";
import type { Fix } from "../../design/fact-change.js";
import { portsThere } from "../../equipment/ports.js";
import { siteWiring } from "../../equipment/wiring/site-wiring.js";
import type { WiredPort, Wiring } from "../../equipment/wiring/wiring.js";
import { addToSite, portsOf } from "../fixes/cards.js";
import type { Mending } from "../fixes/mending.js";
import type { SiteRule } from "../rule.js";
import { equipped } from "./example-equipment.js";
import { hasIndoorUnit } from "./site-rules.js";

export const trafficPortsShort: SiteRule = {
  scope: "network",
  each: "site",
  id: "traffic-ports-short",
  severity: "error",
  title: "Services and all-outdoor units need ports of their kind",
  checks:
    "Traffic ports of the chassis and cards of a site, by kind, against what its services and all-outdoor units take. An Ethernet port serves lower speeds too; E1 of 75 and 120 ohm, which a balun panel joins, and STM-1 on coaxial cable and on fibre, are kinds of their own.",
  why: "E1 of 120 ohm on a panel of 75 ohm, or a port too few, is found when the customer comes.",
  fix: "Another card; for E1, cards of the impedance that is asked, or a balun panel.",
  source: "common practice",
  fixes: addTrafficCard,
  good: equipped('service "village access" 9 E1-120\nchassis COPSE {\n  slot 4 GALE\n}'),
  bad: equipped('service "village access" 9 E1-120\nchassis COPSE {\n  slot 4 CLOVER\n}'),
  check({ plan, report }) {
    if (!hasIndoorUnit(plan)) return;
    const wiring = siteWiring(plan);
    const lacking = lackingOf(wiring);
    if (lacking.size === 0) return;
    const needed = neededOf(wiring);
    const there = portsThere(plan);
    for (const [type, count] of lacking) {
      report({
        at: address("site", plan.site.name, "service"),
        message: `${plan.site.name} lacks ${count} of ${needed.get(type) ?? 0} ${type} ports; there are ${there.get(type) ?? 0}`,
        help: OTHER_IMPEDANCE[type],
      });
    }
  },
};

const OTHER_IMPEDANCE: Partial<Record<PortType, string>> = {
  "E1-75":
    "Ports of 120 ohm do not serve 75 ohm: take cards with E1 of 75 ohm, hand over at 120 ohm, or state a `balun` panel.",
  "E1-120":
    "Ports of 75 ohm do not serve 120 ohm: take cards with E1 of 120 ohm, hand over at 75 ohm, or state a `balun` panel.",
};

/** Of what kind ports are asked for, by services and by all-outdoor units. */
function neededOf({ parts }: Wiring): Map<PortType, number> {
  const needed = new Map<PortType, number>();
  for (const { kind, ports } of parts.values()) {
    if (kind !== "service" && kind !== "unit") continue;
    for (const { type } of ports) if (isTraffic(type)) needed.set(type, (needed.get(type) ?? 0) + 1);
  }
  return needed;
}

/** Those that found none. One that is stated and cannot be had is told at its line. */
function lackingOf({ parts, loose }: Wiring): ReadonlyMap<PortType, number> {
  const lacking = new Map<PortType, number>();
  for (const { part, port, lacks, fault } of loose) {
    const type = parts.get(part)?.ports.find(({ name }) => name === port)?.type;
    if (lacks !== "traffic port" && lacks !== "powered port") continue;
    if (fault !== undefined || type === undefined || !isTraffic(type)) continue;
    lacking.set(type, (lacking.get(type) ?? 0) + 1);
  }
  return lacking;
}

function isTraffic(type: WiredPort["type"]): type is PortType {
  return type !== "IF" && type !== "waveguide";
}

const TRAFFIC: readonly PortType[] = [
  "FE",
  "GE",
  "2.5GE",
  "10GE",
  "E1-75",
  "E1-120",
  "STM-1-electrical",
  "STM-1-optical",
];

/** One more card with ports for traffic: the trial tells which has the kind that is short. */
function addTrafficCard(mending: Mending): readonly Fix[] {
  const carries = (card: Card) => TRAFFIC.some((type) => portsOf(card, type) > 0);
  return addToSite(mending, (card) => (carries(card) ? 1 : Number.POSITIVE_INFINITY));
}
