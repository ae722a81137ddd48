import { address } from "../../design/address.js";
import type { Fix } from "../../design/fact-change.js";
import { sitePlans } from "../../equipment/site-plan.js";
import { addToSite, portsOf, siteHere } from "../fixes/cards.js";
import type { Mending } from "../fixes/mending.js";
import type { SiteRule } from "../rule.js";
import { equipped, HOT_STANDBY } from "./example-equipment.js";
import { hasIndoorUnit, searchWords } from "./site-rules.js";

export const ifPortsShort: SiteRule = {
  scope: "network",
  each: "site",
  id: "if-ports-short",
  severity: "error",
  arrangements: ({ ifCables }) => ifCables > 0,
  title: "Every split-mount unit needs an IF port",
  checks: "IF ports on the cards of a site against the units of all hops that end there.",
  why: "One port short is found on the day of the turn-up: the unit hangs and stays dark.",
  fix: "Add an IF card, or one with two ports.",
  source: "common practice",
  fixes: addIfCards,
  good: equipped("chassis COPSE {\n  card MIST 2\n}", HOT_STANDBY),
  bad: equipped("chassis COPSE {\n  card MIST\n}", HOT_STANDBY),
  check({ plan, report }) {
    if (!hasIndoorUnit(plan)) return;
    const needed = plan.ends.reduce((sum, { facts }) => sum + (facts?.ifCables ?? 0), 0);
    for (const { hop, missing, needed: own } of plan.ifPorts.short) {
      report(
        {
          at: address("hop", hop, plan.site.name),
          message: `${hop} lacks ${missing} of ${own} IF ports at ${plan.site.name}: ${plan.ifPorts.ports} are there, all hops need ${needed}`,
          help: missing > 0 && needed <= plan.ifPorts.ports ? searchWords(plan) : undefined,
          related: [{ at: address("site", plan.site.name, "chassis"), message: "indoor unit" }],
        },
        hop,
      );
    }
  },
};

/** As many IF cards as the hop lacks ports for. */
function addIfCards(mending: Mending): readonly Fix[] {
  const plan = sitePlans(mending.design).get(siteHere(mending));
  const name = mending.hop?.name;
  const missing = plan?.ifPorts.short.find(({ hop }) => hop === name)?.missing ?? 0;
  return missing === 0 ? [] : addToSite(mending, (card) => Math.ceil(missing / portsOf(card, "IF")));
}
