import { address, nth } from "../../design/address.js";
import type { Fix } from "../../design/fact-change.js";
import type { ClaimFault } from "../../equipment/if-ports.js";
import { decision, endHere, type Mending } from "../fixes/mending.js";
import type { SiteRule } from "../rule.js";
import { equipped } from "./example-equipment.js";
import { hasIndoorUnit } from "./site-rules.js";

const claiming = (port: string) => ({
  keld: `antenna DISH60-18 at 40 m\n    transmits high\n    if-port ${port}`,
});

export const ifPortClaim: SiteRule = {
  scope: "network",
  each: "site",
  id: "if-port-claim",
  severity: "error",
  title: "A stated IF port must be there, be an IF port, and be free",
  checks: "Each `if-port` against the units of the hop, the cards of the site and the ports of other hops.",
  why: "Cables are labelled and connected by these numbers.",
  fix: "Another port, or leave it out to have one chosen.",
  source: "common practice",
  fixes: removePort,
  good: equipped("chassis SPINNEY {\n  slot 6 DRIZZLE\n}", claiming("6 / 3")),
  bad: equipped("chassis SPINNEY {\n  slot 6 DRIZZLE\n}", claiming("7 / 1")),
  check({ plan, report }) {
    if (!hasIndoorUnit(plan)) return;
    for (const { hop, index, claim, fault, by } of plan.ifPorts.faults) {
      const where = `slot ${claim.slot}${claim.chassis === undefined ? "" : ` of ${claim.chassis}`}`;
      report(
        {
          at: address("hop", hop, plan.site.name, nth("if-port", index)),
          message: `${WORDS[fault](where, claim.port)} at ${plan.site.name}${by === undefined ? "" : `; ${by} has it`}`,
        },
        hop,
      );
    }
  },
};

const WORDS: Readonly<Record<ClaimFault, (slot: string, port: number) => string>> = {
  "no unit": (slot, port) => `port ${port} of the card in ${slot} is stated for one more unit than there is`,
  "no card in the slot": (slot) => `there is no card in ${slot}`,
  "no such port": (slot, port) => `the card in ${slot} has no port ${port}`,
  "no IF port": (slot, port) => `port ${port} of the card in ${slot} is no IF port`,
  taken: (slot, port) => `port ${port} of the card in ${slot} is taken`,
};

/** Leaves the port of a unit to be chosen. */
function removePort(mending: Mending): readonly Fix[] {
  const here = endHere(mending);
  if (!here) return [];
  const title = `Leave this port at ${here.site} to be chosen (removes the stated one)`;
  return [decision(title, { do: "remove", at: mending.finding.at })];
}
