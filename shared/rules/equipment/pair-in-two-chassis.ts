import { address } from "../../design/address.js";
import { wantsTwoCards } from "../../equipment/if-ports.js";
import type { SiteRule } from "../rule.js";
import { equipped, HOT_STANDBY } from "./example-equipment.js";
import { hasIndoorUnit } from "./site-rules.js";

const CARDS = "slot 5 DRIZZLE\n";

export const pairInTwoChassis: SiteRule = {
  scope: "network",
  each: "site",
  id: "pair-in-two-chassis",
  severity: "warning",
  arrangements: wantsTwoCards,
  title: "Main and standby are switched within one chassis",
  checks: "Chassis of the cards that a protected pair hangs on: hot standby or frequency diversity.",
  why: "The switch between the two lies on the backplane of a chassis as a rule; over two chassis it needs a cable or protocol that the design does not show, and without it nothing is protected.",
  fix: "Both cards in one chassis; or accept it with what joins the two.",
  source: "common practice",
  good: equipped(`chassis SPINNEY as A {\n  ${CARDS}  slot 6 DRIZZLE\n}`, HOT_STANDBY),
  bad: equipped(`chassis SPINNEY as A {\n  ${CARDS}}\nchassis SPINNEY as B {\n  ${CARDS}}`, HOT_STANDBY),
  check({ plan, report }) {
    if (!hasIndoorUnit(plan)) return;
    const chassis = new Map<string, Set<string>>();
    for (const { hop, card } of plan.ifPorts.uses)
      chassis.set(hop, (chassis.get(hop) ?? new Set()).add(card.chassis.name));
    for (const { hop, facts } of plan.ends) {
      const used = [...(chassis.get(hop.name) ?? [])];
      if (facts === undefined || !wantsTwoCards(facts) || used.length < 2) continue;
      report(
        {
          at: address("hop", hop.name, plan.site.name),
          message: `the units of ${hop.name} (${facts.name}) hang on chassis ${used.join(" and ")} at ${plan.site.name}`,
        },
        hop.name,
      );
    }
  },
};
