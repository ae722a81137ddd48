import { address } from "../../design/address.js";
import { wantsTwoCards } from "../../equipment/if-ports.js";
import type { SiteRule } from "../rule.js";
import { equipped, HOT_STANDBY } from "./example-equipment.js";
import { hasIndoorUnit } from "./site-rules.js";

export const pairOnOneCard: SiteRule = {
  scope: "network",
  each: "site",
  id: "pair-on-one-card",
  severity: "warning",
  arrangements: wantsTwoCards,
  title: "Main and standby should not hang on one card",
  checks: "Cards of the IF ports of a protected pair: hot standby, space or frequency diversity.",
  why: "The card is then the one thing whose failure takes both units: the pair protects the cheaper half.",
  fix: "A second IF card, one port of each for the pair; or accept it with the reason.",
  source: "common practice",
  good: equipped("chassis SPINNEY {\n  card DRIZZLE 2\n}", HOT_STANDBY),
  bad: equipped("chassis SPINNEY {\n  slot 5 DRIZZLE\n}", HOT_STANDBY),
  check({ plan, report }) {
    if (!hasIndoorUnit(plan)) return;
    const cards = new Map<string, Set<unknown>>();
    for (const { hop, card } of plan.ifPorts.uses) cards.set(hop, (cards.get(hop) ?? new Set()).add(card));
    for (const { hop, facts } of plan.ends) {
      const used = cards.get(hop.name);
      if (facts === undefined || !wantsTwoCards(facts) || used?.size !== 1) continue;
      report(
        {
          at: address("hop", hop.name, plan.site.name),
          message: `all units of ${hop.name} (${facts.name}) hang on one card at ${plan.site.name}`,
        },
        hop.name,
      );
    }
  },
};
