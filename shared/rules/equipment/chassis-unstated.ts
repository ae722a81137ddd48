import { address } from "../../design/address.js";
import type { SitePlan } from "../../equipment/site-plan.js";
import { lacksIndoorUnit } from "../../equipment/unlisted-parts.js";
import { exampleHop } from "../example-preamble.js";
import type { NetworkRule } from "../rule.js";
import { equipped } from "./example-equipment.js";
import { hasIndoorUnit, some } from "./site-rules.js";

export const chassisUnstated: NetworkRule = {
  scope: "network",
  id: "chassis-unstated",
  severity: "info",
  title: "Sites whose units want an indoor unit state none, while others do",
  checks:
    "Sites with a hop whose units need an indoor unit, but without a chassis, in a network of which other sites state theirs.",
  why: "Ports, power and parts of such a site are not judged, and nothing else tells that they are not.",
  fix: "State the chassis and its cards; a site that another party equips can stay as it is.",
  source: "common practice",
  good: exampleHop(),
  bad: equipped("chassis COPSE {\n  slot 2 MIST\n}"),
  check({ sites, report }) {
    const plans = [...sites.values()].map(({ plan }) => plan);
    if (!plans.some(hasIndoorUnit)) return;
    const without = plans.filter(wantsOne).map(({ site }) => site.name);
    const [first] = without;
    if (first === undefined) return;
    const count = without.length === 1 ? "1 site states" : `${without.length} sites state`;
    report({
      at: address("site", first),
      message: `${count} no chassis, though units there need an indoor unit: ${some(without)}; ports, power and cards are not judged there`,
    });
  },
};

/** Something is known of its units, and it is not that they need none. */
function wantsOne(plan: SitePlan): boolean {
  const known = plan.ends.some(
    ({ hop, facts }) => facts !== undefined && hop.radio !== undefined && facts.ifCables > 0,
  );
  return known && lacksIndoorUnit(plan);
}
