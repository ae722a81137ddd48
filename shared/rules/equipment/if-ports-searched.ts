import { address } from "../../design/address.js";
import type { Fix } from "../../design/fact-change.js";
import { sitePlans } from "../../equipment/site-plan.js";
import { siteHere } from "../fixes/cards.js";
import { decision, type Mending } from "../fixes/mending.js";
import { ifPortLines } from "../fixes/ports.js";
import type { SiteRule } from "../rule.js";
import { equipped } from "./example-equipment.js";
import { hasIndoorUnit, some } from "./site-rules.js";

const DUAL = "antenna DISH60-18-VH like DISH60-18 { polarizations dual }\n\n";
const THREE = {
  hop: "polarization vertical\n  radio R18\n  mode 55 MHz 128QAM\n  arrangement 3+0 xpic",
  keld: "antenna DISH60-18-VH at 40 m\n    transmits high",
};

export const ifPortsSearched: SiteRule = {
  scope: "network",
  each: "site",
  id: "if-ports-searched",
  severity: "info",
  title: "IF ports that fit in few ways should be written down",
  checks:
    "Whether the open IF ports of a site could only be assigned together, by a search, because assigned one by one they leave a unit without a port or part an XPIC pair.",
  why: "Ports assigned one by one stay where they are when a hop or a card comes or goes. Those that were found together may all move, and with them the labels of cables that hang already.",
  fix: "Write the placement down as `if-port` lines.",
  source: "common practice",
  fixes: writePortsDown,
  good: DUAL + equipped("chassis COPSE {\n  slot 3 SQUALL\n  slot 4 SQUALL\n}", THREE),
  bad: DUAL + equipped("chassis COPSE {\n  slot 2 MIST-LINK\n  slot 3 MIST-LINK\n  slot 4 MIST\n}", THREE),
  check({ plan, report }) {
    if (!hasIndoorUnit(plan)) return;
    if (plan.ifPorts.search !== "found") return;
    const open = plan.ifPorts.uses.filter(({ automatic }) => automatic);
    const hops = [...new Set(open.map(({ hop }) => hop))];
    report({
      at: address("site", plan.site.name, "chassis"),
      message: `the IF ports at ${plan.site.name} fit only together: ${open.length} units of ${some(hops)} were placed by trying; when a hop or a card changes they may all move`,
      help: "Write the placement down as `if-port` lines.",
    });
  },
};

/** States the ports that were assigned to the units at a site, so that they stay. */
function writePortsDown(mending: Mending): readonly Fix[] {
  const site = siteHere(mending);
  const plan = sitePlans(mending.design).get(site);
  const changes = plan ? ifPortLines(plan) : [];
  if (changes.length === 0) return [];
  const hops = changes.length === 1 ? "one hop" : `${changes.length} hops`;
  return [decision(`Write the IF ports at ${site} down (in ${hops})`, ...changes)];
}
