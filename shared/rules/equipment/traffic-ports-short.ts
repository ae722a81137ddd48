import { address } from "../../design/address.js";
import type { Card, PortType } from "../../design/equipment.js";
import type { Fix } from "../../design/fact-change.js";
import { portsThere } from "../../equipment/ports.js";
import type { SitePlan } from "../../equipment/site-plan.js";
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
    "Traffic ports of the chassis and cards of a site, by kind, against what its services and all-outdoor units take. An Ethernet port serves lower speeds too; E1 of 75 and 120 ohm, and STM-1 on coaxial cable and on fibre, are kinds of their own.",
  why: "E1 of 120 ohm on a panel of 75 ohm, or a port too few, is found when the customer comes.",
  fix: "Another card; for E1, cards of the impedance that is asked.",
  source: "common practice",
  fixes: addTrafficCard,
  good: equipped('service "village access" 9 E1-120\nchassis COPSE {\n  slot 4 GALE\n}'),
  bad: equipped('service "village access" 9 E1-120\nchassis COPSE {\n  slot 4 CLOVER\n}'),
  check({ plan, report }) {
    if (!hasIndoorUnit(plan)) return;
    const needed = demandOf(plan);
    const there = portsThere(plan);
    for (const [type, count] of lacking(needed, there)) {
      report({
        at: address("site", plan.site.name, "service"),
        message: `${plan.site.name} lacks ${count} of ${needed.get(type) ?? 0} ${type} ports; there are ${there.get(type) ?? 0}`,
        help: OTHER_IMPEDANCE[type],
      });
    }
  },
};

const OTHER_IMPEDANCE: Partial<Record<PortType, string>> = {
  "E1-75": "Ports of 120 ohm do not serve 75 ohm: take cards with E1 of 75 ohm, or hand over at 120 ohm.",
  "E1-120": "Ports of 75 ohm do not serve 120 ohm: take cards with E1 of 120 ohm, or hand over at 75 ohm.",
};

/** From the fastest: what is left over of a faster kind serves the next. */
const ETHERNET: readonly PortType[] = ["10GE", "2.5GE", "GE", "FE"];

function demandOf(plan: SitePlan): Map<PortType, number> {
  const needed = new Map<PortType, number>();
  const add = (type: PortType, count: number) => needed.set(type, (needed.get(type) ?? 0) + count);
  for (const { type, count } of plan.equipment?.services ?? []) add(type, count);
  for (const { hop, facts } of plan.ends) {
    const port = hop.radio?.unit?.port;
    if (port !== undefined && facts !== undefined && facts.ifCables === 0) add(port, facts.outdoorUnits);
  }
  return needed;
}

function lacking(
  needed: ReadonlyMap<PortType, number>,
  there: ReadonlyMap<PortType, number>,
): readonly (readonly [PortType, number])[] {
  const short: (readonly [PortType, number])[] = [];
  let spare = 0;
  for (const type of ETHERNET) {
    const left = (there.get(type) ?? 0) + spare - (needed.get(type) ?? 0);
    spare = Math.max(0, left);
    if (left < 0) short.push([type, -left]);
  }
  for (const [type, count] of needed) {
    const left = (there.get(type) ?? 0) - count;
    if (!ETHERNET.includes(type) && type !== "IF" && left < 0) short.push([type, -left]);
  }
  return short;
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
