import { address, nth } from "../../design/address.js";
import type { FactChange, Fix } from "../../design/fact-change.js";
import { sitePlans } from "../../equipment/site-plan.js";
import { serviceId } from "../../equipment/wiring/ids.js";
import { siteWiring } from "../../equipment/wiring/site-wiring.js";
import { portKey, type Wiring } from "../../equipment/wiring/wiring.js";
import { siteHere } from "../fixes/cards.js";
import { decision, type Mending } from "../fixes/mending.js";
import type { SiteRule } from "../rule.js";
import { equipped } from "./example-equipment.js";
import { hasIndoorUnit } from "./site-rules.js";

const served = (block: string) => equipped(`service "mill" 1 GE${block}\nchassis COPSE {\n  slot 4 FERN\n}`);

export const portsProposed: SiteRule = {
  scope: "network",
  each: "site",
  id: "ports-proposed",
  severity: "info",
  remarksOn: "ports",
  title: "Ports of services that are wired should be written down",
  checks: "Whether services of a site with an indoor unit leave open which ports they take.",
  why: "Proposed ports stay where they are when others come and go, as far as that goes; what hangs already has its port, and its label says it.",
  fix: "Write the proposed ports down.",
  source: "common practice",
  fixes: writeDown,
  good: served(" {\n  port 4 / 1\n}"),
  bad: served(""),
  check({ plan, report }) {
    if (!hasIndoorUnit(plan)) return;
    const proposed = siteWiring(plan).joints.filter(
      ({ carries, proposed: open }) => open && carries.kind === "service",
    );
    if (proposed.length === 0) return;
    report({
      at: address("site", plan.site.name, "service"),
      message: `ports of services at ${plan.site.name} are proposed, not stated: ${proposed.length}`,
      help: "Write them down once they are wired.",
    });
  },
};

/** States the ports that are proposed for the services of a site, behind those that are stated. */
function writeDown(mending: Mending): readonly Fix[] {
  const site = siteHere(mending);
  const plan = sitePlans(mending.design).get(site);
  const { services = [], chassis = [] } = plan?.equipment ?? {};
  if (plan === undefined) return [];
  const wiring = siteWiring(plan);
  const changes = services.flatMap(({ count }, index): FactChange[] => {
    const lines = proposedLines(wiring, index, count, chassis[0]?.name);
    return lines.length === 0 ? [] : [{ do: "add", in: address("site", site, nth("service", index)), lines }];
  });
  return changes.length === 0 ? [] : [decision(`Write the ports of services at ${site} down`, ...changes)];
}

/** Stated ports are those of the first: one that has none, or one of the chassis itself or behind a panel, ends them. */
function proposedLines(wiring: Wiring, index: number, count: number, first: string | undefined): string[] {
  const joints = new Map(wiring.joints.map((joint) => [portKey(joint.ends[0]), joint]));
  const lines: string[] = [];
  for (let port = 1; port <= count; port++) {
    const joint = joints.get(portKey({ part: serviceId(index), port: String(port) }));
    const far = joint?.ends[1];
    const place = far && wiring.parts.get(far.part)?.place;
    if (joint === undefined || place?.slot === undefined) break;
    const chassis = place.chassis === first ? "" : ` in ${place.chassis}`;
    if (joint.proposed) lines.push(`port ${place.slot} / ${far!.port}${chassis}`);
  }
  return lines;
}
