import { address } from "../../design/address.js";
import { siteLoad } from "../../equipment/power.js";
import { apart, watts } from "../../format/numbers.js";
import type { SiteRule } from "../rule.js";
import { equipped } from "./example-equipment.js";
import { without } from "./site-rules.js";

export const plantPower: SiteRule = {
  scope: "network",
  each: "site",
  id: "plant-power",
  severity: "error",
  title: "The power plant of the site must carry its load",
  checks:
    "Greatest consumption of all units, cards and chassis of a site against what its -48 V plant gives to this design.",
  why: "The old plant was sized for the old load.",
  fix: "Another rectifier, or equipment that draws less.",
  source: "sum of greatest consumptions",
  good: equipped("plant 100 W\nchassis SPINNEY {\n  slot 5 MIST\n}"),
  bad: equipped("plant 20 W\nchassis HEDGE {\n  slot 1 HEATH\n  slot 3 MIST\n}"),
  check({ plan, report }) {
    const plantW = plan.equipment?.plantW;
    if (plantW === undefined) return;
    const { totalW, unknown } = siteLoad(plan);
    if (totalW <= plantW) return;
    report({
      at: address("site", plan.site.name, "plant"),
      message: `${plan.site.name} draws ${apart(watts, totalW, plantW).join(", its plant gives ")}${without(unknown)}`,
    });
  },
};
