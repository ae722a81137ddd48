import { address, nth } from "../../design/address.js";
import type { PortClaim, Service } from "../../design/equipment.js";
import { serviceId } from "../../equipment/wiring/ids.js";
import { siteWiring } from "../../equipment/wiring/site-wiring.js";
import type { StatedFault } from "../../equipment/wiring/wiring.js";
import type { SiteRule } from "../rule.js";
import { equipped } from "./example-equipment.js";
import { hasIndoorUnit } from "./site-rules.js";

const served = (port: string) =>
  equipped(`service "mill" 1 GE {\n  port ${port}\n}\nchassis COPSE {\n  slot 4 FERN\n}`);

export const servicePort: SiteRule = {
  scope: "network",
  each: "site",
  id: "service-port",
  severity: "error",
  title: "A stated port of a service must be there, serve it, and be free",
  checks:
    "Each `port` of a service against the cards of the site: that the port is there, of the service's kind or a faster Ethernet, and taken by nothing stated before it; and that a service states no more ports than it takes.",
  why: "Cables are labelled and connected by these numbers.",
  fix: "Another port, or leave it out to have one proposed.",
  source: "common practice",
  good: served("4 / 3"),
  bad: served("4 / 11"),
  check({ plan, report }) {
    const services = plan.equipment?.services ?? [];
    if (!hasIndoorUnit(plan) || services.every(({ ports }) => ports === undefined)) return;
    const faults = new Map(siteWiring(plan).loose.map(({ part, port, fault }) => [`${part} ${port}`, fault]));
    const names = new Set(plan.equipment?.chassis.map(({ name }) => name));
    for (const [index, service] of services.entries()) {
      for (const [k, claim] of (service.ports ?? []).entries()) {
        const fault = faults.get(`${serviceId(index)} ${k + 1}`);
        const words =
          k >= service.count
            ? `"${service.title}" takes ${service.count} ${service.count === 1 ? "port" : "ports"}, and this is one more`
            : claim.chassis !== undefined && !names.has(claim.chassis)
              ? `there is no chassis ${claim.chassis}`
              : fault && WORDS[fault](claim, service);
        if (words === undefined) continue;
        const at = address("site", plan.site.name, nth("service", index), nth("port", k));
        report({ at, message: `${words}, at ${plan.site.name}` });
      }
    }
  },
};

const WORDS: Readonly<Record<StatedFault, (claim: PortClaim, service: Service) => string>> = {
  "no card in the slot": (claim) => `there is no card in ${slotWords(claim)}`,
  "no such port": (claim) => `the card in ${slotWords(claim)} has no port ${claim.port}`,
  "another kind": (claim, { title, type }) =>
    `port ${claim.port} of the card in ${slotWords(claim)} does not serve "${title}", which takes ${type}`,
  taken: (claim) => `port ${claim.port} of the card in ${slotWords(claim)} is taken`,
};

function slotWords({ slot, chassis }: PortClaim): string {
  return chassis === undefined ? `slot ${slot}` : `slot ${slot} of ${chassis}`;
}
