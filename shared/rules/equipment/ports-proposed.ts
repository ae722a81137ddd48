import { address } from "../../design/address.js";
import type { Fix } from "../../design/fact-change.js";
import { sitePlans } from "../../equipment/site-plan.js";
import { siteWiring } from "../../equipment/wiring/site-wiring.js";
import { siteHere } from "../fixes/cards.js";
import { decision, type Mending } from "../fixes/mending.js";
import { feedLines, ifPortLines, servicePortLines, slotLines } from "../fixes/ports.js";
import type { SiteRule } from "../rule.js";
import { equipped } from "./example-equipment.js";
import { hasIndoorUnit, some } from "./site-rules.js";

const served = (block: string) => equipped(`service "mill" 1 GE${block}\nchassis COPSE {\n  slot 4 FERN\n}`);

export const portsProposed: SiteRule = {
  scope: "network",
  each: "site",
  id: "ports-proposed",
  severity: "info",
  remarksOn: "ports",
  title: "Ports that are wired should be written down",
  checks:
    "Whether a site with an indoor unit leaves open which ports its services and units take, and which fuses feed it.",
  why: "Proposed ports stay where they are when others come and go, as far as that goes; what hangs already has its port, and its label says it.",
  fix: "Write the proposed slots, ports and fuses down.",
  source: "common practice",
  fixes: writeDown,
  good: served(" {\n  port 4 / 1\n}"),
  bad: served(""),
  check({ plan, report }) {
    if (!hasIndoorUnit(plan)) return;
    const count = { services: 0, units: 0, feeds: 0 };
    for (const { proposed, carries } of siteWiring(plan).joints) {
      if (!proposed) continue;
      if (carries.kind === "service") count.services++;
      else if (carries.kind === "hop") count.units++;
      else if (carries.kind === "feed") count.feeds++;
    }
    const said = Object.entries(count).flatMap(([what, many]) => (many > 0 ? [`${what} ${many}`] : []));
    if (said.length === 0) return;
    report({
      at: address("site", plan.site.name, "chassis"),
      message: `ports at ${plan.site.name} are proposed, not stated: ${some(said)}`,
      help: "Write them down once they are wired.",
    });
  },
};

function writeDown(mending: Mending): readonly Fix[] {
  const site = siteHere(mending);
  const plan = sitePlans(mending.design).get(site);
  if (plan === undefined) return [];
  const ports = [...ifPortLines(plan), ...servicePortLines(plan), ...feedLines(plan)];
  const slots = slotLines(plan);
  return [
    ...(slots !== undefined && slots.length > 0
      ? [decision(`Write slots, ports and fuses at ${site} down`, ...slots, ...ports)]
      : []),
    ...(ports.length > 0 ? [decision(`Write ports and fuses at ${site} down`, ...ports)] : []),
  ];
}
